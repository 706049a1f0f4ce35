import { expect, test } from "vitest";
import { routineJson } from "../../../src/publishing/routine-json.js";
import { routineView } from "../../../src/publishing/site/routine-view.js";
import { wordingOf } from "../../../src/wording/wording.js";
import { danced, library, move, phrase, section } from "../../fixtures/written.js";

const routineOf = (steps: number) =>
  danced({
    sections: [
      section("A", [
        phrase([move("1-8", "Walk", steps === 0 ? {} : { travel: [{ way: "left", steps }], contacts: ["hands"] })]),
      ]),
    ],
  });

test("where no move travels nothing is said of room", () => {
  const [still, moving] = [routineOf(0), routineOf(2)];
  const spaces = [still, moving].map((one) => routineJson(one, library, []).versions.map(({ space }) => space));
  // Two steps of 0.6 m.
  expect(spaces).toEqual([[null], [{ width: 1.2, depth: 0 }]]);
  const { pictures, downloads } = { pictures: new Map(), downloads: [] };
  const wording = wordingOf("en");
  const view = (one: typeof still) => routineView(one, library, { pictures, downloads }, wording).versions[0];
  const said = (one: typeof still) => wording.routine.room(view(one)?.space ?? "", view(one)?.load ?? "");
  expect(said(still)).toBe("");
  expect(said(moving)).toBe("Room to travel: 1.2 m × 0 m. Weight or impact in one run: hands 1.");
  expect(wording.routine.room("", "hands 1")).toBe("Weight or impact in one run: hands 1.");
});

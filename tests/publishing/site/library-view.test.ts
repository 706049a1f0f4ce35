import { expect, test } from "vitest";
import { libraryView } from "../../../src/publishing/site/library-view.js";
import { routineFacts } from "../../../src/publishing/site/routine-facts.js";
import { en } from "../../../src/wording/en.js";
import { danced, move, phrase, section } from "../../fixtures/written.js";

/* Eight counts at 60 a minute last eight seconds. */
const facts = routineFacts(
  danced({ slug: "tide", title: "Tide", sections: [section("Ebb", [phrase([move("1-8", "Walk")])])] }),
);
const viewOf = (...routines: readonly Partial<typeof facts>[]) =>
  libraryView({ routines: routines.map((more) => ({ ...facts, seconds: 50, ...more })), workshops: [] }, en);
const keyOf = (more: Partial<typeof facts>) => viewOf(more).cards[0]?.key.replaceAll("\u00a0", " ");

test("a card's line of facts says what is there, never what is not", () => {
  expect(keyOf({})).toBe("0:50");
  expect(keyOf({ levels: ["1", "2"] })).toBe("Level 1–2 · 0:50");
  expect(keyOf({ levels: ["1", "2"], floorWork: ["1", "2"] })).toBe("Level 1–2 · 0:50 · floor work");
  // Who sits on a chair is not sent to the floor, and the line does not say so of everybody.
  expect(keyOf({ levels: ["1", "2"], adaptations: ["seated"], floorWork: ["1", "2"], onChair: ["seated"] })).toBe(
    "Level 1–2, seated · 0:50 · floor work in level 1–2",
  );
  expect(keyOf({ levels: ["1", "2", "3"], floorWork: ["3"] })).toBe("Level 1–3 · 0:50 · floor work in level 3");
  expect(keyOf({ levels: ["1", "2"], adaptations: ["standing"], onChair: ["1", "2"] })).toBe(
    "Level 1–2, standing · 0:50 · on a chair",
  );
  expect(keyOf({ levels: ["first", "improver"] })).toBe("Level first, improver · 0:50");
});

test("a card's face is the phrase with its accents, as long as a row of it can be read", () => {
  const [waltz] = viewOf({ phrase: 6, accents: [1, 4] }).cards;
  expect(waltz?.face).toEqual([
    { number: 1, accent: true },
    { number: 2, accent: false },
    { number: 3, accent: false },
    { number: 4, accent: true },
    { number: 5, accent: false },
    { number: 6, accent: false },
  ]);
  expect(viewOf({ phrase: 32 }).cards[0]?.face).toEqual([]);
});

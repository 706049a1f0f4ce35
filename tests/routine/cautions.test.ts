import { expect, it } from "vitest";
import { fromYaml } from "../fixtures/from-yaml.js";

it("a caution that holds on is said where it begins, and again where a section does", () => {
  const moves = fromYaml(`sections:
  - name: A
    counts:
      - 1-2: { do: Kneel, height: kneeling }
        3-4: { do: Rock forward, contacts: [hands, knees] }
        5: { do: Jump up, height: standing, risk: [jump] }
        6: { do: Jump, risk: [jump] }
        7-8: { do: Kneel again, height: kneeling }
  - name: B
    counts:
      - 1-2: Stay
        3-4: { do: Up into the handstand, height: inverted }
        5-6: Hold it
        7-8: { do: Down to standing, height: standing, weight: both }
      - 1: { do: Paddle, turn: 1/2 right }
        2: { do: Paddle, turn: 1/2 right }
        3: { do: Spin, turn: 1 right }
        4-8: hold
`).versions[0]?.moves;
  expect(moves?.map(({ cautions }) => cautions.join())).toEqual([
    ...["kneework", "", "jump", "jump", "kneework"],
    // Count 1 to 2 of the second phrase are one spin, count 3 another.
    ...["kneework", "inversion", "", "", "spin", "", "spin", ""],
  ]);
  // All the same they are met.
  expect(moves?.map(({ risks }) => risks.length > 0)).toEqual([
    ...[true, true, true, true, true],
    ...[true, true, true, false, true, true, true, false],
  ]);
});

it("a risk that the author names on a move is said beside it, even where it only holds on", () => {
  const { versions } = fromYaml(`levels: [1, 2]
taught: 2
sections:
  - name: A
    counts:
      - 1-2: { do: To both knees, height: kneeling, risk: [kneework], options: { 1: { do: Gather up, height: kneeling, risk: [kneework] } } }
        3: { do: Shift, risk: [kneework], options: { 1: { do: Lean, risk: [kneework] } } }
        4: Look round
        5-6: { do: Up into the handstand, height: inverted }
        7-8: { do: Walk on the hands, risk: [inversion] }
`);
  const said = versions.map(({ moves }) => moves.map(({ on, cautions }) => `${on} ${cautions.join()}`));
  const plain = ["1-2 kneework", "3 kneework", "4 ", "5-6 inversion", "7-8 inversion"];
  expect(said).toEqual([plain, plain]);
});

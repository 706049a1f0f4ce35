import { describe, expect, it } from "vitest";
import { fromYaml, readYaml, remarks } from "../fixtures/from-yaml.js";

const head = "levels: [1, 2, 3]\ntaught: 2\nsections:\n  - name: A\n    counts:\n";

function risksIn(version: string, counts: string) {
  const found = fromYaml(`${head}${counts}`).versions.find(({ id }) => id === version);
  return { moves: found?.moves.map(({ on, risks }) => [on, ...risks]), cautions: found?.cautions };
}

describe("an option for a level above the taught one", () => {
  const spin = (option: string) => `      - 1-4: { do: Spin, risk: [spin], options: ${option} }\n        5-8: Walk\n`;

  it("keeps the plain move's risks, where it has none of its own", () => {
    expect(risksIn("3", spin("{ 3: The technical version }"))).toEqual({
      ...{ moves: [["1-4", "spin"], ["5-8"]], cautions: ["spin"] },
    });
    expect(risksIn("3", spin("{ 3: { 1-2: Prepare, 3-4: Go } }")).moves).toEqual([
      ["1-2", "spin"],
      ["3-4", "spin"],
      ["5-8"],
    ]);
    expect(risksIn("3", spin("{ 3: { do: Leap, risk: jump } }")).cautions).toEqual(["jump"]);
  });

  it("loses them where it says `none`, and an easier one by silence", () => {
    expect(risksIn("3", spin("{ 3: { do: Walk round, risk: none } }")).cautions).toEqual([]);
    expect(risksIn("1", spin("{ 1: Walk round }")).cautions).toEqual([]);
  });

  it("keeps them on the same counts of a whole other phrase, or on all where nobody dances there", () => {
    const other = (moves: string) => `${spin("{}").replace(", options: {}", "")}        options: { 3: ${moves} }\n`;
    expect(risksIn("3", other("{ 1-2: Walk, 3-6: Turn it, 7-8: Stop }")).moves).toEqual([
      ["1-2", "spin"],
      ["3-6", "spin"],
      ["7-8"],
    ]);
    expect(risksIn("3", other("{ 1-4: hold, 5-8: All of it here }")).moves).toEqual([
      ["1-4", "spin"],
      ["5-8", "spin"],
    ]);
  });

  it("shows them where other versions are told of it", () => {
    const [taught] = fromYaml(`${head}${spin("{ 1: Walk, 3: Finer }")}`).versions.filter(({ id }) => id === "2");
    expect(taught?.moves[0]?.alternatives.map(({ version, moves }) => [version, moves[0]?.risks])).toEqual([
      ["1", []],
      ["3", ["spin"]],
    ]);
  });
});

it("`none` stands alone", () => {
  const { findings } = readYaml(`${head}      - 1-8: { do: Walk, risk: [none, jump] }\n`);
  expect(findings.map(({ message }) => message).join()).toContain("`none` stands alone");
});

describe("a risk that follows from the plain move's keys and that a harder option says nothing of", () => {
  const said = (move: string, more = "") =>
    remarks(`${head}      - 1-4: ${move}\n        5-8: Walk\n${more}`, "option-risks").join("\n");
  const turn = (option: string) => said(`{ do: Round, turn: 2 right, risk: [jump], options: ${option} }`);

  it("is asked for with the whole list to write", () => {
    expect(turn("{ 3: The technical version }")).toMatch(
      /^warning 10: Level 3 dances this in place of a move with spin and says nothing of it: write `risk: \[jump, spin\]`, or `risk: none` if it has none/,
    );
    const drop = said("{ do: Drop, height: kneeling, lasts: 1/2, options: { 3: { do: Land low, height: standing } } }");
    expect(drop).toContain("with floor-drop and kneework and");
    const phrase = said(
      "{ do: Round, turn: 1 right }",
      "        options: { 3: { 1-4: The technical version, 5-8: Walk } }\n",
    );
    expect(phrase).toContain("in place of moves with spin and says nothing of it: write `risk: [spin]` at the move");
  });

  it("is not where the option says so, by its keys or by `none`, nor at an easier level", () => {
    expect(turn("{ 3: { do: The technical version, turn: 1 right } }")).toBe("");
    expect(turn("{ 3: { do: The technical version, risk: none } }")).toBe("");
    expect(turn("{ 3: { do: The technical version, risk: spin } }")).toBe("");
    expect(turn("{ 3: { do: The technical version, allow: option-risks } }")).toBe("");
    expect(turn("{ 3: hold }")).toBe("");
    expect(turn("{ 1: Walk round }")).toBe("");
    expect(said("{ do: Walk, options: { 3: Run } }")).toBe("");
  });

  it("is not asked for twice where the option's words ask for the key", () => {
    const option = `${head}      - 1-8: { do: Round, turn: 2 right, options: { 3: Pirouette } }\n`;
    expect(remarks(option, "option-risks")).toEqual([]);
    expect(remarks(option, "missing-key")).toHaveLength(1);
  });
});

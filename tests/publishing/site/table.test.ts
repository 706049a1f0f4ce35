import { describe, expect, test } from "vitest";
import { anchorNames, anchorOfCount } from "../../../src/publishing/site/anchors.js";
import { countsView, type PhraseView } from "../../../src/publishing/site/counts-view.js";
import type { Routine } from "../../../src/routine/routine.js";
import { wordingOf } from "../../../src/wording/wording.js";
import { fromYaml } from "../../fixtures/from-yaml.js";
import { pageMoves } from "../../fixtures/page-moves.js";

const phrasesOf = (routine: Routine) => countsView(routine, wordingOf("en")).flatMap(({ phrases }) => phrases);
const phrases = (yaml: string) => phrasesOf(fromYaml(yaml));

/** A line as "4+2: 5–6 | (goes on)": the columns of each cell, and its counts. */
const cells = ({ lines }: PhraseView) =>
  lines.map((line) =>
    line.cells.map(({ column, span, items }) => {
      const said = items.map(({ row, ...at }) => ("on" in row ? `${row.on}@${at.column}+${at.span}` : "goes on"));
      return `${column}+${span}: ${said.join(" ")}`;
    }),
  );

describe("the counts in columns", () => {
  test("a move spans its counts, split counts share a column, and no cell ties more than its moves do", () => {
    const [phrase] = phrases(`
sections: [{ name: A, counts: [{ 1-3: Walk, 4: Clap, 4&: Clap, 5-7: Melt, 7&-8: Rise }] }]`);
    expect(phrase && cells(phrase)).toEqual([["1+3: 1–3@1+3", "4+1: 4@1+1 4&@1+1", "5+4: 5–7@1+3 7&–8@3+2"]]);
  });

  test("what versions divide otherwise stands in one cell, each move on its own counts", () => {
    const [phrase] = phrases(`
levels: [1, 2]
sections: [{ name: A, counts: [{ 1-4: Walk, 5-8: { do: Turn, options: { 2: { 5-6: Spin, 7-8: Stop } } } }] }]`);
    expect(phrase && cells(phrase)).toEqual([["1+4: 1–4@1+4", "5+4: 5–8@1+4 5–6@1+2 7–8@3+2"]]);
  });

  test("a move that runs into the next phrase goes on there, and is named where it begins", () => {
    const [first, second] = phrases(`
sections: [{ name: A, counts: [{ 1-6: Walk, 7-2: Melt }, { 3-8: Rise }] }]`);
    expect(first && cells(first)).toEqual([["1+6: 1–6@1+6", "7+2: 7–2@1+2"]]);
    expect(second && cells(second)).toEqual([["1+2: goes on", "3+6: 3–8@1+6"]]);
  });

  test("twelve counts fold into two lines of six; a move over the fold goes on in the second", () => {
    const [phrase] = phrases(`
music: { tempo: 60, first-count: 0, phrase: 12, accents: [3, 12] }
sections: [{ name: A, counts: [{ 1-5: Walk, 6-7: Melt, 8-12: Rise }] }]`);
    expect(phrase && cells(phrase)).toEqual([
      ["1+5: 1–5@1+5", "6+1: 6–7@1+1"],
      ["1+1: goes on", "2+5: 8–12@1+5"],
    ]);
    expect(
      phrase?.lines.map(({ numerals }) => numerals.map(({ text, accent }) => (accent ? `(${text})` : text))),
    ).toEqual([
      ["1", "2", "(3)", "4", "5", "6"],
      ["7", "8", "9", "10", "11", "(12)"],
    ]);
  });

  test("a move that says too much for its column is listed with the next, one under the other", () => {
    const long = "Sink ".repeat(40);
    const [phrase] = phrases(`sections: [{ name: A, counts: [{ 1-3: Walk, 4: "${long}", 5-6: Melt, 7-8: Rise }] }]`);
    expect(phrase?.lines[0]?.cells.map(({ column, span, listed }) => [column, span, listed])).toEqual([
      [1, 3, false],
      [4, 3, true],
      [7, 2, false],
    ]);
    const [last] = phrases(`sections: [{ name: A, counts: [{ 1-6: Walk, 7: Melt, 8: "${long}" }] }]`);
    expect(last?.lines[0]?.cells.map(({ column, span, listed }) => [column, span, listed])).toEqual([
      [1, 6, false],
      [7, 2, true],
    ]);
  });

  test("a pick-up stands under its own numbers", () => {
    const [phrase] = phrases("sections: [{ name: A, counts: [{ from: 7, length: 2, 7: In, 8: Look }] }]");
    expect(phrase && cells(phrase)).toEqual([["7+1: 7@1+1", "8+1: 8@1+1"]]);
    expect(phrase?.lines[0]?.numerals.map(({ text }) => text).join("")).toBe("12345678");
  });
});

describe("addresses within the page", () => {
  test("name the section, the phrase in it and the count", () => {
    const [, second] = phrases(
      "sections: [{ name: Harbour wall, counts: [{ 1-8: Walk }, { 1-4: Wait, 4&: Look, 5-8: Go }] }]",
    );
    expect(second?.anchor).toBe("harbour-wall-2");
    const items = second?.lines[0]?.cells.flatMap(({ items }) => items) ?? [];
    expect(items.map(({ anchor }) => anchor)).toEqual(
      ["1", "4-and", "5"].map((count) => ({ id: `harbour-wall-2-${count}`, here: true })),
    );
  });

  test("stand once, whatever versions and groups dance on a count", () => {
    const [phrase] = phrases(`
levels: [1, 2]
sections: [{ name: A, counts: [{ 1-8: { do: Walk, options: { 2: Run } } }] }]`);
    const items = phrase?.lines[0]?.cells.flatMap(({ items }) => items) ?? [];
    expect(items.map(({ anchor }) => anchor)).toEqual([
      { id: "a-1-1", here: true },
      { id: "a-1-1", here: false },
    ]);
  });

  test("are never two things' at once", () => {
    // "Wall 2" would have the address of the second phrase of "Wall", "Section" that of the second heading.
    expect(anchorNames(["Wall", "Wall 2", "Wall", "Section", "♪", "Прилив"])).toEqual([
      "wall",
      "section-2",
      "section-3",
      "section-4",
      "section-5",
      "прилив",
    ]);
    expect(["5–8", "4&", "3e", "7–2"].map(anchorOfCount)).toEqual(["5", "4-and", "3-e", "7"]);
  });
});

describe("while all groups are shown", () => {
  test("what two dance at once on opposite sides is one row, and the phrase says whose", () => {
    const [phrase] = phrases(`
groups: [Early, { name: Late, mirrored: yes }]
sections: [{ name: A, counts: [{ 1-4: Lean to the left, 5-8: Wait }] }]`);
    expect(pageMoves(phrase).map(({ on, classes, across, told }) => ({ on, classes, across, told }))).toEqual([
      { on: "1–4", classes: "by g0", across: "Late", told: false },
      { on: "1–4", classes: "by g1 alone", across: undefined, told: true },
      { on: "5–8", classes: "", across: undefined, told: false },
    ]);
    expect(phrase?.across).toEqual({ groups: "Early", others: "Late" });
  });

  test("what groups dance apart stays apart", () => {
    const [phrase] = phrases(`
groups: [Early, { name: Late, mirrored: yes }]
sections: [{ name: A, counts: [{ 1-4: Lean to the left, 5-8: Wait }], parts: { Late: [{ 1-4: Lean to the left, 5-8: Clap }] } }]`);
    expect(pageMoves(phrase).map(({ on, classes }) => `${on} ${classes}`)).toContain("5–8 by g1");
    expect(phrase?.across).toBeUndefined();
  });
});

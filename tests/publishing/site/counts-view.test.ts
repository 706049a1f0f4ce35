import { expect, test } from "vitest";
import { countsView, type SectionView } from "../../../src/publishing/site/counts-view.js";
import { routineFacts } from "../../../src/publishing/site/routine-facts.js";
import { choiceStyle, classesFor } from "../../../src/publishing/site/version-choice.js";
import { emptyLibrary } from "../../../src/reading/read-library.js";
import { readRoutine } from "../../../src/reading/read-routine.js";
import type { Routine } from "../../../src/routine/routine.js";
import { wordingOf } from "../../../src/wording/wording.js";
import { pageMoves } from "../../fixtures/page-moves.js";

function routineOf(frontMatter: string): Routine {
  const head = "title: T\nchoreographer: C\nmusic: { tempo: 60, first-count: 0 }\n";
  const { routine, findings } = readRoutine(`---\n${head}${frontMatter}\n---\n`, "t", emptyLibrary, "t.md");
  if (!routine) throw new Error(JSON.stringify(findings));
  return routine;
}

const viewsOf = (routine: Routine) => countsView(routine, wordingOf("en"));
const plainText = (markup: string) => markup.replace(/<[^>]*>/g, "");
const rows = ({ phrases }: SectionView, phrase = 0) =>
  pageMoves(phrases[phrase]).map(({ on, cue, classes, groups }) =>
    [on, plainText(cue.html), classes, groups].filter((part) => part !== "").join(" | "),
  );

test("what all versions dance alike stands there once, the rest with the classes of those who dance it", () => {
  const [section] = viewsOf(
    routineOf(`levels: [1, 2, 3]
taught: 2
sections:
  - name: A
    counts:
      - 1-4: Walk
        5-8: { do: Turn, options: { 1: Wait, 3: { 5-6: Spin, 7-8: Stop } } }`),
  );
  expect(rows(section as SectionView)).toEqual([
    "1–4 | Walk",
    "5–8 | Turn | of v1",
    "5–8 | Wait | of v0",
    "5–6 | Spin | of v2",
    "7–8 | Stop | of v2",
  ]);
});

test("counts that nobody named are a hold, in parts of a count too, and not where a move runs on", () => {
  const [section] = viewsOf(
    routineOf(`sections:
  - name: A
    counts:
      - 1-2: Walk
        4&: Clap
        7-2: Melt
      - 3-8: Rise`),
  );
  expect(rows(section as SectionView)).toEqual(["1–2 | Walk", "3–4 | hold", "4& | Clap", "5–6 | hold", "7–2 | Melt"]);
  expect(rows(section as SectionView, 1)).toEqual(["3–8 | Rise"]);
});

test("groups in canon stand on the room's counts, with their own beside the name", () => {
  const [section] = viewsOf(
    routineOf(`groups: [Tide, Shore]
sections:
  - name: A
    canon: { Shore: 4 }
    counts:
      - 1-4: Reach
        5-8: Fold
      - 1-8: Melt`),
  );
  // Shore begins on the room's 5, so each of its moves falls four numbers later, the last one across the phrase.
  expect(rows(section as SectionView)).toEqual([
    "1–4 | Reach | by g0 | Tide",
    "1–4 | hold | by g1 | Shore",
    "5–8 | Fold | by g0 | Tide",
    "5–8 | Reach | by g1 | Shore, own counts 1–4",
  ]);
  expect(rows(section as SectionView, 1)).toEqual([
    "1–8 | Melt | by g0 | Tide",
    "1–4 | Fold | by g1 | Shore, own counts 5–8",
    "5–4 | Melt | by g1 | Shore, own counts 1–8",
  ]);
  expect(rows(section as SectionView, 2)).toEqual(["1–4 | hold | by g0 | Tide"]);
  expect(section?.canon).toEqual(["Shore: the same, 4 counts later"]);
});

test("a group in canon that dances on the other side is said to", () => {
  const [section] = viewsOf(
    routineOf(`groups: [Tide, { name: Shore, mirrored: yes }]
sections: [{ name: A, canon: { Shore: 1 }, counts: [{ 1-8: Lean to the left }] }]`),
  );
  expect(section?.canon).toEqual(["Shore: the same on the other side, 1 count later"]);
});

test("a move that outlasts its numbers says how long it is", () => {
  const [section] = viewsOf(
    routineOf(`sections: [{ name: A, counts: [{ 1-4: Walk, 5: { do: Melt, lasts: 10 } }, { 7-8: Rise }] }]`),
  );
  expect(pageMoves(section?.phrases[0]).map(({ on, lasts }) => [on, lasts])).toEqual([
    ["1–4", undefined],
    ["5", "10 counts"],
  ]);
});

test("track times of every time that a section is danced, and links into the performance", () => {
  const [section] = viewsOf(
    routineOf(`video: { performance: https://example.org/p }
times: 2
sections:
  - name: A
    counts: [{ 1-8: Walk }]`),
  );
  expect(section?.times).toEqual([
    { clock: "0:00.0", through: "time 1" },
    { clock: "0:08.0", through: "time 2" },
  ]);
  expect(section?.videos.map(({ html }) => html)).toEqual(['<a href="https://example.org/p#t=0">Performance</a>']);
});

test("the style sheet has a rule for every version that a routine of the library has", () => {
  const routine = routineOf("levels: [1, 2]\nsections: [{ name: A, counts: [{ 1-8: Walk }] }]");
  expect(classesFor(routine, new Set(["2"]))).toBe("of v1");
  expect(classesFor(routine, new Set(["1", "2"]))).toBe("");
  const style = choiceStyle([routineFacts(routine)]);
  expect(style).toContain("body:has(#v1:checked) .of:not(.v1)");
  expect(style).not.toContain("#v2");
});

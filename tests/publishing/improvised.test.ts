import { expect, test } from "vitest";
import { countCaptions } from "../../src/publishing/captions/count-captions.js";
import { drawHandout } from "../../src/publishing/handout/handout.js";
import { planText } from "../../src/publishing/plan-text.js";
import { routineJson } from "../../src/publishing/routine-json.js";
import { countsView } from "../../src/publishing/site/counts-view.js";
import { routineView } from "../../src/publishing/site/routine-view.js";
import { routineData } from "../../src/publishing/site/structured-data.js";
import { mirror } from "../../src/routine/mirror.js";
import { planClass } from "../../src/teaching/plan.js";
import { wordingOf } from "../../src/wording/wording.js";
import { cues, score } from "../../templates/script/practice/score.js";
import { fromYaml, remarks } from "../fixtures/from-yaml.js";
import { pageMoves } from "../fixtures/page-moves.js";
import { readText, spaced } from "../fixtures/read-pdf.js";
import { library } from "../fixtures/written.js";
import { libraryWith, saidIn, stepsOf, workshopOf } from "../teaching/builder.js";

const wording = wordingOf("en");

/* At a count a second: Verse 0-8, Solo 8-16, Verse on the other side 16-24. */
const yaml = `music: { tempo: 60, first-count: 0:10, accents: [4] }
sections:
  - name: Verse
    counts:
      - 1-3: { do: Step left and sway, step: [left, right, left] }
        4: { do: Stamp right, step: right, hit: yes }
        5-8: { do: "Turn right away, kick left, jump if you like", say: right and left, improvised: yes, risk: [jump] }
  - { name: Solo, improvised: yes, counts: [{ length: 8 }] }
  - name: Verse over there
    same-as: Verse
    mirrored: yes`;
const routine = fromYaml(yaml);
const [version] = routine.versions;
if (version === undefined) throw new Error("It has no version.");
const record = routineJson(routine, library, []);
const moves = record.versions[0]?.moves ?? [];

test("what is improvised is counted, has its risks, and leaves the weight open until a move says where it is", () => {
  expect(moves.map(({ at, length, do: cue, improvised }) => [at, length, cue.slice(0, 10), improvised])).toEqual([
    ["0", "3", "Step left ", undefined],
    ["3", "1", "Stamp righ", undefined],
    ["4", "4", "Turn right", true],
    ["8", "8", "Solo", true],
    ["16", "3", "Step right", undefined],
    ["19", "1", "Stamp left", undefined],
    ["20", "4", "Turn right", true],
  ]);
  expect(moves.map(({ weight }) => weight)).toEqual(["left", "right", null, null, "right", "left", null]);
  expect(record.versions[0]?.end.weight).toBeNull();
  expect(record.versions[0]?.cautions).toEqual(["jump"]);
  expect(record.sections.map(({ improvised, counts: size }) => [size, improvised])).toEqual([
    [8, undefined],
    [8, true],
    [8, undefined],
  ]);
});

test("its words are never mirrored, on any side", () => {
  const own = moves.filter(({ improvised }) => improvised);
  for (const { do: cue, mirrored, say, mirroredSay } of own) expect([mirrored, mirroredSay]).toEqual([cue, say]);
  expect(own[2]?.do).toBe(own[0]?.do);
  const other = mirror(routine).versions[0]?.moves.filter(({ improvised }) => improvised) ?? [];
  expect(other.map(({ cue }) => cue.text)).toEqual(own.map(({ do: cue }) => cue));
});

test("nobody checks its feet, its sides or its accents, nor where the weight is after it", () => {
  const rules = ["same-foot", "left-right", "left-alone", "accent-without-hit", "empty-counts", "danced-again"];
  expect(rules.flatMap((rule) => remarks(yaml, rule))).toEqual([]);
  // The same without the key: the second step is onto the foot that has the weight, and the mirror is unsure.
  const set = (own: string) => `sections:
  - name: Verse
    counts:
      - 1: { do: Step left, step: left }
        2-7: { do: "Right away, anything", step: right, weight: left${own} }
        8: { do: Step left, step: left }`;
  expect(remarks(set(""), "same-foot")).toHaveLength(1);
  expect(remarks(set(""), "left-alone")).toHaveLength(1);
  const open = set(", improvised: yes").replace("weight: left, ", "");
  expect(remarks(open, "same-foot").concat(remarks(open, "left-alone"))).toEqual([]);
});

test("an improvised section may be another's counts, and leaves that one as it is", () => {
  const solo = fromYaml(`sections:
  - name: Verse
    counts: [{ 1-4: Walk, 5-8: Turn in }]
  - { name: Yours, same-as: Verse, improvised: yes }`);
  expect(solo.versions[0]?.moves.map(({ improvised }) => improvised)).toEqual([false, false, true, true]);
});

test("page, player, captions and paper say whose it is", async () => {
  const page = countsView(routine, wording);
  expect(page.map(({ improvised }) => improvised)).toEqual([false, true, false]);
  const rows = page.flatMap(({ phrases }) => phrases.flatMap(pageMoves));
  expect(rows.map(({ improvised }) => improvised)).toEqual([false, false, true, true, false, false, true]);

  const player = cues(record, score(record), { version: "1", otherSide: true, group: "" }, wording.player);
  expect(player[3]?.text).toBe("yours: Solo");

  expect(countCaptions(routine, library)).toContain("00:00:18.000 --> 00:00:26.000\n<b>1-8</b> (yours) Solo");

  const paper = spaced(await readText(await drawHandout(routine, version, library, "sheet")));
  expect(paper).toContain("yours: Solo");
  expect(paper).toContain("yours: dance what you like");
  expect(spaced(await readText(await drawHandout(routine, version, library, "card")))).toContain("Solo yours");
});

test("a class has it explained and shown, and drills and marks the rest alone", () => {
  const plan = planClass(workshopOf([routine], 60), libraryWith({}));
  const [, solo] = plan.chunks;
  expect([solo?.name.section, solo?.improvised]).toEqual(["Solo", true]);
  const steps = stepsOf(plan);
  const alone = steps.filter(({ chunks }) => chunks.length === 1 && chunks[0] === solo?.id);
  expect(alone.map(({ kind }) => kind)).toEqual(["explain"]);
  expect(steps.some(({ kind, chunks }) => kind === "run-through" && chunks.includes(solo?.id ?? ""))).toBe(true);
  const hard = steps.flatMap(({ moves: taken = [] }) => taken.map(({ cue }) => cue));
  expect(hard.join()).not.toContain("Turn right away");
  const [said] = saidIn(plan, ({ kind }) => kind === "explain");
  expect(said).toMatch(/^Theirs\. Say what they may dance there.* Give it room/);
});

test("nor does it drill the counts in which a group in canon still improvises, or mark what one group alone has to learn", () => {
  const solo = fromYaml(`groups: [Ebb, Flood]
sections:
  - { name: Solo, improvised: yes, canon: { Flood: 4 }, counts: [{ length: 8 }] }
  - name: Half
    counts: [{ 1-8: { do: Anything, improvised: yes } }]
    parts: { Flood: [{ 1-8: Walk in a circle }] }`);
  const { chunks, ...plan } = planClass(workshopOf([solo], 60), libraryWith({}));
  expect(chunks.map(({ section, counts, improvised }) => [section, counts, improvised])).toEqual([
    ["Solo", 12, true],
    ["Half", 8, undefined],
  ]);
  expect(
    stepsOf(plan)
      .filter(({ kind }) => kind === "drill")
      .every(({ sections }) => sections.join() === "Half"),
  ).toBe(true);
});

test("a class plan says on which counts nothing is danced, as a habit", () => {
  const pausing = fromYaml(
    "music: { tempo: 60, pauses: [4, 8] }\nsections: [{ name: A, counts: [{ 1-3: Walk, 5-7: Sway }] }]",
  );
  const plan = planClass(workshopOf([pausing], 30), library);
  expect(planText(plan, wording).summary).toContain("Low Tide: nothing is danced on 4 and 8 of each phrase.");
  expect(planText(planClass(workshopOf([routine], 30), library), wording).summary.join()).not.toContain(
    "nothing is danced",
  );
});

test("whoever reads a page's facts hears which section is the dancers' own", () => {
  const view = routineView(routine, library, { pictures: new Map(), downloads: [] }, wording);
  const { step } = routineData(routine, view, library, wording) as unknown as { step: readonly { text: string }[] };
  expect(step.map(({ text }) => text)).toEqual(["8 counts", "8 counts, yours: dance what you like", "8 counts"]);
});

import { mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { countCaptions } from "../../src/publishing/captions/count-captions.js";
import { numberCaptions } from "../../src/publishing/captions/number-captions.js";
import { sampleRate, writeClick } from "../../src/publishing/click/wav.js";
import { descriptionText } from "../../src/publishing/description/description.js";
import { phraseMap } from "../../src/publishing/drawing/phrase-map.js";
import { drawHandout } from "../../src/publishing/handout/handout.js";
import { routineJson } from "../../src/publishing/routine-json.js";
import { countsView } from "../../src/publishing/site/counts-view.js";
import { routineFacts } from "../../src/publishing/site/routine-facts.js";
import { routineView } from "../../src/publishing/site/routine-view.js";
import { clicks } from "../../src/routine/clicks.js";
import { materialOf } from "../../src/teaching/material-of.js";
import { planClass } from "../../src/teaching/plan.js";
import { runSeconds } from "../../src/teaching/steps.js";
import { wordingOf } from "../../src/wording/wording.js";
import { begin, layOut, type Moment, next, positionAt } from "../../templates/script/practice/schedule.js";
import { cues, score } from "../../templates/script/practice/score.js";
import { sightAt } from "../../templates/script/practice/sight.js";
import { fromYaml, readYaml } from "../fixtures/from-yaml.js";
import { readText, spaced } from "../fixtures/read-pdf.js";
import { library } from "../fixtures/written.js";
import { libraryWith, saidIn, stepsOf, workshopOf } from "../teaching/builder.js";

const wording = wordingOf("en");

/*
 * At a count a second, from the first count at 0:20: Speech from -18 to -3 (0:02 in the track), Verse 0 to 8, Breath 8 to 13,
 * Chorus 13 to 21, Bow 21 to 31.
 */
const yaml = `music: { tempo: 60, first-count: 0:20 }
sections:
  - { name: Speech, seconds: 15, at: 0:02, words: once there was a ferry }
  - { name: Verse, counts: [{ 1-4: Walk, 5-8: Turn in }] }
  - { name: Breath, seconds: 5 }
  - { name: Chorus, counts: [{ 1-8: Sway }] }
  - { name: Bow, seconds: 10 }`;
const routine = fromYaml(yaml);
const [version] = routine.versions;
if (version === undefined) throw new Error("It has no version.");
const record = routineJson(routine, library, []);

test("time without counts lies before, between and after the counts, which stay where they are", () => {
  expect(
    record.sections.map(({ name, counts, at, start, seconds, trackTime }) => [
      name,
      counts,
      at,
      start,
      seconds,
      trackTime,
    ]),
  ).toEqual([
    ["Speech", 0, "0", -18, 15, 2],
    ["Verse", 8, "0", 0, 8, 20],
    ["Breath", 0, "8", 8, 5, 28],
    ["Chorus", 8, "8", 13, 8, 33],
    ["Bow", 0, "16", 21, 10, 41],
  ]);
  expect(record.sections.map(({ uncounted, countsPerMinute }) => [uncounted, countsPerMinute])).toEqual([
    [true, undefined],
    [undefined, 60],
    [true, undefined],
    [undefined, 60],
    [true, undefined],
  ]);
  expect([record.counts, record.seconds, record.music.firstCount]).toEqual([16, 21, 20]);
  expect(record.versions[0]?.moves.map(({ start, seconds }) => [start, seconds])).toEqual([
    [0, 4],
    [4, 4],
    [13, 8],
  ]);
});

test("its clock runs whatever the speed: 16 counts are stretched, five seconds are not", () => {
  // At 75 %: 16 / 0.75 + 5.
  expect(record.practice.find(({ percent }) => percent === 75)?.seconds).toBe(26.333);
  expect(record.practice.find(({ percent }) => percent === 100)?.seconds).toBe(21);
});

test("a run is said to take what it takes, with what comes before the first count and after the last", async () => {
  // From 0:02 to 0:51 in the track; at 75 % the 16 counts take 5.3 s longer, and nothing else does.
  const view = routineView(routine, library, { pictures: new Map(), downloads: [] }, wording);
  expect([view.run, view.practice.find(({ percent }) => percent === 75)?.run]).toEqual(["0:49", "0:54"]);
  expect(routineFacts(routine).seconds).toBe(49);
  const text = descriptionText(routine, library);
  expect(text).toContain("16 counts at 60 a minute, one run in 0:49.");
  expect(text).toContain("75%: 45 counts a minute, one run in 0:54");
  for (const kind of ["sheet", "large"] as const)
    expect(spaced(await readText(await drawHandout(routine, version, library, kind)))).toContain("0:49");
});

test("clicks are silent in it, and begin with the count-in to the first count", () => {
  const all = [...clicks(routine)].map(({ start }) => start.valueOf());
  expect(all).toEqual([-4, -3, -2, -1, 0, 1, 2, 3, 4, 5, 6, 7, 13, 14, 15, 16, 17, 18, 19, 20]);
});

test("the click as audio waits as long at half speed", async () => {
  const folder = mkdtempSync(join(tmpdir(), "uncounted-"));
  try {
    const out = join(folder, "click.wav");
    await writeClick(routine, { percent: 50, out });
    // Four counts in and 16 counts at two seconds each, and five seconds; two bytes a sample after 44 of header.
    expect((statSync(out).size - 44) / 2 / sampleRate).toBe(45);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test("where nobody says where the first count falls, an opening's place in the track does", () => {
  const opened = fromYaml(yaml.replace(", first-count: 0:20", "").replace("at: 0:02", "at: 0:05"));
  expect(opened.music.firstCount?.valueOf()).toBe(20);
  expect(opened.sections[0]?.start.valueOf()).toBe(-15);
  const bare = fromYaml(yaml.replace(", first-count: 0:20", "").replace(" at: 0:02,", ""));
  expect([bare.music.firstCount, bare.sections[0]?.start.valueOf()]).toEqual([undefined, -15]);
});

test.each([
  ["counts: [{ 1-8: Walk }]", "`counts` can't stand beside `seconds`"],
  ["tempo: 90", "`tempo` can't stand beside `seconds`"],
  ["time: half", "`time` can't stand beside `seconds`"],
  ["feel: swing", "`feel` can't stand beside `seconds`"],
  ["mirrored: yes", "`mirrored` can't stand beside `seconds`"],
  ["same-as: Verse", "`same-as` can't stand beside `seconds`"],
  ["change: { 1: { 1-8: Walk } }", "`change` can't stand beside `seconds`"],
  ["canon: { Ebb: 4 }", "`canon` can't stand beside `seconds`"],
  ["parts: { Ebb: [{ 1-8: Walk }] }", "`parts` can't stand beside `seconds`"],
  ["improvised: yes", "`improvised` can't stand beside `seconds`"],
])("%s beside it is an error", (more, message) => {
  const { findings, routine: none } = readYaml(yaml.replace("seconds: 5", `seconds: 5, ${more}`));
  expect(none).toBeUndefined();
  expect(findings.map((one) => one.message).join("\n")).toContain(message);
});

test.each([
  ["a move that runs on across it", yaml.replace("5-8: Turn in", "5-2: Turn in"), "runs on into Breath"],
  ["a length that does", yaml.replace("5-8: Turn in", "5: { do: Melt, lasts: 6 }"), "runs on into Breath"],
  ["a section danced as it", `${yaml}\n  - { name: Again, same-as: Breath }`, "write `seconds: 5` here too"],
  ["nothing but it", "sections: [{ name: Breath, seconds: 5 }]", "No section has counts"],
  [
    "one into which the next section's time falls",
    yaml.replace("name: Chorus,", "name: Chorus, at: 0:30,"),
    "This lasts 3 s longer",
  ],
  ["one that outlasts the way to the first count", yaml.replace("at: 0:02", "at: 0:10"), "This lasts 5 s longer"],
])("%s is an error", (_, wrong, message) => {
  expect(
    readYaml(wrong)
      .findings.flatMap((one) => (one.severity === "error" ? [one.message] : []))
      .join("\n"),
  ).toContain(message);
});

test("page, paper, captions, map and video text have it, each once", async () => {
  const page = countsView(routine, wording);
  expect(page.map(({ seconds, times, phrases }) => [seconds, times[0]?.clock, phrases.length])).toEqual([
    [15, "0:02.0", 0],
    [undefined, "0:20.0", 1],
    [5, "0:28.0", 0],
    [undefined, "0:33.0", 1],
    [10, "0:41.0", 0],
  ]);
  const paper = spaced(await readText(await drawHandout(routine, version, library, "sheet")));
  for (const text of ["15 seconds, no counts", " 5 seconds, no counts", "10 seconds, no counts"])
    expect(paper.split(text)).toHaveLength(2);
  expect(countCaptions(routine, library)).toContain(
    "00:00:02.000 --> 00:00:17.000\nSpeech (no counts)\n<i>once there was a ferry</i>",
  );
  expect(countCaptions(routine, library)).toContain("00:00:28.000 --> 00:00:33.000\nBreath (no counts)");
  expect(numberCaptions(routine, library)).not.toContain("00:00:28.000 -->");
  const map = phraseMap(routine, version, { width: 500, size: 8, wording });
  expect(map.description).toContain("0:02.0 Speech, 15 seconds, no counts; 0:20.0 Verse, 8 counts");
  expect(descriptionText(routine, library)).toContain("Breath: 5 seconds, no counts");
});

/** Every moment of a practice: the clock's time, and what sounds. */
function moments(from: number, to: number, percent: number): readonly Moment[] {
  const all: Moment[] = [];
  const wish = { from, to, loops: false, countInAgain: true };
  for (let moment = begin(layOut(score(record), wish), 0, percent); moment; moment = next(moment)) all.push(moment);
  return all;
}

test("the player waits it out at any speed and counts in again", () => {
  const told = moments(1, 3, 50).map(({ time, step }) => [time, step.sound]);
  // Four counts in and eight danced at two seconds each; one second of waiting; four counts in; the chorus.
  expect(told[0]).toEqual([0, "count-in"]);
  expect(told[4]).toEqual([8, "count"]);
  expect(told.slice(12, 18)).toEqual([
    [24, "still"],
    [25, "count-in"],
    [27, "count-in"],
    [29, "count-in"],
    [31, "count-in"],
    [33, "count"],
  ]);
  expect(told.at(-1)).toEqual([49, undefined]);
  const still = moments(1, 3, 50)[12];
  expect(still && positionAt(still, 24.5)).toBe(8.5);
});

test("a run that begins with it waits before it counts in, and one that is nothing else just waits", () => {
  const opening = moments(0, 1, 50).map(({ time, step }) => [time, step.sound]);
  // From -18: fourteen seconds of waiting, then four counts in.
  expect(opening.slice(0, 6)).toEqual([
    [0, "still"],
    [14, "count-in"],
    [16, "count-in"],
    [18, "count-in"],
    [20, "count-in"],
    [22, "count"],
  ]);
  expect(moments(2, 2, 50).map(({ time, step }) => [time, step.sound])).toEqual([
    [0, "still"],
    [5, undefined],
  ]);
});

test("the player shows which section it waits in, and what comes then", () => {
  const shown = cues(record, score(record), { version: "1", otherSide: false, group: "" }, wording.player);
  const at = (position: number, begins = 0) => {
    const { section, state, count, cue, next: then } = sightAt(score(record), shown, { begins }, position);
    return [section, state, count, cue?.text, then?.text];
  };
  expect(at(-10)).toEqual([0, "wait", "", undefined, "Walk"]);
  expect(at(-3.5)).toEqual([0, "count-in", "5", undefined, "Walk"]);
  expect(at(8.5)).toEqual([2, "wait", "", undefined, "Sway"]);
  expect(at(12.5)).toEqual([2, "wait", "8", undefined, "Sway"]);
  expect(at(25)).toEqual([4, "wait", "", undefined, undefined]);
});

test("a class has it explained, waits for it in every run that comes by it, at any speed, and drills nothing there", () => {
  const plan = planClass(workshopOf([routine], 60), libraryWith({}));
  expect(plan.chunks.map(({ section }) => section)).toEqual(["Speech", "Verse", "Breath", "Chorus", "Bow"]);
  const alone = stepsOf(plan).filter(({ sections }) => /^(Speech|Breath|Bow)$/.test(sections.join()));
  expect(alone.map(({ kind }) => kind)).toEqual(["explain", "explain", "explain"]);
  expect(saidIn(plan, ({ kind }) => kind === "explain")[0]).toMatch(/^Without counts\. Say what happens in it/);
  const part = materialOf([routine], "1", plan.settings).parts.at(-1);
  if (part === undefined) throw new Error("There is nothing to teach.");
  // 15 + 5 + 10 seconds beside 16 counts, and four counts in; with the song from 0:02 on, 49 seconds to the end of the bow.
  expect([part.fromTheTop.seconds.valueOf(), part.fromTheTop.uncounted.valueOf()]).toEqual([46, 30]);
  expect(runSeconds(part.fromTheTop, 50, { ...plan.settings, again: 0 }).valueOf()).toBe(2 * (4 + 16) + 30);
  expect(part.withSong.seconds.valueOf()).toBe(49);
});

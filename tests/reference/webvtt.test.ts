import Fraction from "fraction.js";
import { expect, test } from "vitest";
import { countCaptions } from "../../src/publishing/captions/count-captions.js";
import { captions } from "../../src/publishing/captions/publisher.js";
import { routineJson } from "../../src/publishing/record/routine-json.js";
import { readContent } from "../../src/reading/read-content.js";
import type { Routine } from "../../src/routine/routine.js";
import { contextOf } from "../fixtures/context.js";
import { lowTide } from "../fixtures/low-tide.js";
import { readCaptions } from "../fixtures/read-captions.js";
import { library } from "../fixtures/written.js";

/* W3C WebVTT (Candidate Recommendation), read by webvtt-parser, the W3C's own validator: any error it finds throws. */

const routines = [lowTide, ...(await readContent("content")).routines].map(
  (one) => [one.slug, one] as [string, Routine],
);

async function filesOf(routine: Routine): Promise<ReadonlyMap<string, string>> {
  const files = await captions.publish(routine, contextOf(library));
  return new Map(files.map(({ path, content }) => [path.split("/").at(-1) ?? "", String(content)]));
}

test.each(routines)("%s: counts.vtt has a cue a move, at the times of routine.json", async (_, routine) => {
  const cues = readCaptions((await filesOf(routine)).get("counts.vtt") ?? "");
  const figures = routineJson(routine, library, []);
  const version = figures.versions.find(({ id }) => id === routine.taught);
  const groups = [{ moves: version?.moves ?? [] }, ...(version?.groups ?? [])];
  const moves = version?.moves ?? [];
  if (routine.groups.length > 0) {
    // Where groups dance different counts at once, each has captions with its name, and what all dance has one.
    const all = groups.flatMap((group) => group.moves);
    expect(new Set(cues.map(({ start }) => start))).toEqual(new Set(all.map(({ trackTime }) => trackTime)));
    for (const { start, text } of cues) {
      const said = all.filter(({ trackTime }) => trackTime === start).map((move) => `${move.on} ${move.do}`);
      expect(said.some((words) => text.split("\n")[0]?.endsWith(words))).toBe(true);
    }
    return;
  }
  expect(moves.length).toBeGreaterThan(0);
  expect(cues.map(({ start }) => start)).toEqual(moves.map(({ trackTime }) => trackTime));
  for (const [index, { trackTime, seconds, on, do: text }] of moves.entries()) {
    // Both ends are rounded from exact times, so the rounded length may differ by a millisecond.
    expect(Math.abs((cues[index]?.end ?? 0) - ((trackTime ?? 0) + seconds))).toBeLessThan(0.00101);
    expect(cues[index]?.text.split("\n")[0]).toBe(`${on} ${text}`);
  }
});

test.each(routines)("%s: numbers.vtt has a cue a count, at the times of routine.json", async (_, routine) => {
  const cues = readCaptions((await filesOf(routine)).get("numbers.vtt") ?? "");
  const { clicks } = routineJson(routine, library, []);
  expect(cues.slice(-clicks.length).map(({ start }) => start)).toEqual(clicks.map(({ trackTime }) => trackTime));
  expect(cues.slice(-clicks.length).map(({ text }) => text.endsWith("!"))).toEqual(clicks.map(({ accent }) => accent));
});

test.each(routines)("%s: chapters.vtt follows the author's times and closes with the video", async (_, routine) => {
  const { chapters, length } = routine.video;
  const file = (await filesOf(routine)).get("chapters.vtt");
  expect(file !== undefined).toBe(length !== undefined && chapters.length > 0);
  if (file === undefined) return;
  const cues = readCaptions(file, "chapters");
  expect(cues.map(({ start }) => start)).toEqual(chapters.map(({ at }) => at.valueOf()));
  expect(cues.map(({ text }) => text)).toEqual(chapters.map(({ title }) => title));
  expect(cues.at(-1)?.end).toBe(length?.valueOf());
});

test.each(routines)("%s: captions with a lead are sound too", (_, routine) => {
  for (const lead of [1, 2, 4, 8])
    expect(readCaptions(countCaptions(routine, library, lead)).length).toBeGreaterThan(0);
});

test("hours have two digits or more, seconds three decimals", () => {
  const late = { ...lowTide, music: { ...lowTide.music, firstCount: new Fraction("7214.2") } };
  expect(countCaptions(late, library)).toContain("\n02:00:14.200 --> 02:00:16.157\n");
});

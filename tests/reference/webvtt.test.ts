import Fraction from "fraction.js";
import { expect, test } from "vitest";
import { countCaptions } from "../../src/publishing/captions/count-captions.js";
import { captions } from "../../src/publishing/captions/publisher.js";
import { routineJson } from "../../src/publishing/routine-json.js";
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

/** A count and its call, and what is read after them. */
const head = (line: string) => /^\S+( “[^”]*”)?/.exec(line)?.[0] ?? "";

test.each(routines)("%s: counts.vtt shows every move, at the times of routine.json", async (_, routine) => {
  const cues = readCaptions((await filesOf(routine)).get("counts.vtt") ?? "");
  const figures = routineJson(routine, library, []);
  const version = figures.versions.find(({ id }) => id === routine.taught);
  const groups = [{ moves: version?.moves ?? [] }, ...(version?.groups ?? [])];
  const moves = version?.moves ?? [];
  if (routine.groups.length > 0) {
    // Where groups dance different counts at once, each has captions with its name, and what all dance has one.
    const all = groups.flatMap((group) => group.moves);
    const starts = new Set(all.map(({ trackTime }) => trackTime));
    expect(cues.filter(({ start }) => !starts.has(start))).toEqual([]);
    return;
  }
  expect(moves.length).toBeGreaterThan(0);
  const lines = cues.flatMap(({ start, end, text }) => text.split("\n").map((line) => ({ start, end, line })));
  let next = 0;
  for (const { trackTime, on, do: text, say } of moves) {
    if (Array.isArray(say) && say.length === 0) continue;
    // Landing words stand on a line of their own.
    while (!lines[next]?.line.startsWith(on) && next < lines.length) next++;
    const { start = 0, end = 0, line = "" } = lines[next++] ?? {};
    expect(line.startsWith(on), `${trackTime} ${on}`).toBe(true);
    expect(start).toBeLessThanOrEqual(trackTime ?? Number.NaN);
    expect(end).toBeGreaterThan(trackTime ?? Number.NaN);
    const read = line.slice(head(line).length).trim();
    expect(text.startsWith(read.replace(/…$/, "")), line).toBe(true);
  }
  for (const { start, end, text } of cues) {
    expect(end - start, text).toBeGreaterThanOrEqual(0.799);
    const heads = text.split("\n").map(head).join("").length;
    expect(text.replace(/\s/g, "").length, text).toBeLessThanOrEqual(Math.max(heads, (end - start) * 20 + 1));
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

// What runs inside the page is typed as a page.
/// <reference lib="dom" />

import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { captions } from "../../src/publishing/captions/publisher.js";
import { writeClick } from "../../src/publishing/click/wav.js";
import { routineJson } from "../../src/publishing/routine-json.js";
import { contextOf } from "../fixtures/context.js";
import { lowTide } from "../fixtures/low-tide.js";
import { library } from "../fixtures/written.js";
import { openBrowser, serveFolder } from "./browser.js";

let folder: string;
let browser: Browser;
let page: Page;
let server: Awaited<ReturnType<typeof serveFolder>>;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "captions-"));
  for (const { path, content } of await captions.publish(lowTide, contextOf(library)))
    await writeFile(join(folder, path.split("/").at(-1) ?? ""), content);
  await writeFile(join(folder, "index.html"), "<!doctype html><title>Captions</title><video></video>");
  await writeClick(lowTide, { percent: 100, out: join(folder, "click.wav") });
  server = await serveFolder(folder);
  browser = await openBrowser();
  page = await browser.newPage();
  await page.goto(server.url);
});

afterAll(async () => {
  await browser?.close();
  await server?.close();
  await rm(folder, { recursive: true });
});

/** The cues of a file as the browser's own parser reads them through a `<track>`. */
async function shown(file: string, kind: "captions" | "chapters") {
  return page.evaluate(
    ([src, kind]) =>
      new Promise<{ id: string; start: number; end: number; text: string }[]>((done, failed) => {
        const track = document.createElement("track");
        track.addEventListener("load", () => {
          const cues = Array.from<TextTrackCue>(track.track.cues ?? []) as VTTCue[];
          done(
            cues.map((cue) => ({
              id: cue.id,
              start: cue.startTime,
              end: cue.endTime,
              text: cue.getCueAsHTML().textContent ?? "",
            })),
          );
        });
        track.addEventListener("error", () => failed(new Error(`the browser refuses ${src}`)));
        track.kind = kind;
        track.src = src;
        document.querySelector("video")?.append(track);
        track.track.mode = "hidden";
      }),
    [file, kind] as const,
  );
}

test("the browser's own parser reads every move, at the times of routine.json", async () => {
  const cues = await shown("counts.vtt", "captions");
  const { versions } = routineJson(lowTide, library, []);
  const moves = versions.find(({ id }) => id === "2")?.moves ?? [];
  const starts = new Set(moves.map(({ trackTime }) => trackTime));
  expect(cues.filter(({ start }) => !starts.has(start))).toEqual([]);
  const lines = cues.flatMap(({ text }) => text.split("\n"));
  for (const { on } of moves) expect(lines.some((line) => line.startsWith(`${on} `))).toBe(true);
  expect(lines.filter((line) => line.startsWith("3& Right"))).toHaveLength(1);
  expect(cues[0]?.id).toBe("1 Harbour wall");
});

test("the plain counts and the chapters load too", async () => {
  const numbers = await shown("numbers.vtt", "captions");
  expect(numbers.slice(4, 12).map(({ text }) => text)).toEqual(["1", "2", "3", "4!", "5", "6", "7", "8!"]);
  expect(await shown("chapters.vtt", "chapters")).toEqual([
    { id: "", start: 0, end: 63, text: "What you need" },
    { id: "", start: 63, end: 760, text: "Harbour wall, counts and words" },
  ]);
});

test("the browser decodes the click's sound, with its first count after the count-in", async () => {
  const wav = await readFile(join(folder, "click.wav"));
  const heard = await page.evaluate(async () => {
    const context = new OfflineAudioContext(1, 1, 48_000);
    const sound = await context.decodeAudioData(await (await fetch("click.wav")).arrayBuffer());
    const samples = sound.getChannelData(0);
    const from = Math.round((4 * 60 * sound.sampleRate) / 92);
    return {
      channels: sound.numberOfChannels,
      length: sound.length,
      before: samples[from - 1],
      at: samples[from] ?? 0,
    };
  });
  expect(heard).toMatchObject({ channels: 1, length: (wav.length - 44) / 2, before: 0 });
  expect(heard.at).toBeCloseTo(0.45, 2);
});

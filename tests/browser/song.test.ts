import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Serving, serveLibrary } from "../../src/build/live/serve.js";
import { writeContent } from "../build/run.js";
import { wav } from "../fixtures/wav.js";
import { render } from "../hearing/song/render.js";
import { openBrowser } from "./browser.js";

const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
const work = mkdtempSync(join(tmpdir(), "countleaf-song-desk-"));
const content = join(work, "content");
const file = join(content, "routines/low-tide.md");
const phrases = "[{ 1-4: Walk, 5-8: Turn }, { 1-8: Sway }]";
const text = `---
title: Low Tide
choreographer: Ines Varga
date: 2026-10-02
music:
  title: Low Tide # by the Ferry Clerks
  tempo: about 90
  accents: [1, 5]
sections:
  - name: Shore
    counts: ${phrases}
  - name: Swell
    counts: ${phrases}
---
Two sections.
`;
/* 104 counts a minute: neither what the file says nor half of it. */
const song = render({ countsPerMinute: 104, swung: false, kind: "plain", band: "kit", seed: 5, rate: 22_050, seconds: 30 });
const wave = { name: "low-tide.wav", mimeType: "audio/wav", buffer: wav(song.samples, song.rate) };
let browser: Browser;
let served: Serving;

beforeAll(async () => {
  writeContent(content, { "routines/low-tide.md": text });
  [browser, served] = await Promise.all([
    openBrowser(),
    serveLibrary({ content, port: 0, told: () => {}, failed: () => {} }),
  ]);
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
  rmSync(work, { recursive: true, force: true });
});

/** A page at the desk; what goes wrong on it is listed, and what it asks for elsewhere. */
async function open(path: string, options: Parameters<Browser["newContext"]>[0] = {}) {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("console", (message) => message.type() === "error" && faults.push(message.text()));
  page.on("request", (request) => {
    const url = request.url();
    if (!url.startsWith(served.address) && !url.startsWith("blob:")) faults.push(url);
    // A song is larger than whatever is asked.
    if ((request.postDataBuffer()?.length ?? 0) > 1000) faults.push(`${url} was sent too much`);
  });
  await page.goto(served.address + path);
  return { page, faults, close: () => context.close() };
}

const figure = async (page: Page, id: string) => (await page.locator(id).textContent()) ?? "";
const look = async (page: Page, name: string) => {
  if (process.env.DESK_LOOK) await page.screenshot({ path: `${process.env.DESK_LOOK}/${name}.png`, fullPage: true });
};

describe("the song desk", () => {
  test("leads from a routine and its song to the lines in its file", async () => {
    const { page, faults, close } = await open("routines/low-tide/", { viewport: { width: 1280, height: 900 } });
    await page.getByRole("link", { name: "Find this song’s counts" }).click();
    await page.locator("#file").setInputFiles(wave);
    await expect.poll(() => figure(page, "#news"), { timeout: 5000 }).toContain("The song is open");
    await look(page, "wide");
    expect(Math.abs(Number(await figure(page, "#tempo")) / 104 - 1)).toBeLessThan(0.002);
    expect(faults).toEqual([]);
    await close();
  });
});

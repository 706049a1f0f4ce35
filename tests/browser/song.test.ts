import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
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
/** A rendered song as a file. */
function songOf(countsPerMinute: number, seconds: number) {
  const of = { countsPerMinute, seconds, swung: false, kind: "plain", band: "kit", seed: 5, rate: 22_050 } as const;
  const { samples, rate, firstCount } = render(of);
  return { file: { name: "song.wav", mimeType: "audio/wav", buffer: wav(samples, rate) }, firstCount };
}
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

const said = async (page: Page, id: string) => (await page.locator(id).textContent()) ?? "";
const look = async (page: Page, name: string) => {
  if (process.env.DESK_LOOK) await page.screenshot({ path: `${process.env.DESK_LOOK}/${name}.png`, fullPage: true });
};
const opened = (page: Page) =>
  expect.poll(() => said(page, "#news"), { timeout: 20_000 }).toContain("The song is open: song.wav");
const secondsOf = (place: string) => {
  const [minutes = 0, seconds = 0] = place.split(":").map(Number);
  return 60 * minutes + seconds;
};
/** What axe finds, by its names. */
async function violations(page: Page, rules?: readonly string[]): Promise<readonly string[]> {
  await page.addScriptTag({ path: axe });
  return page.evaluate(async (rules) => {
    type Axe = { run(options: object): Promise<{ violations: { id: string; nodes: { target: string[] }[] }[] }> };
    const { axe } = globalThis as unknown as { axe: Axe };
    const only = rules === undefined ? {} : { runOnly: rules };
    const { violations } = await axe.run({ resultTypes: ["violations"], ...only });
    return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(" ")).join("; ")}`);
  }, rules);
}

describe("the song desk", () => {
  test("leads from a routine and its song to the lines in its file, by the keys alone, and takes them back", async () => {
    const song = songOf(104, 30);
    const { page, faults, close } = await open("routines/low-tide/", { viewport: { width: 1280, height: 900 } });
    // Whoever is quicker than the page's script has chosen all the same.
    let choose = () => {};
    const chosen = new Promise<void>((done) => {
      choose = done;
    });
    await page.route("**/song/song.js", (route) => chosen.then(() => route.continue()));
    await page.getByRole("link", { name: "Find this song’s counts" }).press("Enter");
    await page.locator("#file").setInputFiles(song.file);
    choose();
    await opened(page);
    // What the sound alone gives is heard at once; the hand adds 5 ms.
    const tempo = await said(page, "#tempo");
    expect(Math.abs(Number(tempo) / 104 - 1)).toBeLessThan(0.002);
    expect(Math.abs(secondsOf(await said(page, "#first")) - song.firstCount)).toBeLessThan(0.06);
    // The other guess is the same beat, counted half or twice as fast; the arrow keys go on from it.
    await page.locator("[name=from]:checked").press("ArrowRight");
    expect([0.5, 2]).toContainEqual(Math.round((100 * Number(await said(page, "#tempo"))) / Number(tempo)) / 100);
    await page.keyboard.press("ArrowLeft");
    expect(await said(page, "#tempo")).toBe(tempo);
    await page.locator("#file").press("Tab");
    expect(await page.evaluate(() => document.activeElement?.id)).toBe("play");
    await page.keyboard.press("p");
    await expect.poll(() => page.locator("#position").inputValue().then(Number)).toBeGreaterThan(0.2);
    await page.keyboard.press("p");
    await expect.poll(() => said(page, "#play")).toBe("Play");
    const before = secondsOf(await said(page, "#first"));
    await page.locator("[data-nudge=first-on]").press("Enter");
    const first = await said(page, "#first");
    expect(secondsOf(first)).toBeCloseTo(before + 0.005, 6);
    // Beside what stands there now.
    const changes = page.locator("#changes");
    await expect
      .poll(() => changes.innerText())
      .toMatch(/Line 7\s+Stands there now\s+tempo: about 90\s+Will stand there/);
    await look(page, "wide");
    await page.locator("#write").press("Enter");
    await expect.poll(() => said(page, "#done")).toContain("Written");
    const lines = `tempo: ${tempo}\n  first-count: ${first.replace(/(\.\d+?)0+$/, "$1")}`;
    expect(readFileSync(file, "utf8")).toBe(text.replace("tempo: about 90", lines));
    await expect.poll(() => changes.innerText()).toContain("Nothing to change");
    // The routine's page follows that song.
    const json = async () => (await (await fetch(`${served.address}routines/low-tide/routine.json`)).json()).music;
    await expect.poll(json).toMatchObject({ countsPerMinute: Number(tempo), firstCount: secondsOf(first) });
    await page.keyboard.press("Enter");
    await expect.poll(() => said(page, "#done")).toContain("Taken back");
    expect(readFileSync(file, "utf8")).toBe(text);
    // The button is gone: who pressed it by the keys goes on beside it.
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe("copy");
    // What somebody saves meanwhile is neither lost nor in the way.
    writeFileSync(file, text.replace("Two sections.", "Two sections, by the sea."));
    await page.locator("[data-nudge=tempo-up]").press("Enter");
    const faster = await said(page, "#tempo");
    expect(Number(faster)).toBeCloseTo(Number(tempo) + 0.05, 6);
    await expect.poll(() => changes.innerText()).toContain(`tempo: ${faster}`);
    await page.locator("#write").press("Enter");
    await expect.poll(() => readFileSync(file, "utf8")).toMatch(new RegExp(`tempo: ${faster}\\n[^]*by the sea\\.`));
    // What she writes by hand after that is no part of what is taken back, however often the button is pressed.
    await expect.poll(() => changes.innerText()).toContain("Nothing to change");
    const byHand = readFileSync(file, "utf8").replace("by the sea", "at the ebb");
    writeFileSync(file, byHand);
    for (let presses = 0; presses < 2; presses++) {
      // The page then looks at the file again.
      const answered = page.waitForResponse(/song\/\?routine=/);
      await page.locator("#back").click();
      await answered;
      await expect.poll(() => said(page, "#done")).toContain(".low-tide.md.before");
    }
    expect(readFileSync(file, "utf8")).toBe(byHand);
    // With a mistake in it, it is named where she is: another page would have lost the song.
    writeFileSync(file, byHand.replace("sections:", "sektions:"));
    await page.locator("[data-nudge=tempo-up]").press("Enter");
    await expect.poll(() => changes.innerText()).toMatch(/mistake in it now[\s\S]*Line \d+: .*sections/);
    writeFileSync(file, byHand);
    await page.evaluate(() => window.dispatchEvent(new Event("focus")));
    await expect.poll(() => changes.innerText()).toContain("Will stand there");
    expect(faults).toEqual([]);
    await close();
  });

  test("follows taps and marks, and says what can't be; axe finds nothing, narrow, dark and light", async () => {
    const options = { viewport: { width: 390, height: 844 }, colorScheme: "dark", bypassCSP: true } as const;
    const { page, faults, close } = await open("song/?routine=low-tide", options);
    const notes = { name: "notes.txt", mimeType: "text/plain", buffer: Buffer.from("la") };
    await page.locator("#file").setInputFiles(songOf(120, 10).file);
    await opened(page);
    // What is no song is refused, and the one before it stays.
    await page.locator("#file").setInputFiles(notes);
    await expect.poll(() => said(page, "#news")).toContain("can’t play that file");
    const pad = page.locator("#tap");
    await pad.scrollIntoViewIfNeeded();
    const box = await pad.boundingBox();
    await page.mouse.move((box?.x ?? 0) + 50, (box?.y ?? 0) + 50);
    // The first only begins to play.
    for (let tap = 0; tap < 10; tap++) {
      await page.mouse.down();
      await page.mouse.up();
      await page.waitForTimeout(205);
    }
    await expect.poll(() => said(page, "#taps")).toMatch(/^9 taps: 2\d\d.* counts a minute, give or take/);
    expect(await page.locator("#sources :checked + span").first().innerText()).toContain("your taps");
    await page.locator("#next").selectOption("Swell");
    await page.locator("#mark").click();
    await page.keyboard.press("p");
    await expect.poll(() => said(page, "#landings")).toContain("this can’t be danced");
    await expect
      .poll(() => page.locator("#changes").innerText())
      .toMatch(/could not be read any more\.\s+Line \d+: The counts/);
    expect(await page.locator("#write").isDisabled()).toBe(true);
    await look(page, "narrow");
    expect(await violations(page, ["color-contrast"])).toEqual([]);
    await page.emulateMedia({ colorScheme: "light" });
    expect(await violations(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
    // Twice as large on the narrowest phone, nothing is cut and nothing lies beside the page.
    await page.setViewportSize({ width: 320, height: 568 });
    const cut = await page.evaluate(() => {
      document.documentElement.style.fontSize = "200%";
      const { scrollHeight = 1, clientHeight = 0 } = document.getElementById("tap") ?? {};
      return [document.documentElement.scrollWidth, scrollHeight > clientHeight];
    });
    expect(cut).toEqual([320, false]);
    // A section is moved by hand, and heard from a little before it on.
    await page.getByRole("button", { name: "5 ms later: Swell" }).press("Enter");
    expect(await said(page, "#landings")).toContain("Put there by hand");
    expect(await page.evaluate(() => document.activeElement?.getAttribute("data-key"))).toBe("on-1");
    await page.getByRole("button", { name: /go to Shore/ }).press("Enter");
    const begins = secondsOf((await said(page, "#landings li:first-child button")).trim());
    await expect
      .poll(() => page.locator("#position").inputValue().then(Number))
      .toBeCloseTo(Math.max(0, begins - 2), 0);
    await page.getByRole("button", { name: "Take the mark away: Swell" }).press("Enter");
    expect(await page.evaluate(() => document.activeElement?.id)).toBe("mark");
    expect(faults).toEqual([]);
    await close();
  });
});

// What runs inside the page is typed as a page; the build of src knows no DOM.
/// <reference lib="dom" />

import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { build } from "esbuild";
import Fraction from "fraction.js";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { clicks } from "../../src/routine/clicks.js";
import { nightFerry } from "../fixtures/night-ferry.js";
import { danced, library, move, phrase, section } from "../fixtures/written.js";
import { openBrowser } from "./browser.js";
import { publishedSite, type TestSite } from "./site.js";
import { hearClicks } from "./song-clicks.js";

let browser: Browser;
let site: TestSite;

/** A routine that shows another number three times a second. */
const quickRiver = danced({
  slug: "quick-river",
  title: "Quick River",
  music: { tempo: new Fraction(184), firstCount: new Fraction(0), accents: [4, 8], countIn: 4 },
  sections: [
    section(
      "Rapids",
      [1, 2, 3, 4].map(() => phrase([move("1-8", "Run on the spot")])),
    ),
  ],
});

beforeAll(async () => {
  const content = { library, routines: [nightFerry, quickRiver], workshops: [] };
  [browser, site] = await Promise.all([openBrowser(), publishedSite(content)]);
});
afterAll(async () => {
  await browser?.close();
  await site?.close();
});

const minutes = 10;
/** Seconds between the start and the first click, as the player gives the learner. */
const breath = new Fraction("0.15");
const speeds = { slow: 75, fast: 104, changedAt: 240 };

/**
 * Where the clicks must fall, in exact fractions from the model of the routine: round after round without a count-in in
 * between, at 75 %, and at 104 % from the first count after four minutes on.
 */
function expected(): readonly { readonly time: number; readonly accent: boolean }[] {
  const all = [...clicks(nightFerry)];
  const lead = all.filter(({ at }) => at < 0);
  const round = all.filter(({ at }) => at >= 0);
  const start = (lead[0]?.start ?? new Fraction(0)).neg();
  const slow = new Fraction(100, speeds.slow);
  const fast = new Fraction(100, speeds.fast);
  let turn: { readonly position: Fraction; readonly time: Fraction } | undefined;
  const list: { time: number; accent: boolean }[] = [];
  const put = (position: Fraction, accent: boolean) => {
    const steady = breath.add(position.mul(slow));
    if (!turn && steady.gt(speeds.changedAt)) turn = { position, time: steady };
    const time = turn ? turn.time.add(position.sub(turn.position).mul(fast)) : steady;
    list.push({ time: time.valueOf(), accent });
    return time.lt(minutes * 60);
  };
  for (const click of lead) put(click.start.add(start), false);
  for (let n = 0; ; n++) {
    const from = start.add(nightFerry.seconds.mul(n));
    for (const click of round) if (!put(from.add(click.start), click.accent)) return list.slice(0, -1);
  }
}

test("over ten minutes of loops with a change of speed every click is within a millisecond of its exact time", async () => {
  const page = await browser.newPage();
  await page.goto(`${site.url}routines/night-ferry/#practice`);
  await buildParts(join(site.folder, "assets/script/parts.js"));
  // As a text: what is imported here lies beside the page's own script.
  await page.evaluate(`import("../../assets/script/parts.js").then((parts) => Object.assign(window, { parts }))`);
  const heard = await page.evaluate(
    async ({ minutes, slow, fast, changedAt }) => {
      const { clicks, layOut, score } = (window as unknown as { parts: Parts }).parts;
      const routine = score(await (await fetch("routine.json")).json());
      const rate = 22050;
      const context = new OfflineAudioContext(1, minutes * 60 * rate, rate);
      const player = clicks(context);
      await player.start(layOut(routine, { from: 0, to: 3, loops: true, countInAgain: false }), slow);
      // The clock alone decides: the player is woken once a second, as a page in the background is.
      for (let second = 1; second < minutes * 60; second++)
        void context.suspend(second).then(() => {
          if (second === changedAt) player.setSpeed(fast);
          player.wake();
          void context.resume();
        });
      const samples = (await context.startRendering()).getChannelData(0);
      const found: { time: number; level: number }[] = [];
      for (let i = 0; i < samples.length; i++) {
        if (Math.abs(samples[i] ?? 0) < 0.02) continue;
        const sound = samples.subarray(i, i + Math.round(rate * 0.06));
        found.push({ time: i / rate, level: sound.reduce((most, x) => Math.max(most, Math.abs(x)), 0) });
        i += sound.length + Math.round(rate * 0.01);
      }
      return found;
    },
    { minutes, ...speeds },
  );
  const wanted = expected();
  expect(heard.length).toBe(wanted.length);
  expect(heard.length).toBeGreaterThan(400);
  const errors = heard.map(({ time }, index) => Math.abs(time - (wanted[index]?.time ?? Number.NaN)));
  expect(Math.max(...errors)).toBeLessThan(0.001);
  expect(heard.map(({ level }) => level > 0.6)).toEqual(wanted.map(({ accent }) => accent));
  await page.close();
});

// These two wait for a clock and for little else, so they wait together.
test.concurrent("clicks over a song come out of the audio graph within 5 ms of its counts, at full speed, above and below", {
  retry: 2,
}, async () => {
  await buildParts(join(site.folder, "assets/script/parts.js"));
  // Pages of the site run no script but their own, and what listens here is one.
  await writeFile(join(site.folder, "assets/clicks.html"), "<!doctype html><title>Clicks</title><h1>Clicks</h1>");
  const heard = async (rate: number) => {
    const page = await browser.newPage();
    await page.goto(`${site.url}assets/clicks.html`);
    // A browser lets a page have sound from a touch on.
    await page.locator("h1").click();
    const { errors } = await hearClicks(page, "./script/parts.js", rate, 3.5);
    await page.close();
    expect(errors.length).toBeGreaterThan(3);
    return errors;
  };
  const [full, above, slow] = await Promise.all([heard(1), heard(1.1), heard(0.6)]);
  expect(Math.max(...full.map(Math.abs))).toBeLessThan(5);
  // At another speed the browser lays every hit of the song a few milliseconds off its place: the clicks keep to the middle of them.
  expect(Math.abs(above.reduce((sum, error) => sum + error, 0) / above.length)).toBeLessThan(5);
  // A song that has just begun reports itself wrongly: its first click is put right before it sounds.
  expect(Math.abs((slow[1] ?? 0) - (slow[0] ?? 0))).toBeLessThan(5);
});

test.concurrent("the display changes within 50 ms of its click", { retry: 2 }, async () => {
  const page = await browser.newPage();
  await page.addInitScript(watchClicks);
  await page.goto(`${site.url}routines/quick-river/#practice`);
  await page.locator("[data-more] > summary").click();
  await page.getByRole("button", { name: "100 %" }).click();
  await page.locator("[data-desk] [data-start]").click();
  await page.waitForTimeout(6_500);
  await page.locator("[data-desk] [data-start]").click();
  const { clicked, changed } = await page.evaluate(() => (window as unknown as { seen: Seen }).seen);
  const past = clicked.filter((time) => time < (changed.at(-1) ?? 0) + 0.05);
  expect(past.length).toBeGreaterThan(12);
  for (const time of past) expect(Math.min(...changed.map((at) => Math.abs(at - time)))).toBeLessThan(0.05);
  await page.close();
});

/** The page's script comes in one file; the parts of it that are tried here are made into another. */
async function buildParts(outfile: string): Promise<void> {
  const resolveDir = join(import.meta.dirname, "../../templates/script/practice");
  const contents = ["audio", "over-song", "schedule", "score"]
    .map((name) => `export * from "./${name}.js";`)
    .join("\n");
  await build({ stdin: { contents, resolveDir }, outfile, bundle: true, format: "esm", target: "es2022" });
}

type Parts = typeof import("../../templates/script/practice/audio.js") &
  typeof import("../../templates/script/practice/schedule.js") &
  typeof import("../../templates/script/practice/score.js");

interface Seen {
  readonly clicked: number[];
  readonly changed: number[];
}

/** Notes when each click is due to be heard, and when the count on the page changes, both on the audio clock. */
function watchClicks(): void {
  const seen: Seen = { clicked: [], changed: [] };
  let heardNow = () => 0;
  Object.assign(window, { seen });
  const start = AudioBufferSourceNode.prototype.start;
  AudioBufferSourceNode.prototype.start = function (when = 0) {
    const context = this.context as AudioContext;
    heardNow = () => context.currentTime - (context.outputLatency || context.baseLatency);
    seen.clicked.push(when);
    start.call(this, when);
  };
  addEventListener("DOMContentLoaded", () => {
    const count = document.querySelector("[data-show=count]");
    if (count) new MutationObserver(() => seen.changed.push(heardNow())).observe(count, { childList: true });
  });
}

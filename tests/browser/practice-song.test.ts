// What runs inside the page is typed as a page; the build of src knows no DOM.
/// <reference lib="dom" />

import type { Page } from "playwright-core";
import { tone } from "../fixtures/tone.js";
import { practicePages, test } from "./practice-page.js";

practicePages();

async function openSong(page: Page, name = "Night Ferry.wav", buffer = tone(90)): Promise<void> {
  await page.getByLabel("Choose the song").setInputFiles({ name, mimeType: "audio/wav", buffer });
  await page.locator("[data-song]").waitFor();
}

const firstCount = (page: Page) => page.locator("[data-first-count]").textContent();
/** What the song and the stage say in one and the same frame: now, or as soon as the stage is in a state. */
const track = async (page: Page, wanted?: string) => {
  const seen = await page.waitForFunction((wanted) => {
    const audio = document.querySelector("audio");
    const show = (name: string) => document.querySelector(`.stage [data-show=${name}]`)?.textContent;
    const state = document.querySelector<HTMLElement>(".stage")?.dataset.state;
    if (wanted !== undefined && state !== wanted) return undefined;
    return {
      time: audio?.currentTime ?? Number.NaN,
      rate: audio?.playbackRate,
      keepsPitch: audio?.preservesPitch,
      paused: audio?.paused,
      count: show("count"),
    };
  }, wanted);
  const value = await seen.jsonValue();
  if (value === undefined) throw new Error("A wait that ends has seen something.");
  return value;
};

/** The number that is counted at a place of the song: counts at 92 from 14.2 s, from 58.0 s on at 96. */
function countAt(time: number, first = 14.2): string {
  const at = time < first + 43.8 ? ((time - first) * 92) / 60 : ((time - first - 43.8) * 96) / 60;
  return String((Math.floor(at) % 8) + 1);
}

test.concurrent("counts follow the song's own clock, slower at the same pitch, and nothing of it leaves the device", async ({
  open,
  expect,
}) => {
  const { page, start, untilState } = await open();
  await openSong(page);
  expect(await firstCount(page)).toBe("The routine's first count is 14.20 s into this file.");
  const asked: string[] = [];
  page.on("request", (request) => asked.push(`${request.method()} ${request.url()}`));
  await start.click();
  expect((await track(page, "count-in")).time).toBeGreaterThan(14.2 - (4 * 60) / 92 - 0.01);
  await untilState("count");
  for (let i = 0; i < 12; i++) {
    const { time, rate, keepsPitch, count } = await track(page);
    expect([rate, keepsPitch]).toEqual([0.6, true]);
    // The display is drawn once a frame, which a busy machine draws late: what it shows is the count of one of the last moments.
    expect([countAt(time), countAt(time - 0.05), countAt(time - 0.15)]).toContain(count);
    await page.waitForTimeout(237);
  }
  expect(asked.filter((request) => !request.startsWith("GET blob:"))).toEqual([]);
  await start.click();
  expect((await track(page)).paused).toBe(true);
});

test.concurrent("another speed is taken at the next count; a section goes round and round in the song", async ({
  open,
  expect,
}) => {
  const { page } = await open();
  await openSong(page);
  await page.getByLabel("a count-in before every round").uncheck();
  await page.getByRole("button", { name: "100 %" }).click();
  await page.getByRole("button", { name: "Practise Whistle" }).click();
  const begins = 14.2 + (16 * 60) / 92;
  const ends = 14.2 + (20 * 60) / 92;
  await page.waitForFunction((begins) => (document.querySelector("audio")?.currentTime ?? 0) > begins + 0.2, begins);
  const change = page.evaluate(
    () =>
      new Promise<readonly [asked: number, changed: number]>((resolve) => {
        const audio = document.querySelector("audio");
        let asked = Number.NaN;
        document.addEventListener("input", () => (asked = audio?.currentTime ?? asked), { capture: true, once: true });
        audio?.addEventListener("ratechange", () => resolve([asked, audio.currentTime]), { once: true });
      }),
  );
  await page.getByLabel("Speed, per cent of the tempo").fill("110");
  const [asked, changed] = (await change).map((time) => ((time - begins) * 92) / 60);
  // Not before the next count; a busy machine may be late for it.
  expect(changed).toBeGreaterThan(Math.ceil(asked ?? Number.NaN) - 0.05);
  expect(changed).toBeLessThan(Math.ceil(asked ?? Number.NaN) + 1);
  const times: number[] = [];
  for (let i = 0; i < 50; i++) {
    times.push((await track(page)).time);
    await page.waitForTimeout(80);
  }
  expect(times.some((time, index) => time < (times[index - 1] ?? 0) - 2)).toBe(true);
  expect(Math.min(...times)).toBeGreaterThan(begins - 0.05);
  expect(Math.max(...times)).toBeLessThan(ends + 0.1);
});

test.concurrent("a later section follows the song where the routine says that it begins, with clicks as long as they can sound", async ({
  open,
  expect,
}) => {
  const { page, start } = await open({ prepare: (page) => page.addInitScript(notesTheGraph) });
  await openSong(page);
  await page.getByLabel("clicks over the song").check();
  await page.locator("[name=from]").selectOption({ label: "Gangway again, 1st time, other side" });
  await start.click();
  const { time, count } = await track(page, "count");
  expect(time).toBeGreaterThanOrEqual(57.95);
  expect(time).toBeLessThan(58.7);
  expect(count).toBe("1");
  // The sound is taken away for good, as by a call: the song went through it, and goes on without.
  expect(await page.evaluate(() => (window as unknown as Graphs).graphs.length)).toBeGreaterThan(0);
  const without = page.getByText("so the song plays without them.");
  expect(await without.count()).toBe(0);
  await page.evaluate(() => {
    AudioContext.prototype.resume = () => new Promise(() => {});
    Object.defineProperty(BaseAudioContext.prototype, "currentTime", { get: () => 0 });
    return (window as unknown as Graphs).graphs.at(-1)?.suspend();
  });
  await without.waitFor();
  const { time: then, rate } = await track(page);
  expect(rate).toBe(0.6);
  await page.waitForFunction((then) => (document.querySelector("audio")?.currentTime ?? 0) > then + 0.2, then);
  await start.click();
  expect((await track(page)).paused).toBe(true);
});

interface Graphs {
  readonly graphs: AudioContext[];
}

/** Runs in the page: keeps each graph that the song is led into. */
function notesTheGraph(): void {
  const graphs: AudioContext[] = [];
  Object.assign(window, { graphs });
  const lead = AudioContext.prototype.createMediaElementSource;
  AudioContext.prototype.createMediaElementSource = function (element) {
    if (element.isConnected) graphs.push(this);
    return lead.call(this, element);
  };
}

test.concurrent("“this is the first count” sets the counts on this file, and the device remembers it", async ({
  open,
  expect,
}) => {
  const { page, start } = await open();
  await openSong(page);
  const place = async (time: number) => {
    await page.evaluate((time) => {
      const audio = document.querySelector("audio");
      if (audio) audio.currentTime = time;
    }, time);
  };
  await place(20);
  await page.getByRole("button", { name: "This is the first count of Gangway" }).click();
  expect(await firstCount(page)).toMatch("20.00 s");
  await page.getByRole("button", { name: "Counts a touch later" }).click();
  expect(await firstCount(page)).toMatch("20.02 s");
  await page.getByRole("button", { name: "Counts a touch earlier" }).click();
  await page.getByLabel("clicks over the song").check();
  await page.getByLabel("loudness of the clicks").fill("140");

  // From elsewhere: a page that is open already would only be scrolled.
  const address = page.url();
  await page.goto("about:blank");
  await page.goto(address);
  await page.locator("[data-desk] [data-start]:enabled").waitFor();
  await page.locator("[data-more] > summary").click();
  await openSong(page);
  expect(await firstCount(page)).toMatch("20.00 s");
  expect(await page.getByLabel("clicks over the song").isChecked()).toBe(true);
  expect(await page.getByLabel("loudness of the clicks").inputValue()).toBe("140");
  await start.click();
  const { time, count } = await track(page, "count");
  expect([countAt(time, 20), countAt(time - 0.05, 20)]).toContain(count);
  await page.getByRole("button", { name: "Forget where I put the counts" }).click();
  expect(await firstCount(page)).toMatch("14.20 s");

  // Another file, even of the same name, has counts of its own.
  await openSong(page, "Night Ferry.wav", tone(80));
  expect(await firstCount(page)).toMatch("14.20 s");
  // The count one of another section sets the same clock.
  await page.locator("[name=from]").selectOption({ label: "Gangway again, 1st time, other side" });
  await place(60);
  await page.getByRole("button", { name: "This is the first count of Gangway again, 1st time, other side" }).click();
  expect(await firstCount(page)).toMatch("16.20 s");
});

test.concurrent("played alone, the song carries the counts too, taps on its counts put them elsewhere, and at its end all rests", async ({
  open,
  expect,
}) => {
  const { page, start, untilState } = await open();
  await openSong(page, "short.wav", tone(16));
  await page.evaluate(() => {
    const audio = document.querySelector("audio");
    if (audio) audio.currentTime = 10.5;
  });
  await page.getByRole("button", { name: "100 %" }).click();
  await page.getByRole("button", { name: "Play the song alone" }).click();
  await page.waitForFunction(() => document.querySelector("audio")?.paused === false);
  expect(await start.textContent()).toBe("Pause");
  await page.getByRole("button", { name: "Tap the count" }).focus();
  const said = page.locator("[data-tapped]");
  await page.keyboard.down("c");
  // Held down, it goes on saying so, and is one tap.
  await page.keyboard.down("c");
  await page.keyboard.up("c");
  expect(await said.textContent()).toBe("Tap on: 7 more at least.");
  // From elsewhere in the song the first count comes anew: twice on every count from 11 s on, by the key of the player.
  await page.evaluate(tapFrom, { first: 11, every: 30 / 92, taps: 10 });
  expect(await said.textContent()).toMatch(/^(Sure|Likely|Not sure yet): give or take 0\.\d\d s, /);
  const [, first] = /first count is (\S+) s into/.exec((await firstCount(page)) ?? "") ?? [];
  expect(Math.abs(Number(first) - 11)).toBeLessThan(0.1);
  await untilState("count");
  await untilState("rest");
  expect(await start.textContent()).toBe("Start");
  // Once the counts lie elsewhere, nothing is said of taps any more.
  await page.getByRole("button", { name: "Forget where I put the counts" }).click();
  expect(await said.textContent()).toBe("");
});

/** Runs in the page: presses the key as soon as the song has come to each place. */
async function tapFrom({ first, every, taps }: { first: number; every: number; taps: number }): Promise<void> {
  const audio = document.querySelector("audio");
  if (!audio) return;
  audio.currentTime = first - 0.2;
  await new Promise((done) => audio.addEventListener("seeked", done, { once: true }));
  for (let tap = 0; tap < taps; ) {
    await new Promise(requestAnimationFrame);
    if (audio.currentTime < first + tap * every) continue;
    document.activeElement?.dispatchEvent(new KeyboardEvent("keydown", { key: "c", bubbles: true, cancelable: true }));
    tap = Math.floor((audio.currentTime - first) / every) + 1;
  }
}

const cannotPlay = "This browser can't play that file. Try the song as MP3, M4A or WAV.";

test.concurrent("a file that is no song is refused in words, and the clicks come back", async ({ open, expect }) => {
  const { page, start, untilState } = await open();
  await page
    .getByLabel("Choose the song")
    .setInputFiles({ name: "x.mp3", mimeType: "audio/mpeg", buffer: Buffer.from("no") });
  // To be seen where it was chosen, and read out.
  const refused = page.locator(".desk-part", { has: page.locator("[name=file]") }).getByText(cannotPlay);
  await refused.waitFor({ state: "visible" });
  expect(await page.getByRole("status").getByText(cannotPlay).count()).toBe(1);
  expect(await page.locator("[data-song]").isVisible()).toBe(false);
  await start.click();
  await untilState("count-in");
  await openSong(page);
  expect(await refused.count()).toBe(0);
  // A device whose sound fails for a moment breaks a song off that is fine; one that breaks off again and again is not.
  await start.click();
  const { time } = await track(page, "count");
  await page.evaluate(soundFails, 1);
  await page.waitForFunction((time) => (document.querySelector("audio")?.currentTime ?? 0) > time + 0.2, time);
  expect(await page.locator(".stage").first().getAttribute("data-state")).toBe("count");
  await page.evaluate(soundFails, 4);
  await refused.waitFor({ state: "visible" });
  expect(await page.locator("[data-song]").isVisible()).toBe(false);
});

/** Runs in the page: what an audio element tells when it has read a file, and then can't go on, so many times in a row. */
function soundFails(times: number): void {
  const audio = document.querySelector("audio");
  if (!audio) return;
  Object.defineProperty(audio, "error", { configurable: true, value: { code: MediaError.MEDIA_ERR_DECODE } });
  for (let time = 0; time < times; time++) audio.dispatchEvent(new Event("error"));
}

test.concurrent("a song is dropped on the player, goes on without clicks where they find nothing to sound on, and is put away again", async ({
  open,
  expect,
}) => {
  const { page, start, untilState } = await open({
    prepare: (page) =>
      page.addInitScript(() => {
        Object.defineProperty(BaseAudioContext.prototype, "currentTime", { get: () => 0 });
        AudioContext.prototype.resume = () => new Promise(() => {});
      }),
  });
  const data = tone(20).toString("base64");
  await page.evaluate((data) => {
    const bytes = Uint8Array.from(atob(data), (sign) => sign.charCodeAt(0));
    const dataTransfer = new DataTransfer();
    dataTransfer.items.add(new File([bytes], "dropped.wav", { type: "audio/wav" }));
    document.querySelector(".desk")?.dispatchEvent(new DragEvent("drop", { dataTransfer, bubbles: true }));
  }, data);
  await page.locator("[data-song]").waitFor();
  await page.getByLabel("clicks over the song").check();
  await page.getByRole("button", { name: "Play the song alone" }).click();
  await page.getByText("so the song plays without them.").waitFor();
  const { time } = await track(page);
  await page.waitForFunction((time) => (document.querySelector("audio")?.currentTime ?? 0) > time, time);
  await page.getByRole("button", { name: "Put the song away" }).click();
  expect(await page.getByText("so the song plays without them.").count()).toBe(0);
  expect(await page.locator("[data-song]").isVisible()).toBe(false);
  await start.click();
  await untilState("count-in");
  expect(await page.locator("audio").getAttribute("src")).toBeNull();
});

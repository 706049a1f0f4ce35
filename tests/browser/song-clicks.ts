// What runs inside the page is typed as a page; the build of src knows no DOM.
/// <reference lib="dom" />

import type { Page } from "playwright-core";

/* Clicks over a song, heard at the end of the audio graph: both come out of it together, each held against the other. */

/** Seconds of song between two hits; a click is due in the middle between them. */
const hitEvery = 0.5;

export interface HeardClicks {
  /** Milliseconds by which each click is late against the middle between the song's hits, by the straight line through these. */
  readonly errors: readonly number[];
  /** The same by the line through the hits around each click alone: a song that stuttered goes on beside its old line, and the clicks with it. */
  readonly near: readonly number[];
  /** Milliseconds by which each hit of the song lies off that line: what the browser does to the song itself. */
  readonly scatter: readonly number[];
}

/**
 * Plays a song of its own making at a rate, with clicks over it, for so many seconds.
 *
 * @param built address of a module that has `overSong`, as the page asks for it
 */
export async function hearClicks(page: Page, built: string, rate: number, seconds: number): Promise<HeardClicks> {
  await page.evaluate(`import(${JSON.stringify(built)}).then((over) => Object.assign(window, { over }))`);
  const onsets = await page.evaluate(play, { rate, seconds, hitEvery });
  const every = hitEvery / rate;
  const first = onsets[0] ?? 0;
  const hits = onsets.filter((time) => Math.abs((time - first) / every - Math.round((time - first) / every)) < 0.25);
  const clicks = onsets.filter((time) => !hits.includes(time));
  const numbers = hits.map((time) => Math.round((time - first) / every));
  const line = lineThrough(numbers, hits);
  const due = (time: number) => Math.floor((time - first) / every) + 0.5;
  return {
    scatter: hits.map((time, index) => 1000 * (time - line(numbers[index] ?? 0))),
    errors: clicks.map((time) => 1000 * (time - line(due(time)))),
    near: clicks.map((time) => {
      const around = hits.flatMap((hit, index) => (Math.abs(hit - time) < 20 * every ? [index] : []));
      const [xs, ys] = [around.map((index) => numbers[index] ?? 0), around.map((index) => hits[index] ?? 0)];
      return 1000 * (time - lineThrough(xs, ys)(due(time)));
    }),
  };
}

/** The straight line through points, by least squares. */
function lineThrough(xs: readonly number[], ys: readonly number[]): (x: number) => number {
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [x0, y0] = [mean(xs), mean(ys)];
  const slope =
    xs.reduce((sum, x, i) => sum + (x - x0) * ((ys[i] ?? 0) - y0), 0) / xs.reduce((sum, x) => sum + (x - x0) ** 2, 0);
  return (x) => y0 + slope * (x - x0);
}

/** Runs in the page. @returns the times at which something sharp comes out of the graph, on its own clock */
async function play(given: { rate: number; seconds: number; hitEvery: number }): Promise<number[]> {
  const { rate, seconds, hitEvery } = given;
  const { overSong } = (window as unknown as { over: typeof import("../../templates/script/practice/over-song.js") })
    .over;

  /** A chord that changes, a hit every so often, and quiet hats: RIFF/WAVE, PCM, one channel, 16 bits. */
  const song = () => {
    const [sampleRate, length] = [44_100, Math.ceil((seconds * rate + 4) * 44_100)];
    const samples = new Int16Array(22 + length);
    const head = [0x52494646, 36 + 2 * length, 0x57415645, 0x666d7420, 16, 0x10001, sampleRate, 2 * sampleRate];
    const view = new DataView(samples.buffer);
    for (const [index, word] of head.entries()) view.setUint32(4 * index, word, ![0, 2, 3].includes(index));
    view.setUint32(32, 0x100002, true);
    view.setUint32(36, 0x64617461);
    view.setUint32(40, 2 * length, true);
    for (let i = 0; i < length; i++) {
      const t = i / sampleRate;
      const root = [220, 196, 174.6, 246.9][Math.floor(t / 2) % 4] ?? 220;
      const since = t % hitEvery;
      const hat = (t + hitEvery / 4) % (hitEvery / 2);
      let sound = 0;
      for (const part of [1, 1.25, 1.5]) sound += 0.03 * Math.sin(2 * Math.PI * root * part * t);
      if (since < 0.05) sound += 0.8 * Math.exp(-since * 120) * Math.sin(2 * Math.PI * 1500 * since);
      if (hat < 0.03) sound += 0.08 * Math.exp(-hat * 150) * Math.sin(i * i);
      samples[22 + i] = 32_000 * sound;
    }
    return URL.createObjectURL(new Blob([samples.buffer], { type: "audio/wav" }));
  };

  // In the thread of the sound, where no work of the page delays it.
  const ear = `registerProcessor("ear", class extends AudioWorkletProcessor {
    last = -1;
    process([[sound = []]], [[out]]) {
      for (let i = 0; i < sound.length; i++) {
        out[i] = sound[i];
        if (Math.abs(sound[i]) < 0.25) continue;
        const time = (currentFrame + i) / sampleRate;
        if (time - this.last > 0.1) this.port.postMessage(time);
        this.last = time;
      }
      return true;
    }
  });`;
  const onsets: number[] = [];
  let listens = Promise.resolve();
  const audio = new Audio(song());
  audio.playbackRate = rate;
  const over = overSong(
    audio,
    (from, to) => {
      const clicks: { at: number; sound: "accent" }[] = [];
      for (let k = Math.ceil(from / hitEvery - 0.5); (k + 0.5) * hitEvery < to; k++)
        clicks.push({ at: (k + 0.5) * hitEvery, sound: "accent" });
      return clicks;
    },
    (own) => {
      const gate = new GainNode(own);
      listens = own.audioWorklet
        .addModule(URL.createObjectURL(new Blob([ear], { type: "text/javascript" })))
        .then(() => {
          const node = new AudioWorkletNode(own, "ear", { outputChannelCount: [1] });
          node.port.onmessage = ({ data }) => onsets.push(data);
          gate.connect(node).connect(own.destination);
        });
      return gate;
    },
  );
  await over.begin();
  await listens;
  over.prepare(rate);
  await new Promise((done) => setTimeout(done, 1500));
  await audio.play();
  const timer = setInterval(over.wake, 16);
  await new Promise((done) => setTimeout(done, seconds * 1000));
  clearInterval(timer);
  audio.pause();
  return onsets;
}

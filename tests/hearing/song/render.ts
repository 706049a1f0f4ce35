import { type Random, randomFrom } from "../../fuzz/random.js";
import { normal, uniform } from "./hand.js";

/** What is hard about a track. */
export const kinds = [
  "plain",
  "pick-up",
  "noisy-start",
  "silence",
  "sparse",
  "syncopated",
  "ritardando",
  "drift",
] as const;
export type Kind = (typeof kinds)[number];

/** Two bands that have no instrument and no pattern in common: rules are tuned on the first alone. */
export type Band = "kit" | "hands";

export interface Song {
  readonly countsPerMinute: number;
  readonly swung: boolean;
  readonly kind: Kind;
  readonly band: Band;
  readonly seed: number;
  readonly rate: number;
  /** Without what lies before the first count. */
  readonly seconds: number;
}

/** A track, with what is true of it. */
export interface Track {
  readonly samples: Float32Array;
  readonly rate: number;
  readonly firstCount: number;
  /** Where it changes: the slowest and fastest of its counts, in counts a minute. */
  readonly range?: { readonly slowest: number; readonly fastest: number };
}

type Instrument = "kick" | "snare" | "hat" | "bass" | "chord" | "clap" | "block" | "pluck" | "strings" | "keys";

/** Where in a bar of four counts something sounds, and how loud. */
interface Part {
  readonly plays: Instrument;
  readonly on: readonly number[];
  readonly level: number;
}

const straightEighths = [0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5];

const patterns: Readonly<
  Record<Band, Readonly<Record<"usual" | "sparse" | "syncopated", readonly (readonly Part[])[]>>>
> = {
  kit: {
    usual: [
      [
        { plays: "kick", on: [0, 2], level: 1 },
        { plays: "snare", on: [1, 3], level: 0.7 },
        { plays: "hat", on: straightEighths, level: 0.25 },
        { plays: "bass", on: [0, 1.5, 2, 3.5], level: 0.5 },
        { plays: "chord", on: [0], level: 0.3 },
      ],
      [
        { plays: "kick", on: [0, 1, 2, 3], level: 1 },
        { plays: "hat", on: [0.5, 1.5, 2.5, 3.5], level: 0.5 },
        { plays: "bass", on: [0.5, 1.5, 2.5, 3.5], level: 0.4 },
        { plays: "chord", on: [0, 2.5], level: 0.3 },
      ],
      [
        { plays: "kick", on: [0, 1.5, 2], level: 0.9 },
        { plays: "snare", on: [1, 3], level: 0.8 },
        { plays: "hat", on: [0, 1, 2, 3], level: 0.3 },
        { plays: "bass", on: [0, 2], level: 0.6 },
        { plays: "chord", on: [0, 2], level: 0.35 },
      ],
    ],
    sparse: [
      [
        { plays: "kick", on: [0], level: 0.8 },
        { plays: "snare", on: [2], level: 0.4 },
        { plays: "chord", on: [0, 3], level: 0.5 },
      ],
      [
        { plays: "bass", on: [0, 2], level: 0.6 },
        { plays: "chord", on: [0, 1], level: 0.5 },
      ],
    ],
    syncopated: [
      [
        { plays: "kick", on: [0, 1.5, 3], level: 1 },
        { plays: "snare", on: [1, 2.5, 3.5], level: 0.6 },
        { plays: "hat", on: straightEighths, level: 0.2 },
        { plays: "bass", on: [0, 1.5, 2.5], level: 0.6 },
        { plays: "chord", on: [0, 1.5, 3.5], level: 0.4 },
      ],
    ],
  },
  hands: {
    usual: [
      [
        { plays: "clap", on: [1, 3], level: 0.8 },
        { plays: "pluck", on: [0, 1, 2, 3], level: 0.7 },
        { plays: "keys", on: [0, 0.5, 1.5, 2, 3], level: 0.35 },
        { plays: "strings", on: [0], level: 0.25 },
      ],
      [
        { plays: "block", on: [0, 1, 2, 3], level: 0.4 },
        { plays: "pluck", on: [0, 2, 3.5], level: 0.7 },
        { plays: "keys", on: [0.5, 1.5, 2.5, 3.5], level: 0.3 },
        { plays: "strings", on: [0, 2], level: 0.3 },
      ],
      [
        { plays: "keys", on: straightEighths, level: 0.35 },
        { plays: "pluck", on: [0, 1.5, 2], level: 0.6 },
        { plays: "clap", on: [3], level: 0.6 },
      ],
    ],
    sparse: [
      [
        { plays: "keys", on: [0, 1, 2.5], level: 0.5 },
        { plays: "strings", on: [0], level: 0.3 },
      ],
      [
        { plays: "pluck", on: [0, 2], level: 0.6 },
        { plays: "block", on: [1], level: 0.3 },
      ],
    ],
    syncopated: [
      [
        { plays: "block", on: [0, 0.5, 1.5, 2, 3], level: 0.4 },
        { plays: "pluck", on: [0, 1.5, 2.5, 3], level: 0.7 },
        { plays: "keys", on: [0.5, 1.5, 2, 3.5], level: 0.35 },
        { plays: "clap", on: [2, 3.5], level: 0.5 },
      ],
    ],
  },
};

/** Renders a song; the same for the same seed. */
export function render(song: Song): Track {
  const random = randomFrom(song.seed, 77);
  const period = 60 / song.countsPerMinute;
  const lead = leadIn(song.kind, period, random);
  const counts = Math.floor(song.seconds / period / 4) * 4;
  const starts = countStarts(song, counts, random).map((at) => at + lead);
  const samples = new Float32Array(Math.ceil(((starts.at(-1) ?? 0) + 1.5) * song.rate));
  const page = patterns[song.band][song.kind === "sparse" || song.kind === "syncopated" ? song.kind : "usual"];
  const sheet: Sheet = { song, starts, parts: random.pick(page), root: 40 + random.below(12), random };
  for (let bar = 0; bar < counts / 4; bar++) playBar(samples, sheet, bar);
  if (song.kind === "pick-up") playPickUp(samples, sheet);
  addNoise(samples, song, lead, random);
  const range = rangeOf(starts);
  return {
    samples,
    rate: song.rate,
    firstCount: lead,
    ...(song.kind === "drift" || song.kind === "ritardando" ? { range } : {}),
  };
}

function leadIn(kind: Kind, period: number, random: Random): number {
  const some = uniform(random);
  if (kind === "noisy-start") return 3 + 5 * some;
  if (kind === "silence") return 2 + 6 * some;
  return kind === "pick-up" ? 0.3 + 2 * period : 0.05 + 0.5 * some;
}

/** When each count begins, and where the one after the last would: from 0 on. */
function countStarts({ kind, countsPerMinute }: Song, counts: number, random: Random): readonly number[] {
  const change = random.chance(50) ? 1.03 : 1 / 1.03;
  const slowsBy = 0.6 + 0.15 * uniform(random);
  const slowing = Math.min(16, counts / 2);
  const starts = [0];
  for (let count = 0; count < counts; count++) {
    const left = counts - count;
    let faster = 1;
    if (kind === "drift") faster = change ** (count / (counts - 1));
    if (kind === "ritardando" && left <= slowing) faster = 1 - (1 - slowsBy) * (1 - (left - 1) / slowing);
    starts.push((starts.at(-1) ?? 0) + 60 / countsPerMinute / faster);
  }
  return starts;
}

function rangeOf(starts: readonly number[]) {
  const lengths = starts.slice(1).map((at, index) => at - (starts[index] ?? 0));
  return { slowest: 60 / Math.max(...lengths), fastest: 60 / Math.min(...lengths) };
}

interface Sheet {
  readonly song: Song;
  readonly starts: readonly number[];
  readonly parts: readonly Part[];
  /** Of the key, as a MIDI note number. */
  readonly root: number;
  readonly random: Random;
}

const harmony = [0, 5, 9, 7, 0, 2, 5, 7];

function playBar(samples: Float32Array, sheet: Sheet, bar: number): void {
  const { random, parts, song } = sheet;
  for (const part of parts) {
    // Drums and the like come in later in some songs, and rest for a bar now and then.
    if (part.plays !== "kick" && part.plays !== "pluck" && random.chance(6)) continue;
    for (const on of part.on) {
      if (on !== 0 && random.chance(4)) continue;
      note(
        samples,
        sheet,
        part.plays,
        bar * 4 + on,
        part.level * (0.85 + 0.3 * uniform(random)),
        harmony[bar % 8] ?? 0,
      );
    }
  }
  // A melody that knows no rule.
  if (song.kind !== "sparse" || random.chance(50))
    for (let count = 0; count < 4; count += random.pick([0.5, 1, 1, 1.5]))
      if (random.chance(60))
        note(
          samples,
          sheet,
          song.band === "kit" ? "chord" : "keys",
          bar * 4 + count,
          0.15,
          12 + random.pick([0, 2, 4, 7, 9]),
        );
}

/** Two counts before the first. */
function playPickUp(samples: Float32Array, sheet: Sheet): void {
  const voice = sheet.song.band === "kit" ? "chord" : "keys";
  for (const on of [-1.5, -1, -0.5]) note(samples, sheet, voice, on, 0.3, 12 + sheet.random.pick([0, 2, 4]));
}

/** Where a place in counts falls: a half count lies at two thirds where it is swung. */
function timeOf({ song, starts }: Sheet, on: number): number {
  const count = Math.floor(on);
  const part = on - count;
  const placed = song.swung && part === 0.5 ? 2 / 3 : part;
  const from = starts[Math.max(0, count)] ?? 0;
  const length = (starts[Math.max(0, count) + 1] ?? from + 60 / song.countsPerMinute) - from;
  return from + (count < 0 ? count * length : 0) + placed * length;
}

function note(samples: Float32Array, sheet: Sheet, plays: Instrument, on: number, level: number, step: number): void {
  const jitter = (sheet.song.band === "kit" ? 0.004 : 0.008) * normal(sheet.random);
  const low = plays === "bass" || plays === "pluck" ? 0 : 24;
  const pitch = 440 * 2 ** ((sheet.root + step + low - 69) / 12);
  play(samples, sheet.song.rate, { plays, at: timeOf(sheet, on) + jitter, level, pitch, random: sheet.random });
}

interface Note {
  readonly plays: Instrument;
  readonly at: number;
  readonly level: number;
  readonly pitch: number;
  readonly random: Random;
}

/** How long each sounds, in seconds. */
const lasts: Readonly<Record<Instrument, number>> = {
  kick: 0.25,
  snare: 0.18,
  hat: 0.06,
  bass: 0.35,
  chord: 0.7,
  clap: 0.14,
  block: 0.07,
  pluck: 0.5,
  strings: 1.2,
  keys: 0.8,
};

function play(samples: Float32Array, rate: number, note: Note): void {
  const from = Math.round(note.at * rate);
  const length = Math.round(lasts[note.plays] * rate);
  let noise = note.random.below(2 ** 31) | 1;
  let before = 0;
  for (let index = 0; index < length; index++) {
    if (from + index < 0 || from + index >= samples.length) continue;
    noise = (Math.imul(noise, 1664525) + 1013904223) | 0;
    const white = noise / 2 ** 31;
    const value = sound(note, index / rate, white, white - before);
    before = white;
    samples[from + index] = (samples[from + index] ?? 0) + 0.3 * note.level * value;
  }
}

/** What an instrument sounds like so many seconds after it is struck. */
function sound({ plays, pitch }: Note, t: number, white: number, bright: number): number {
  const tone = (frequency: number) => Math.sin(2 * Math.PI * frequency * t);
  const ends = Math.min(1, 12 * Math.max(0, 1 - t / lasts[plays]));
  switch (plays) {
    case "kick":
      return Math.sin(2 * Math.PI * (50 * t + 3 * (1 - Math.exp(-30 * t)))) * Math.exp(-12 * t) * ends;
    case "snare":
      return (0.7 * white + 0.5 * tone(190)) * Math.exp(-22 * t) * ends;
    case "hat":
      return bright * Math.exp(-60 * t) * ends;
    case "bass":
      return (
        (tone(pitch) + 0.5 * tone(2 * pitch) + 0.2 * tone(3 * pitch)) * Math.min(1, t / 0.008) * Math.exp(-4 * t) * ends
      );
    case "chord":
      return (
        (tone(pitch) + tone(pitch * 1.26) + tone(pitch * 1.498) + 0.3 * tone(2 * pitch)) *
        Math.min(1, t / 0.015) *
        Math.exp(-3 * t) *
        ends *
        0.5
      );
    case "clap":
      return white * (Math.exp(-40 * t) + (t > 0.012 ? Math.exp(-40 * (t - 0.012)) : 0)) * 0.6 * ends;
    case "block":
      return tone(880) * Math.exp(-70 * t) * ends;
    case "pluck":
      return (
        (tone(pitch) + 0.6 * tone(2 * pitch) * Math.exp(-8 * t) + 0.4 * tone(3 * pitch) * Math.exp(-14 * t)) *
        Math.exp(-6 * t) *
        ends
      );
    case "strings":
      return (tone(pitch) + tone(pitch * 1.2) + tone(pitch * 1.5)) * Math.min(1, t / 0.09) * 0.5 * ends;
    case "keys":
      return (
        (tone(pitch) + 0.5 * tone(2 * pitch) + 0.25 * tone(3 * pitch) + 0.2 * tone(4 * pitch)) *
        Math.min(1, t / 0.004) *
        Math.exp(-5 * t) *
        ends
      );
  }
}

/** A room's noise throughout, and before a noisy start a crowd's, with knocks in it. */
function addNoise(samples: Float32Array, song: Song, lead: number, random: Random): void {
  let [noise, slow] = [random.below(2 ** 31) | 1, 0];
  const start = song.kind === "noisy-start" ? (lead - 0.3) * song.rate : 0;
  for (let index = 0; index < samples.length; index++) {
    noise = (Math.imul(noise, 1664525) + 1013904223) | 0;
    slow += 0.1 * (noise / 2 ** 31 - slow);
    const level = index < start ? 0.25 : 0.01;
    samples[index] = (samples[index] ?? 0) + level * slow + 0.001 * (noise / 2 ** 31);
  }
  if (song.kind === "noisy-start")
    for (let knock = 0; knock < 2 * lead; knock++)
      play(samples, song.rate, {
        plays: "block",
        at: uniform(random) * (lead - 0.4),
        level: 0.2 + 0.4 * uniform(random),
        pitch: 200,
        random,
      });
}

/** A hundred songs over 56 to 180 counts a minute, half of them swung, each kind as often. */
export function hundred(band: Band, seed: number, rate = 11_025): readonly Song[] {
  const random = randomFrom(seed, 100);
  return Array.from({ length: 100 }, (_, index) => ({
    countsPerMinute: 56 + 124 * uniform(random),
    swung: random.chance(40),
    kind: kinds[index % kinds.length] ?? "plain",
    band,
    seed: seed + index,
    rate,
    seconds: 45 + 15 * uniform(random),
  }));
}

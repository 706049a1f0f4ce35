import { link, mkdir, mkdtemp, open, readdir, readFile, rm, stat, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import Fraction from "fraction.js";
import { afterAll, beforeAll, expect, test } from "vitest";
import { sampleRate, writeClick } from "../../../src/publishing/click/wav.js";
import { lowTide } from "../../fixtures/low-tide.js";
import { onsetsOf, samplesOf } from "../../fixtures/read-wav.js";
import { closedFormula, type Timed, timed, timedRoutine } from "../../fixtures/timed.js";
import { danced, move, phrase, section } from "../../fixtures/written.js";
import { runs } from "../../runs.js";

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "click-"));
});
afterAll(() => rm(folder, { recursive: true }));

async function written(routine: Parameters<typeof writeClick>[0], percent: number): Promise<Buffer> {
  const out = join(folder, `${percent}.wav`);
  await writeClick(routine, { percent, out });
  return readFile(out);
}

/** Exact samples of every click, the count-in first, from the closed formula. */
function due(given: Timed, percent: number): readonly number[] {
  const each = new Fraction(60).div(given.sections[0]?.tempo ?? 1);
  const countIn = Array.from({ length: given.countIn }, (_, index) => each.mul(index));
  const counts = closedFormula(given).counts.map(({ start }) => start.add(each.mul(given.countIn)));
  return [...countIn, ...counts].map((seconds) => seconds.mul(sampleRate).mul(100).div(percent).valueOf());
}

test("every onset is the sample nearest to its exact time, at any speed", async () => {
  const speed = fc.constantFrom(50, 60, 75, 87.5, 90, 100, 110);
  const property = fc.asyncProperty(timed, speed, async (given, percent) => {
    const short = { ...given, sections: given.sections.slice(0, 3) };
    const heard = onsetsOf(samplesOf(await written(timedRoutine(short), percent)), sampleRate);
    const wanted = due(short, percent);
    expect(heard.length).toBe(wanted.length);
    for (const [index, sample] of wanted.entries())
      expect(Math.abs((heard[index]?.sample ?? 0) - sample)).toBeLessThanOrEqual(0.5);
  });
  await fc.assert(property, { numRuns: runs(25) });
});

test("accents are heard: higher and louder, in the counts and never in the count-in", async () => {
  const onsets = onsetsOf(samplesOf(await written(lowTide, 100)), sampleRate);
  const accented = onsets.map(({ peak }) => peak > 20_000);
  const phrase = [false, false, false, true, false, false, false, true];
  expect(accented.slice(0, 4)).toEqual([false, false, false, false]);
  expect(accented.slice(4, 20)).toEqual([...phrase, ...phrase]);
  const [plain, accent] = [onsets[4], onsets[7]];
  expect(accent?.peak).toBeGreaterThan(1.5 * (plain?.peak ?? 0));
  expect(accent?.crossings).toBeGreaterThan(1.3 * (plain?.crossings ?? 0));
});

test("the file says what it is: 16-bit PCM, one channel, as long as the routine and its count-in", async () => {
  const file = await written(lowTide, 75);
  // Layout of a RIFF/WAVE file of PCM samples (from memory): sizes at 4 and 40, format 1, channels, rate, bytes a second,
  // bytes a frame and bits a sample from 20 on.
  expect([file.toString("latin1", 0, 4), file.toString("latin1", 8, 16), file.toString("latin1", 36, 40)]).toEqual([
    "RIFF",
    "WAVEfmt ",
    "data",
  ]);
  expect([file.readUInt32LE(4), file.readUInt32LE(40)]).toEqual([file.length - 8, file.length - 44]);
  expect([20, 22, 32, 34].map((at) => file.readUInt16LE(at))).toEqual([1, 1, 2, 16]);
  expect([24, 28].map((at) => file.readUInt32LE(at))).toEqual([sampleRate, sampleRate * 2]);
  // 63.8 s and four counts of 60 / 92 s, at three quarters of the speed.
  expect((file.length - 44) / 2).toBe(Math.round(((63.8 + 240 / 92) / 0.75) * sampleRate));
});

test("an hour takes no more memory than a minute", async () => {
  const lasting = (minutes: number) =>
    timedRoutine({
      firstCount: "0",
      countIn: 4,
      sections: [{ tempo: "96", lengths: Array.from({ length: 12 * minutes }, () => 8), meeting: "follows" }],
    });
  const out = join(folder, "hour.wav");
  const [minute, hour] = [lasting(1), lasting(60)];
  await writeClick(minute, { percent: 100, out });
  const before = process.resourceUsage().maxRSS;
  await writeClick(hour, { percent: 100, out });
  const grownMegabytes = (process.resourceUsage().maxRSS - before) / 1024;
  const { size } = await stat(out);
  expect(size).toBe(44 + 2 * sampleRate * (3600 + 2.5));
  expect(grownMegabytes).toBeLessThan(size / 2 ** 20 / 5);

  // The last count of an hour still falls on its sample.
  const file = await open(out);
  const { buffer } = await file.read(Buffer.alloc(sampleRate * 2), 0, sampleRate * 2, size - sampleRate * 2);
  await file.close();
  const tail = Int16Array.from({ length: sampleRate }, (_, n) => buffer.readInt16LE(n * 2));
  expect(onsetsOf(tail, sampleRate).at(-1)?.sample).toBe(sampleRate - (60 / 96) * sampleRate);
});

test("a speed that makes no sense, or a file beyond the format's limit, is refused before anything is written", async () => {
  const out = join(folder, "never.wav");
  await expect(writeClick(lowTide, { percent: 0, out })).rejects.toThrow("it must be above 0");
  await expect(writeClick(lowTide, { percent: 0.01, out })).rejects.toThrow("Choose a higher speed");
  await expect(stat(out)).rejects.toThrow();
});

test("only a click takes the place of a file, and not before it is whole", async () => {
  const room = await mkdtemp(join(folder, "room-"));
  const at = (name: string) => join(room, name);
  await writeClick(lowTide, { percent: 400, out: at("own.wav") });
  const sound = await readFile(at("own.wav"));
  // Recordings with the same header: somebody speaks over the click; nobody does anything.
  const voice = Buffer.from(sound);
  voice.writeInt16LE(voice.readInt16LE(200_000) + 3, 200_000);
  const others = {
    "voice.wav": voice,
    "silence.wav": Buffer.from(sound).fill(0, 44),
    "half.wav": sound.subarray(0, 20_000),
    "text.wav": Buffer.from("mine"),
    "empty.wav": Buffer.alloc(0),
  };
  for (const [name, bytes] of Object.entries(others)) await writeFile(at(name), bytes);
  await mkdir(at("folder.wav"));
  await symlink("own.wav", at("link.wav"));
  await symlink("new.wav", at("nowhere.wav"));
  await link(at("own.wav"), at("second.wav"));
  const names = await readdir(room);
  for (const [name, says] of [
    ...Object.keys(others).map((name) => [name, "is no click that countleaf wrote"] as const),
    ["folder.wav", "is no file"],
    ["link.wav", "is a link"],
    ["nowhere.wav", "is a link"],
  ] as const)
    await expect(writeClick(lowTide, { percent: 100, out: at(name) })).rejects.toThrow(
      `${name} is there already and ${says}; move it away, or choose another name with --out`,
    );
  for (const [name, bytes] of Object.entries(others)) expect((await readFile(at(name))).equals(bytes), name).toBe(true);
  // Its other name keeps the earlier one.
  await writeClick(lowTide, { percent: 200, out: at("own.wav") });
  expect((await readFile(at("own.wav"))).length).toBeGreaterThan(sound.length);
  expect((await readFile(at("second.wav"))).equals(sound)).toBe(true);
  expect(await readdir(room)).toEqual(names);
});

test("the parts of a count sound softly where they are asked for, in the feel of their phrase", async () => {
  const walk = (feel: "straight" | "triplet" | "swing") => phrase([move("1", "Walk")], { length: 1, feel });
  const routine = danced({
    music: { tempo: new Fraction(60), countIn: 0 },
    sections: [section("A", [walk("swing"), walk("triplet"), walk("straight")])],
  });
  const heard = async (divide: boolean) => {
    const out = join(folder, "divided.wav");
    await writeClick(routine, { percent: 100, out, divide });
    return onsetsOf(samplesOf(await readFile(out)), sampleRate);
  };
  expect((await heard(false)).length).toBe(3);
  // The second time it writes over what it wrote before, so a divided click is known as one of its own.
  const divided = await heard(true);
  await heard(false);
  const parts = [0, 2 / 3, 1, 4 / 3, 5 / 3, 2, 2.25, 2.5, 2.75];
  expect(divided.map(({ sample }) => sample)).toEqual(parts.map((seconds) => Math.round(seconds * sampleRate)));
  const [count, part] = divided;
  expect(part?.peak).toBeLessThan(0.5 * (count?.peak ?? 0));
});

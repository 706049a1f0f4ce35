import { createReadStream, createWriteStream, lstatSync } from "node:fs";
import { mkdtemp, rename, rm } from "node:fs/promises";
import { dirname, join } from "node:path";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import Fraction from "fraction.js";
import { clicks, partStarts } from "../../routine/clicks.js";
import { practised, uncountedIn } from "../../routine/clock.js";
import type { Routine } from "../../routine/routine.js";

/** Samples a second. */
export const sampleRate = 48_000;

const soundLength = Math.round(sampleRate * 0.03);
const accentSound = sound(1_760, 0.9);
const plainSound = sound(1_100, 0.45);
/** Of a part of a count: a quarter as loud, and lower. */
const softSound = sound(880, 0.12);
const sounds = [accentSound, plainSound, softSound];

const headerBytes = 44;

/** A RIFF file gives its sizes 32 bits. */
const mostBytes = 2 ** 32 - 1 - 36;

/**
 * Writes the click as audio, from the count-in to the end of the last count: 16-bit PCM, mono, with accents higher and
 * louder. A sound begins at the sample nearest to the exact time of its count. The file is streamed, a count at a time, to a
 * place beside its own, where it is moved once it is whole.
 *
 * @param percent speed in per cent of the tempo, waits included
 * @param divide whether the parts of each count sound too, softly
 * @param out path of the file
 * @throws RangeError where the speed is not above zero, or so slow that the file would outgrow the format (over 12 hours)
 * @throws Error in words where something lies there that is not such a click
 */
export async function writeClick(
  routine: Routine,
  { percent, out, divide = false }: { readonly percent: number; readonly out: string; readonly divide?: boolean },
): Promise<void> {
  if (!(percent > 0)) throw new RangeError(`The speed is ${percent} per cent; it must be above 0.`);
  const frames = frameOf(routine, percent);
  const length = frames(routine.seconds);
  if (length * 2 > mostBytes) {
    const hours = Math.round(length / sampleRate / 3600);
    throw new RangeError(
      `At ${percent} per cent the click lasts ${hours} hours, longer than a WAV file can be. Choose a higher speed.`,
    );
  }
  await refuseOther(out);
  let aside: string | undefined;
  try {
    aside = await mkdtemp(join(dirname(out), ".countleaf-click-"));
    const whole = join(aside, "click.wav");
    await pipeline(
      Readable.from(wavParts(onsets(routine, divide), frames, length)),
      createWriteStream(whole, { flags: "wx" }),
    );
    // Writing it took a while: something may lie there now.
    await refuseOther(out);
    await rename(whole, out);
  } catch (error) {
    // Where the file was to go is what its reader knows, not the place beside it.
    throw error instanceof Error && "code" in error ? Object.assign(error, { path: out }) : error;
  } finally {
    if (aside !== undefined) await rm(aside, { recursive: true, force: true });
  }
}

/** Fails where something lies that this program did not write. */
async function refuseOther(out: string): Promise<void> {
  const there = lstatSync(out, { throwIfNoEntry: false });
  if (there === undefined || (there.isFile() && (await isClick(out, there.size)))) return;
  if (there.isSymbolicLink())
    throw new Error(`${out} is there already and is a link; move it away, or choose another name with --out`);
  if (!there.isFile())
    throw new Error(`${out} is there already and is no file; move it away, or choose another name with --out`);
  throw new Error(
    `${out} is there already and is no click that countleaf wrote; move it away, or choose another name with --out`,
  );
}

/**
 * Whether a file is a click from its first byte to its last: the header of many a recording is the same, so its sounds are
 * compared as well.
 */
async function isClick(path: string, size: number): Promise<boolean> {
  let left = Buffer.alloc(0);
  let read = false;
  let at = 0;
  let playing: Int16Array | undefined;
  for await (const chunk of createReadStream(path)) {
    left = Buffer.concat([left, chunk]);
    if (!read) {
      if (left.length < headerBytes) continue;
      if (!left.subarray(0, headerBytes).equals(header(size - headerBytes))) return false;
      [left, read] = [left.subarray(headerBytes), true];
    }
    for (let index = 0; index + 1 < left.length; index += 2) {
      const sample = left.readInt16LE(index);
      if (playing === undefined || sample !== (playing[at] ?? 0)) {
        playing = sounds.find(([first]) => first === sample);
        if (playing === undefined) return false;
        at = 0;
      }
      at++;
    }
    left = left.subarray(left.length - (left.length % 2));
  }
  return read;
}

/** The sample at which a moment falls, given in seconds from the routine's first count; the file begins with the count-in. */
function frameOf(routine: Routine, percent: number): (seconds: Fraction) => number {
  const origin: Fraction = clicks(routine).next().value?.start ?? new Fraction(0);
  const uncounted = uncountedIn(routine.sections);
  const begins = practised(uncounted, origin, percent);
  return (seconds) => practised(uncounted, seconds, percent).sub(begins).mul(sampleRate).round().valueOf();
}

/** A moment on which something sounds. */
interface Onset {
  readonly start: Fraction;
  readonly sound: Int16Array;
}

function* onsets(routine: Routine, divide: boolean): Generator<Onset> {
  for (const click of clicks(routine)) {
    yield { start: click.start, sound: click.accent ? accentSound : plainSound };
    if (divide) for (const start of partStarts(click)) yield { start, sound: softSound };
  }
}

function* wavParts(all: Iterable<Onset>, frames: (seconds: Fraction) => number, length: number): Generator<Uint8Array> {
  yield header(length * 2);
  let last: Onset | undefined;
  for (const one of all) {
    if (last) yield* onset(last, frames(one.start) - frames(last.start));
    last = one;
  }
  if (last) yield* onset(last, length - frames(last.start));
}

/** A sound and the silence after it, so many samples in all. A fast one is cut off by the next. */
function* onset({ sound }: Onset, samples: number): Generator<Uint8Array> {
  const heard = Math.min(samples, soundLength);
  yield bytes(sound.subarray(0, heard));
  for (let left = samples - heard; left > 0; left -= sampleRate)
    yield silence.subarray(0, Math.min(left, sampleRate) * 2);
}

const silence = new Uint8Array(sampleRate * 2);

/** A struck sound: at its loudest on the first sample, so that it has an exact onset, then dying away. */
function sound(hertz: number, level: number): Int16Array {
  return Int16Array.from({ length: soundLength }, (_, n) => {
    const fade = (1 - n / soundLength) ** 3;
    return Math.round(32_767 * level * fade * Math.cos((2 * Math.PI * hertz * n) / sampleRate));
  });
}

/** Samples are little-endian in the file, whatever the machine. */
function bytes(samples: Int16Array): Uint8Array {
  const view = new DataView(new ArrayBuffer(samples.length * 2));
  for (const [index, sample] of samples.entries()) view.setInt16(index * 2, sample, true);
  return new Uint8Array(view.buffer);
}

/** RIFF/WAVE header of 44 bytes: one channel of 16-bit PCM, then so many bytes of samples. */
function header(dataBytes: number): Uint8Array {
  const head = Buffer.alloc(headerBytes);
  head.write("RIFF", 0, "latin1");
  head.writeUInt32LE(36 + dataBytes, 4);
  head.write("WAVEfmt ", 8, "latin1");
  head.writeUInt32LE(16, 16);
  head.writeUInt16LE(1, 20);
  head.writeUInt16LE(1, 22);
  head.writeUInt32LE(sampleRate, 24);
  head.writeUInt32LE(sampleRate * 2, 28);
  head.writeUInt16LE(2, 32);
  head.writeUInt16LE(16, 34);
  head.write("data", 36, "latin1");
  head.writeUInt32LE(dataBytes, 40);
  return head;
}

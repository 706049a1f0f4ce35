import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readWav, type Sound } from "../../../src/hearing/song/wav.js";
import { runs, seed } from "../../runs.js";

/* Laid out by hand after the RIFF/WAVE specification, so that no writer of ours checks a reader of ours. */

const ascii = (text: string) => [...text].map((letter) => letter.charCodeAt(0));
const short = (value: number) => [value & 0xff, (value >> 8) & 0xff];
const long = (value: number) => [...short(value & 0xffff), ...short(value >>> 16)];
const chunk = (name: string, body: readonly number[], said = body.length) => [
  ...ascii(name),
  ...long(said),
  ...body,
  ...(body.length % 2 === 1 ? [0] : []),
];
const riff = (...chunks: readonly (readonly number[])[]) => {
  const body = [...ascii("WAVE"), ...chunks.flat()];
  return Uint8Array.from([...ascii("RIFF"), ...long(body.length), ...body]);
};

interface Format {
  readonly tag?: number;
  readonly channels?: number;
  readonly rate?: number;
  readonly bits?: number;
}
const format = ({ tag = 1, channels = 1, rate = 8000, bits = 16 }: Format = {}) => [
  ...short(tag),
  ...short(channels),
  ...long(rate),
  ...long((rate * channels * bits) / 8),
  ...short((channels * bits) / 8),
  ...short(bits),
];
const samples = [0, 16384, -32768, 8192].flatMap(short);

function sound(bytes: Uint8Array): Sound {
  const read = readWav(bytes);
  if ("why" in read) throw new Error(read.why);
  return read;
}

describe("a WAV file", () => {
  test("of one channel is read as parts of full scale", () => {
    const { samples: heard, rate, cutShort } = sound(riff(chunk("fmt ", format()), chunk("data", samples)));
    expect([[...heard], rate, cutShort]).toEqual([[0, 0.5, -1, 0.25], 8000, false]);
  });

  test("of two channels becomes their mean", () => {
    const stereo = riff(chunk("fmt ", format({ channels: 2, rate: 44_100 })), chunk("data", samples));
    expect([...sound(stereo).samples]).toEqual([0.25, -0.375]);
  });

  test("may have other chunks before and behind, of odd sizes too", () => {
    const bytes = riff(
      chunk("LIST", [1, 2, 3]),
      chunk("fmt ", [...format(), 0, 0]),
      chunk("bext", [9]),
      chunk("data", samples),
    );
    expect(sound(bytes).samples).toHaveLength(4);
  });

  test("may be of the extensible form, where that names PCM", () => {
    const tail = (kind: number) => [
      ...short(22),
      ...short(16),
      ...long(4),
      ...short(kind),
      ...new Array<number>(14).fill(0),
    ];
    const bytes = (kind: number) =>
      riff(chunk("fmt ", [...format({ tag: 0xfffe }), ...tail(kind)]), chunk("data", samples));
    expect(sound(bytes(1)).samples).toHaveLength(4);
    expect(readWav(bytes(3))).toEqual({ why: "not-pcm", found: 3 });
  });

  test("that ends early is read as far as it goes, and says so", () => {
    const read = sound(riff(chunk("fmt ", format()), chunk("data", samples, 4000)));
    expect([read.samples.length, read.cutShort]).toEqual([4, true]);
  });

  test.each([0, 0xffffffff])("whose size was never written (%d) is read to its end", (said) => {
    const read = sound(riff(chunk("fmt ", format()), chunk("data", samples, said)));
    expect([read.samples.length, read.cutShort]).toEqual([4, false]);
  });
});

describe("what is no such file", () => {
  const data = chunk("data", samples);
  test.each([
    ["nothing", new Uint8Array(), { why: "empty" }],
    ["a text", Uint8Array.from(ascii("Tide and tide again")), { why: "not-wav" }],
    ["another RIFF file", Uint8Array.from([...ascii("RIFF"), ...long(4), ...ascii("AVI ")]), { why: "not-wav" }],
    ["no format", riff(data), { why: "no-format" }],
    ["half a format", riff(chunk("fmt ", format().slice(0, 8)), data), { why: "no-format" }],
    ["no samples", riff(chunk("fmt ", format())), { why: "no-samples" }],
    ["numbers with a point", riff(chunk("fmt ", format({ tag: 3, bits: 32 })), data), { why: "not-pcm", found: 3 }],
    ["24 bits", riff(chunk("fmt ", format({ bits: 24 })), data), { why: "bits", found: 24 }],
    ["six channels", riff(chunk("fmt ", format({ channels: 6 })), data), { why: "channels", found: 6 }],
    ["no rate", riff(chunk("fmt ", format({ rate: 0 })), data), { why: "rate", found: 0 }],
  ])("%s is said to be so", (_, bytes, why) => {
    expect(readWav(bytes)).toEqual(why);
  });

  test("any bytes get an answer", () => {
    const whole = riff(chunk("fmt ", format({ channels: 2 })), chunk("LIST", [1, 2, 3]), data);
    const spoilt = fc
      .array(fc.tuple(fc.nat(whole.length - 1), fc.nat(255)), { minLength: 1, maxLength: 6 })
      .chain((changes) =>
        fc.nat(whole.length).map((length) => {
          const bytes = whole.slice(0, length);
          for (const [at, value] of changes) bytes[at] = value;
          return bytes;
        }),
      );
    fc.assert(
      fc.property(fc.oneof(spoilt, fc.uint8Array({ maxLength: 80 })), (bytes) => {
        const read = readWav(bytes);
        if ("why" in read) return;
        expect(read.samples.every((value) => value >= -1 && value < 1)).toBe(true);
        expect(read.samples.length).toBeGreaterThan(0);
      }),
      { numRuns: runs(4000), seed },
    );
  });
});

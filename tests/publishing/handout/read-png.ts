import { inflateSync } from "node:zlib";

/** A picture as a decoder of QR codes wants it: four bytes a point, red first. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray;
}

/** Reads a PNG of 8-bit RGBA or RGB points, not interlaced (W3C PNG, third edition, sections 5 and 9). */
export function readPng(file: Uint8Array): Pixels {
  const bytes = Buffer.from(file);
  const parts: Buffer[] = [];
  for (let at = 8; at < bytes.length; ) {
    const length = bytes.readUInt32BE(at);
    if (bytes.toString("latin1", at + 4, at + 8) === "IDAT") parts.push(bytes.subarray(at + 8, at + 8 + length));
    at += length + 12;
  }
  const [width, height, depth, kind, laced] = [
    bytes.readUInt32BE(16),
    bytes.readUInt32BE(20),
    bytes[24],
    bytes[25],
    bytes[28],
  ];
  if (depth !== 8 || (kind !== 6 && kind !== 2) || laced !== 0) throw new Error("That is another kind of PNG.");
  return unfilter(inflateSync(Buffer.concat(parts)), width, height, kind === 6 ? 4 : 3);
}

function unfilter(lines: Buffer, width: number, height: number, channels: number): Pixels {
  const stride = width * channels;
  const rows = new Uint8Array(stride * height);
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let y = 0; y < height; y++) {
    const guess = guesses[lines[y * (stride + 1)] ?? 0] ?? none;
    for (let x = 0; x < stride; x++) {
      const at = y * stride + x;
      const left = x >= channels ? (rows[at - channels] ?? 0) : 0;
      const up = y > 0 ? (rows[at - stride] ?? 0) : 0;
      const corner = x >= channels && y > 0 ? (rows[at - stride - channels] ?? 0) : 0;
      rows[at] = (lines[at + y + 1] ?? 0) + guess(left, up, corner);
    }
    for (let x = 0; x < width; x++)
      for (let channel = 0; channel < channels; channel++)
        data[(y * width + x) * 4 + channel] = rows[y * stride + x * channels + channel] ?? 0;
  }
  return { width, height, data };
}

const none = () => 0;

/** What a filter of a line, by its number, takes a byte to be from those before it. */
const guesses: readonly ((left: number, up: number, corner: number) => number)[] = [
  none,
  (left) => left,
  (_, up) => up,
  (left, up) => (left + up) >> 1,
  paeth,
];

function paeth(left: number, up: number, corner: number): number {
  const guess = left + up - corner;
  const [a, b, c] = [Math.abs(guess - left), Math.abs(guess - up), Math.abs(guess - corner)];
  return a <= b && a <= c ? left : b <= c ? up : corner;
}

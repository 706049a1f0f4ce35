import type { Random } from "../random.js";

/* Half characters, halves of a pair, marks of other encodings, controls. */
const strange = [
  [0],
  [0x80],
  [0xff],
  [0xc3],
  [0xe2, 0x80],
  [0xf0, 0x9f],
  [0xed, 0xa0, 0x80],
  [0xc0, 0xaf],
  [0xef, 0xbb, 0xbf],
  [0xff, 0xfe],
  [0xfe, 0xff],
  [0xef, 0xbf, 0xbf],
  [0x0d],
  [0x0d, 0x0a],
  [0x0a],
  [0x0b],
  [0x1a],
  [0x1b],
  [0x7f],
  [0xe9],
] as const;

/** Changes a few bytes, whatever they mean. */
export function mutateBytes(bytes: Uint8Array, random: Random, other: Uint8Array): Uint8Array {
  const at = random.below(bytes.length + 1);
  const span = random.chance(80) ? random.below(12) : random.below(bytes.length + 1);
  const with_ = (part: Iterable<number>, skip: number) =>
    Uint8Array.from([...bytes.subarray(0, at), ...part, ...bytes.subarray(at + skip)]);
  const noise = () => Array.from({ length: 1 + random.below(6) }, () => random.below(256));
  const ways: readonly (() => Uint8Array)[] = [
    () => with_([(bytes[at] ?? 0) ^ (1 << random.below(8))], 1),
    () => with_(noise(), random.below(6)),
    () => with_(random.pick(strange), random.below(2)),
    () => with_([], span),
    () => with_(bytes.subarray(at, at + span), 0),
    () => bytes.slice(0, at),
    () => with_(other.subarray(random.below(other.length + 1)).subarray(0, 1 + random.below(400)), span),
    () => Uint8Array.from([...random.pick(strange), ...bytes]),
  ];
  return random.pick(ways)();
}

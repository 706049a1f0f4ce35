import { randomFrom } from "../random.js";
import type { Seeds } from "../seeds.js";
import { mutateBytes } from "./bytes.js";
import { mutateLines } from "./lines.js";
import { mutateStructure } from "./structure.js";
import { mutateValue } from "./values.js";

/** Longer ones take the time of many others and find nothing that those do not: too long has tests of its own. */
const mostBytes = 200_000;

/** The file of this number: the same seed and number give the same bytes. */
export function mutatedFile(seeds: Seeds, seed: number, number: number): Uint8Array {
  const random = randomFrom(seed, number);
  const kindOf = () => {
    const dice = random.below(100);
    return dice < 6 ? seeds.long : dice < 82 ? seeds.short : seeds.wrong;
  };
  const from = random.pick(kindOf());
  const other = random.pick(kindOf());
  let text = from;
  const inText = random.pick([0, 1, 1, 1, 2, 2, 3, 6]);
  for (let times = 0; times < inText; times++) {
    const dice = random.below(100);
    if (dice < 35) text = mutateValue(text, random);
    else if (dice < 70) text = mutateLines(text, random, other);
    else text = mutateStructure(text, random, other);
  }
  let bytes: Uint8Array = new TextEncoder().encode(text);
  const inBytes = inText === 0 ? 1 + random.below(3) : random.chance(12) ? 1 : 0;
  for (let times = 0; times < inBytes; times++) bytes = mutateBytes(bytes, random, new TextEncoder().encode(other));
  return bytes.subarray(0, mostBytes);
}

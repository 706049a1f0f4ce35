import { mkdirSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setImmediate } from "node:timers/promises";
import { expect, test } from "vitest";
import { long, seed } from "../runs.js";
import { judge } from "./judge.js";
import { mutatedFile } from "./mutate/mutate.js";
import { readSeeds } from "./seeds.js";

/* Mutated routine files: each must end as a whole routine, or as findings with a place in the file, within a second. */

const seeds = readSeeds();
const fixed = 20261002;

/** What was tried, and what was wrong: the number of a file is enough to have it again. */
async function tryFiles(seed: number, count: number) {
  const faults: string[] = [];
  let whole = 0;
  let slowest = 0;
  for (let number = 0; number < count; number++) {
    const bytes = mutatedFile(seeds, seed, number);
    const verdict = judge(bytes);
    if (verdict.routine) whole++;
    slowest = Math.max(slowest, verdict.took);
    if (verdict.faults.length > 0)
      faults.push(`${keep(bytes, seed, number)}: ${verdict.faults.slice(0, 3).join("; ")}`);
    // Lets the runner hear that the test is alive.
    if (number % 100 === 0) await setImmediate();
  }
  console.log(
    `seed ${seed}: ${count} files, ${whole} of them whole routines, the slowest took ${Math.round(slowest)} ms`,
  );
  return { faults, whole };
}

/** Writes a file that failed where it can be looked at. */
function keep(bytes: Uint8Array, seed: number, number: number): string {
  const folder = join(tmpdir(), "countleaf-fuzz");
  mkdirSync(folder, { recursive: true });
  const path = join(folder, `${seed}-${number}.md`);
  writeFileSync(path, bytes);
  return path;
}

test("files mutated from a fixed seed are read to an end, one way or the other", { timeout: 3_600_000 }, async () => {
  const count = long ? 100_000 : 150;
  const { faults, whole } = await tryFiles(fixed, count);
  expect(faults.slice(0, 20)).toEqual([]);
  // Mutation that leaves nothing whole, or everything, would prove little.
  expect(whole / count).toBeGreaterThan(0.1);
  expect(whole / count).toBeLessThan(0.6);
});

test("so are files mutated from another seed, in the long run one that nobody has seen before", {
  timeout: 3_600_000,
}, async () => {
  const { faults } = await tryFiles(seed + 1, long ? 5_000 : 25);
  expect(faults.slice(0, 20)).toEqual([]);
});

test("the same seed and number give the same file", () => {
  const again = readSeeds();
  for (const number of [1, 77, 1234])
    expect(mutatedFile(seeds, fixed, number)).toEqual(mutatedFile(again, fixed, number));
});

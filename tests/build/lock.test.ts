import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, expect, it } from "vitest";
import { giveBack, takeLock } from "../../src/build/lock.js";
import { compiled } from "./compiled.js";

const work = mkdtempSync(join(tmpdir(), "countleaf-lock-"));
const built = pathToFileURL(compiled("build/lock.ts", work)).href;
afterAll(() => rmSync(work, { recursive: true }));

/** Takes and gives back a lock again and again, and writes down when it held it and when no more, by the clock of the machine. */
const holder = `import { appendFileSync } from "node:fs";
import { giveBack, takeLock } from ${JSON.stringify(built)};
const [lock, diary] = process.argv.slice(1);
for (let round = 0; round < 200; round++) {
  try { takeLock(lock, "it"); } catch (error) {
    if (!/is at work/.test(error.message)) throw error;
    continue;
  }
  const from = process.hrtime.bigint();
  while (process.hrtime.bigint() - from < 1_000_000n) {}
  appendFileSync(diary, from + " " + process.hrtime.bigint() + "\\n");
  giveBack(lock);
}`;

it("is held by one process at a time, whoever left it there", async () => {
  const [folder, diary] = [join(work, "shared"), join(work, "diary")];
  const lock = join(folder, "lock");
  // The number of a process that has ended.
  const { pid = 0 } = spawnSync(process.execPath, ["--version"]);
  mkdirSync(join(lock, String(pid)), { recursive: true });
  const runs = Array.from({ length: 4 }, () =>
    spawn(process.execPath, ["--input-type=module", "--eval", holder, lock, diary], {
      stdio: ["ignore", "ignore", "pipe"],
    }),
  );
  const ends = runs.map(async (run) => {
    let said = "";
    run.stderr.on("data", (data) => {
      said += data;
    });
    return [await new Promise((done) => run.on("close", done)), said];
  });
  expect(await Promise.all(ends)).toEqual(Array(4).fill([0, ""]));
  const held = readFileSync(diary, "utf8")
    .trimEnd()
    .split("\n")
    .map((line) => line.split(" ").map(BigInt));
  held.sort(([a = 0n], [b = 0n]) => (a < b ? -1 : 1));
  expect(held.length).toBeGreaterThan(100);
  const overlapping = held.filter(([from = 0n], index) => from < (held[index - 1]?.[1] ?? 0n));
  expect(overlapping).toEqual([]);
  expect(existsSync(lock)).toBe(false);
  expect(readdirSync(folder)).toEqual([]);
});

it("is held within one process too, and clears what a process that ended left beside it", () => {
  const folder = join(work, "alone");
  const lock = join(folder, "lock");
  const { pid = 0 } = spawnSync(process.execPath, ["--version"]);
  mkdirSync(join(`${lock}-${pid}`, String(pid)), { recursive: true });
  takeLock(lock, "it");
  expect(readdirSync(folder)).toEqual(["lock"]);
  expect(() => takeLock(lock, "it")).toThrow("another build of it is at work");
  giveBack(lock);
  expect(readdirSync(folder)).toEqual([]);
  takeLock(lock, "it");
  giveBack(lock);
});

import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout } from "node:timers/promises";
import { afterAll, expect, it } from "vitest";
import { watchContent } from "../../src/build/live/watch.js";

const work = mkdtempSync(join(tmpdir(), "countleaf-watch-"));
afterAll(() => rmSync(work, { recursive: true, force: true }));

it("a row of saves is told once or little more, a folder made later is watched, and nothing is told where nothing happens", async () => {
  mkdirSync(join(work, "routines"));
  let told = 0;
  const unwatch = watchContent(work, () => told++);
  try {
    for (let save = 0; save < 40; save++) writeFileSync(join(work, "routines", "a.md"), `${save}`);
    await expect.poll(() => told).toBeGreaterThan(0);
    await setTimeout(200);
    expect(told).toBeLessThan(8);
    mkdirSync(join(work, "workshops"));
    await setTimeout(200);
    const before = told;
    writeFileSync(join(work, "workshops", "b.md"), "b");
    await expect.poll(() => told).toBeGreaterThan(before);
    // Longer than the pause between two looks at folders that the system can't watch.
    await setTimeout(200);
    const quiet = told;
    await setTimeout(1300);
    expect(told).toBe(quiet);
  } finally {
    unwatch();
  }
});

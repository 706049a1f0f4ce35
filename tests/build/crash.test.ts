import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { long } from "../runs.js";
import { countleaf, litterBeside, replaceFolder, routineText, treeOf, writeContent } from "./run.js";

/** Moments of a run at which it is killed. */
const moments = long ? 200 : 1;

const work = mkdtempSync(join(tmpdir(), "countleaf-crash-"));
const [content, out, ops] = [join(work, "content"), join(work, "home/pack"), join(work, "ops")];
const earlier = join(work, "earlier");
const build = ["build", "--content", content, "--out", out];
let [before, after]: ReturnType<typeof treeOf>[] = [];
let calls: readonly string[] = [];
let milliseconds = 0;

/* Once with the earlier content, once with the later: what a killed run may leave behind is either of the two. */
beforeAll(async () => {
  writeContent(content, { "routines/kerb.md": routineText("Kerb") });
  await mustBuild();
  before = treeOf(out);
  replaceFolder(join(work, "home"), earlier);
  writeContent(content, {
    "routines/kerb.md": routineText("Kerb", "Step left and wait"),
    "routines/lamp.md": routineText("Lamp"),
    "workshops/eve.md": "---\ntitle: Eve\nminutes: 60\nroutines: [kerb]\n---\nBring shoes.\n",
  });
  const began = performance.now();
  const { status, err } = await countleaf(build, { inject: "faults", env: { COUNTLEAF_OPS: ops } });
  milliseconds = performance.now() - began;
  expect(status, err).toBe(0);
  after = treeOf(out);
  calls = readFileSync(ops, "utf8").trimEnd().split("\n");
  expect(after).not.toEqual(before);
});

afterAll(() => rmSync(work, { recursive: true, force: true }));

async function mustBuild() {
  const run = await countleaf(build);
  expect(run.status, run.err).toBe(0);
}

/** Runs from the earlier pack on, and is killed at a call that changes the disk: by its number, or by how it begins. */
async function killedAt(call: number | string) {
  replaceFolder(earlier, join(work, "home"));
  rmSync(ops, { force: true });
  const env = { COUNTLEAF_OPS: ops, COUNTLEAF_FAULT: "kill", COUNTLEAF_FAULT_AT: String(call) };
  const run = await countleaf(build, { inject: "faults", env });
  expect(run.signal, `killed at ${call}`).toBe("SIGKILL");
}

async function nextRunPutsThingsRight(what: string) {
  await mustBuild();
  expect(treeOf(out), what).toEqual(after);
  expect(litterBeside(out)).toEqual([]);
}

const beside = join(work, "home/.countleaf-pack");
/** The swap is two changes of names. */
const aside = `renameSync ${out}`;
const intoPlace = `renameSync ${beside}/new`;
/** The number of the call that moves the new pack into place. */
const swapped = () => calls.findIndex((call) => call.startsWith(intoPlace)) + 1;

describe("a build that is killed", () => {
  it("changes the disk often, and swaps in two calls that follow each other", () => {
    expect(calls.length).toBeGreaterThan(40);
    const swap = calls.findIndex((call) => call.startsWith(aside));
    expect(calls[swap + 1]).toContain(intoPlace);
    const afterwards = calls.slice(swap + 2);
    expect(afterwards.join()).toContain(`writeFileSync ${beside}/cache.json`);
    // What is published is not touched any more: a kill would leave it half done.
    expect(afterwards.filter((call) => call.includes(` ${out}`))).toEqual([]);
  });

  it(`leaves the earlier pack or the later one, whole, at ${long ? "every call" : "one before and two after the swap"}`, async () => {
    const swap = swapped();
    expect(swap).toBeGreaterThan(1);
    const afterwards = calls.length - swap;
    const points = long
      ? calls.map((_, index) => index + 1)
      : // Long before it the clock below kills.
        [swap - 1, swap + 1, swap + 1 + Math.floor(afterwards / 2)];
    // The middle of the swap has a test of its own below.
    for (const call of points.filter((point) => point !== swap)) {
      await killedAt(call);
      const what = `killed at ${call}: ${calls[call - 1]?.trim()}`;
      // Which of several threads comes first is chance, but nowhere near the swap.
      const left = call < swap - 1 ? [before, after] : [call < swap ? before : after];
      expect(left, what).toContainEqual(treeOf(out));
      await nextRunPutsThingsRight(what);
    }
  }, 1_800_000);

  it("in the middle of the swap leaves the earlier pack aside, and the next run puts it back even where it makes none", async () => {
    await killedAt(intoPlace);
    expect(treeOf(out)).toBeUndefined();
    writeContent(content, { "routines/broken.md": "no front matter" });
    expect((await countleaf(build)).status).toBe(1);
    expect(treeOf(out)).toEqual(before);
    expect(litterBeside(out)).toEqual([]);
    rmSync(join(content, "routines/broken.md"));
    await nextRunPutsThingsRight("after the middle of the swap");
  });

  it(`is as safe at ${moments} moments of the clock`, async () => {
    for (let moment = 0; moment < moments; moment++) {
      replaceFolder(earlier, join(work, "home"));
      const delay = ((moment + 0.5) * milliseconds) / moments;
      await countleaf(build, { meanwhile: (child) => setTimeout(() => child.kill("SIGKILL"), delay) });
      const what = `killed after ${delay} ms`;
      expect([before, after], what).toContainEqual(treeOf(out));
      await nextRunPutsThingsRight(what);
    }
  }, 1_800_000);
});

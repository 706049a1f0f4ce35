import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statfsSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { long } from "../runs.js";
import { countleaf, litterBeside, type RunOptions, replaceFolder, routineText, treeOf, writeContent } from "./run.js";

const work = mkdtempSync(join(tmpdir(), "countleaf-faults-"));
const [content, home, out] = [join(work, "content"), join(work, "home"), join(work, "home/pack")];
const words = ["build", "--content", content, "--out", out];
let before: ReturnType<typeof treeOf>;

beforeAll(async () => {
  chmodSync(work, 0o755);
  writeContent(content, { "routines/kerb.md": routineText("Kerb") });
  const run = await countleaf(words);
  expect(run.status, run.err).toBe(0);
  before = treeOf(out);
  replaceFolder(home, join(work, "earlier"));
  writeContent(content, { "routines/lamp.md": routineText("Lamp") });
});

beforeEach(() => replaceFolder(join(work, "earlier"), home));
afterAll(() => rmSync(work, { recursive: true, force: true }));

/** A build that can't be done leaves what was published as it was and nothing beside it, and says what to do. */
async function fails(says: RegExp, options: RunOptions = {}, args = words) {
  const { status, err } = await countleaf(args, options);
  expect(err).toMatch(says);
  expect(err).not.toMatch(/^ +at /m);
  expect(status).toBe(1);
  expect(treeOf(out)).toEqual(before);
  return litterBeside(out);
}

describe("a full disk", () => {
  it.each(long ? [1, 2, 5, 20, 40] : [1, 5, 40])(
    "seen at change %s and after: what was published stays",
    async (at) => {
      const env = { COUNTLEAF_OPS: join(work, "ops"), COUNTLEAF_FAULT: "ENOSPC", COUNTLEAF_FAULT_AT: String(at) };
      rmSync(join(work, "ops"), { force: true });
      expect(await fails(/the disk is full\. Make room/, { inject: "faults", env })).toEqual([]);
    },
  );

  /* Where mounting is not allowed, the injected faults above stand for it. */
  const mounted = join(work, "small");
  mkdirSync(mounted);
  const canMount = spawnSync("mount", ["-t", "tmpfs", "tmpfs", mounted]).status === 0;
  if (canMount) {
    afterAll(() => void spawnSync("umount", [mounted]));
    it("that is real and holds one pack but not two", async () => {
      const small = join(mounted, "pack");
      replaceFolder(out, small);
      const { bsize, blocks, bfree } = statfsSync(mounted);
      const kilobytes = Math.ceil(((blocks - bfree) * bsize * 1.5) / 1024);
      expect(spawnSync("mount", ["-o", `remount,size=${kilobytes}k`, mounted]).status).toBe(0);
      const { status, err } = await countleaf(["build", "--content", content, "--out", small]);
      expect(err).toMatch(/the disk is full\. Make room on it.*Nothing was changed in/);
      expect(status).toBe(1);
      expect(treeOf(small)).toEqual(before);
      expect(readdirSync(mounted)).toEqual(["pack"]);
    });
  }
});

/** Does something as soon as a path is there, while a command runs. */
function onceThere(path: string, act: (child: ChildProcess) => void) {
  return (child: ChildProcess) => {
    const wait = setInterval(() => {
      if (!existsSync(path)) return;
      clearInterval(wait);
      act(child);
    }, 5);
    child.on("close", () => clearInterval(wait));
  };
}

const staged = join(home, ".countleaf-pack/new");

describe("a build that is called off", () => {
  it.each([
    ["SIGINT", "before it is at work", staged],
    ["SIGINT", "at work", join(staged, "routines")],
    ["SIGTERM", "at work", join(staged, "routines")],
  ] as const)("by %s %s clears up at once", async (signal, _, path) => {
    const ops = join(work, "ops");
    rmSync(ops, { force: true });
    const meanwhile = onceThere(path, (child) => child.kill(signal));
    const { status } = await countleaf(words, { meanwhile, inject: "faults", env: { COUNTLEAF_OPS: ops } });
    expect(status).toBe(130);
    expect(treeOf(out)).toEqual(before);
    expect(litterBeside(out)).toEqual([]);
    // No routine is begun after the one that is at work.
    const begun = /pack\/new\/routines\/(\w+)\//g;
    const routines = new Set([...readFileSync(ops, "utf8").matchAll(begun)].map(([, slug]) => slug));
    expect(routines.size).toBeLessThanOrEqual(path === staged ? 0 : 1);
  });
});

describe("what a build that is done can't remove", () => {
  it("is no fault of the build, and the next one removes it", async () => {
    const ops = join(work, "ops");
    rmSync(ops, { force: true });
    const env = { COUNTLEAF_OPS: ops };
    expect((await countleaf(words, { inject: "faults", env })).status).toBe(0);
    const after = treeOf(out);
    const calls = readFileSync(ops, "utf8").trimEnd().split("\n");
    const cleared = calls.findLastIndex((call) => call.startsWith(`rmSync ${staged}`)) + 1;
    expect(cleared).toBeGreaterThan(calls.length / 2);
    replaceFolder(join(work, "earlier"), home);
    rmSync(ops);
    const denied = { ...env, COUNTLEAF_FAULT: "EACCES", COUNTLEAF_FAULT_AT: String(cleared) };
    const { status, out: said } = await countleaf(words, { inject: "faults", env: denied });
    expect([status, said]).toEqual([0, expect.stringContaining("Done in")]);
    expect(treeOf(out)).toEqual(after);
    expect(litterBeside(out)).not.toEqual([]);
    expect((await countleaf(words)).status).toBe(0);
    expect(litterBeside(out)).toEqual([]);
  });
});

describe("a folder without write permission", () => {
  it("says so, and leaves all as it was", async () => {
    chmodSync(home, 0o555);
    try {
      const says = /home\/(?:\.countleaf-)?pack.*you are not allowed to write here/;
      expect(await fails(says, { inject: "nobody" })).toEqual([]);
    } finally {
      chmodSync(home, 0o755);
    }
  });

  it("so does a disk that can only be read", async () => {
    const env = { COUNTLEAF_OPS: join(work, "ops"), COUNTLEAF_FAULT: "EROFS", COUNTLEAF_FAULT_AT: "1" };
    rmSync(join(work, "ops"), { force: true });
    await fails(/this disk can only be read\. Choose/, { inject: "faults", env });
  });
});

describe("a fault in a thread", () => {
  it("comes back in words, without the way it took", async () => {
    await fails(/^countleaf: (The \w+ of [\w ]+ could not be made: )?no font today\n$/, { inject: "fonts" });
  });
});

describe("a file that vanishes while it is read", () => {
  it("is an error with its place", async () => {
    const lamp = join(content, "routines/lamp.md");
    await fails(/lamp\.md:1:1.*vanished/, { inject: "vanish", env: { COUNTLEAF_VANISH: lamp } });
    writeContent(content, { "routines/lamp.md": routineText("Lamp") });
  });
});

describe("two builds at once", () => {
  it("the second gives way to one that runs", async () => {
    const other = spawn(process.execPath, ["-e", "setTimeout(() => {}, 60_000)"]);
    const lock = join(home, ".countleaf-pack/lock");
    mkdirSync(join(lock, String(other.pid)), { recursive: true });
    expect(await fails(/another build of .*pack is at work \(process \d+\); wait/)).toEqual([
      ".countleaf-pack/lock",
      `.countleaf-pack/lock/${other.pid}`,
    ]);
    const ended = new Promise((resolve) => other.on("close", resolve));
    other.kill();
    await ended;
    const { status, err } = await countleaf(words);
    expect(status, err).toBe(0);
  });

  it("started together, one of them at least makes the whole pack", async () => {
    const runs = await Promise.all([countleaf(words), countleaf(words), countleaf(words)]);
    expect(runs.map(({ status }) => status)).toContain(0);
    for (const { status, err } of runs) if (status !== 0) expect(err).toMatch(/another build of/);
    const together = treeOf(out);
    expect((await countleaf(words)).status).toBe(0);
    expect(together).toEqual(treeOf(out));
  });
});

describe("an output folder that is not ours to replace", () => {
  it.each(["holiday.jpg", "routines/kerb/my-notes.txt", ".git/config"])("holds %s", async (path) => {
    writeContent(out, { [path]: "mine", "library.yaml": "" });
    rmSync(join(out, "library.yaml"));
    const { status, err } = await countleaf(words);
    expect([status, err]).toEqual([1, expect.stringMatching(/was not made by countleaf.*move it away, or choose/)]);
    expect(err).toContain(path);
    expect(existsSync(join(out, path))).toBe(true);
  });

  it("gets a file of somebody else's while the pack is made", async () => {
    const late = join(out, "late.txt");
    const meanwhile = onceThere(join(staged, "routines"), () => writeFileSync(late, "mine"));
    const { status, err } = await countleaf(words, { meanwhile });
    expect([status, err]).toEqual([1, expect.stringMatching(/late\.txt was not made by countleaf/)]);
    expect(existsSync(late)).toBe(true);
  });

  it("is a file, or a link to nowhere", async () => {
    writeFileSync(join(home, "file"), "");
    symlinkSync(join(home, "nowhere"), join(home, "link"));
    for (const [name, says] of [
      ["file", /is a file, not a folder/],
      ["link", /is a link to nowhere/],
    ] as const) {
      const { status, err } = await countleaf(["build", "--content", content, "--out", join(home, name)]);
      expect([status, err]).toEqual([1, expect.stringMatching(says)]);
    }
  });

  it("is a link to a folder: that folder is published into, and the link stays", async () => {
    symlinkSync(out, join(home, "link"));
    const { status, err } = await countleaf(["build", "--content", content, "--out", join(home, "link")]);
    expect(status, err).toBe(0);
    expect(existsSync(join(out, "routines/lamp/index.html"))).toBe(true);
    expect(readdirSync(home).includes("link")).toBe(true);
  });

  it("lies inside the content folder, or the reverse, by whatever name", async () => {
    const link = join(work, "another-name");
    symlinkSync(content, link);
    const nested: readonly (readonly [string, string])[] = [
      [content, content],
      [content, join(content, "pack")],
      [content, join(link, "deep/pack")],
      [content, work],
      [link, join(content, "../content")],
    ];
    for (const [from, to] of nested) {
      const { status, err } = await countleaf(["build", "--content", from, "--out", to]);
      expect([status, err]).toEqual([1, expect.stringMatching(/choose (another folder|one beside it) with --out/)]);
    }
    expect(readdirSync(content).sort()).toEqual(["library.yaml", "routines"]);
  });
});

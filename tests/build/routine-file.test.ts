import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import * as disk from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { type Disk, type RoutineFile, routineFiles } from "../../src/build/live/routine-file.js";
import { readFiles } from "../../src/reading/files.js";

const work = mkdtempSync(join(tmpdir(), "countleaf-routine-file-"));
const content = join(work, "content");
const folder = join(content, "routines");
const file = join(folder, "kerb.md");
const [first, second, third] = ["---\r\ntitle: Kerb\n", "second\n", "third\n"] as const;
afterAll(() => rmSync(work, { recursive: true, force: true }));

beforeEach(() => {
  rmSync(content, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  writeFileSync(file, first);
});

async function seenIn(files = routineFiles(content)): Promise<RoutineFile> {
  const found = await files.read("kerb");
  if ("refused" in found) throw new Error(found.refused);
  return found;
}
const lies = () =>
  Object.fromEntries(readdirSync(folder).map((name) => [name, readFileSync(join(folder, name), "utf8")]));

describe("a routine's file", () => {
  it("is replaced, keeps its rights, and is taken back once", async () => {
    chmodSync(file, 0o640);
    const files = routineFiles(content);
    const written = await files.write("kerb", (await seenIn()).key, second);
    expect(lies()).toEqual({ "kerb.md": second, ".kerb.md.before": first });
    expect(statSync(file).mode & 0o777).toBe(0o640);
    expect(written).toEqual(await seenIn());
    const { key } = await seenIn();
    expect(await files.takeBack("kerb", key)).toMatchObject({ text: first });
    expect(lies()).toEqual({ "kerb.md": first });
    expect(await files.takeBack("kerb", (await seenIn()).key)).toEqual({ refused: "nothing-before" });
  });

  it("that is kept as it was is passed over by the reader", async () => {
    await routineFiles(content).write("kerb", (await seenIn()).key, second);
    const { routines } = await readFiles(content);
    expect(routines.map(({ slug, findings }) => [slug, findings])).toEqual([["kerb", []]]);
  });

  it("that somebody has saved meanwhile is not written over, also at the last moment", async () => {
    const { key } = await seenIn();
    writeFileSync(file, third);
    expect(await routineFiles(content).write("kerb", key, second)).toEqual({ refused: "changed" });
    expect(await routineFiles(content).takeBack("kerb", key)).toEqual({ refused: "changed" });
    expect(lies()).toEqual({ "kerb.md": third });
    // Saved while the new one is written aside.
    const late: Disk = {
      ...disk,
      rename: async (from, to) => {
        await disk.rename(from, to);
        if (String(to).endsWith(".before")) writeFileSync(file, "saved just now\n");
      },
    };
    expect(await routineFiles(content, late).write("kerb", (await seenIn()).key, second)).toEqual({
      refused: "changed",
    });
    expect(lies()).toEqual({ "kerb.md": "saved just now\n", ".kerb.md.before": third });
  });

  it("takes one of two writes at once, and the other is told", async () => {
    const files = routineFiles(content);
    const { key } = await seenIn();
    const [one, other] = await Promise.all([files.write("kerb", key, second), files.write("kerb", key, third)]);
    expect([one, other]).toEqual([await seenIn(), { refused: "changed" }]);
    expect(lies()).toEqual({ "kerb.md": second, ".kerb.md.before": first });
  });

  it.each(["../outside", "..%2foutside", "/etc/hosts", "kerb.md", ".kerb", "", "kerb\0", "nobody"])(
    "is no other file: %s",
    async (slug) => {
      writeFileSync(join(content, "outside.md"), "not for you");
      writeFileSync(join(folder, ".kerb.md"), "not for you");
      expect(await routineFiles(content).read(slug)).toEqual({ refused: "gone" });
      expect(await routineFiles(content).write(slug, "", second)).toEqual({ refused: "gone" });
      expect(readFileSync(join(content, "outside.md"), "utf8")).toBe("not for you");
    },
  );

  it("that is a link, or lies in a folder that is one, is left alone with what it leads to", async () => {
    const outside = join(work, "outside.md");
    writeFileSync(outside, first);
    rmSync(file);
    symlinkSync(outside, file);
    expect(await routineFiles(content).write("kerb", "", second)).toEqual({ refused: "link" });
    rmSync(folder, { recursive: true });
    mkdirSync(join(work, "elsewhere"), { recursive: true });
    writeFileSync(join(work, "elsewhere/kerb.md"), first);
    symlinkSync(join(work, "elsewhere"), folder);
    expect(await routineFiles(content).write("kerb", "", second)).toEqual({ refused: "link" });
    expect([outside, join(work, "elsewhere/kerb.md")].map((path) => readFileSync(path, "utf8"))).toEqual([
      first,
      first,
    ]);
  });

  it("is written aside, though a link lies where that is done", async () => {
    const outside = join(work, "trap.md");
    writeFileSync(outside, "not for you");
    for (const name of [".kerb.md.new", ".kerb.md.before", ".kerb.md.before.new"])
      symlinkSync(outside, join(folder, name));
    await routineFiles(content).write("kerb", (await seenIn()).key, second);
    expect(lies()).toEqual({ "kerb.md": second, ".kerb.md.before": first });
    expect(readFileSync(outside, "utf8")).toBe("not for you");
  });

  it("that may not be written is left alone, though its folder would allow it", async () => {
    const files = routineFiles(content);
    const { key } = await files.write("kerb", (await seenIn()).key, second).then(() => seenIn());
    chmodSync(file, 0o444);
    expect(await files.write("kerb", key, third)).toEqual({ refused: "read-only" });
    expect(await files.takeBack("kerb", key)).toEqual({ refused: "read-only" });
    expect(lies()).toEqual({ "kerb.md": second, ".kerb.md.before": first });
  });

  it("that is no UTF-8 is left to its author", async () => {
    writeFileSync(file, Uint8Array.of(0x2d, 0x2d, 0xe9));
    expect(await routineFiles(content).write("kerb", "", second)).toEqual({ refused: "encoding" });
  });
});

/** A disk that fails at a call and, where the computer has gone, at all that follow. */
function failing(at: number, dead: boolean): Disk & { readonly calls: () => number } {
  let calls = 0;
  const fails = () => {
    calls++;
    return dead ? calls >= at : calls === at;
  };
  const full = () => Object.assign(new Error("no room"), { code: "ENOSPC" });
  const guarded = <Words extends unknown[], Result>(call: (...words: Words) => Promise<Result>) => {
    return async (...words: Words) => {
      if (fails()) throw full();
      return call(...words);
    };
  };
  const open: typeof disk.open = async (...words) => {
    const handle = await guarded(disk.open)(...words);
    const write = handle.writeFile.bind(handle);
    handle.writeFile = async (data) => {
      if (!fails()) return write(data as Uint8Array);
      // Half of it is there.
      await write(Buffer.from(data as Uint8Array).subarray(0, 3));
      throw full();
    };
    return handle;
  };
  const [rename, rm] = [guarded(disk.rename), guarded(disk.rm)];
  return { ...disk, open, rename, rm, calls: () => calls };
}

describe.each([
  ["a full disk", false],
  ["an end in the middle", true],
])("%s", (_, dead) => {
  it("loses nothing, whenever it comes, and the next write goes as if nothing had been", async () => {
    const counted = failing(Number.POSITIVE_INFINITY, dead);
    await routineFiles(content, counted).write("kerb", (await seenIn()).key, second);
    const calls = counted.calls();
    expect(calls).toBeGreaterThan(8);
    for (let at = 1; at <= calls; at++) {
      rmSync(folder, { recursive: true });
      mkdirSync(folder);
      writeFileSync(file, first);
      const { key } = await seenIn();
      await expect(routineFiles(content, failing(at, dead)).write("kerb", key, second), `call ${at}`).rejects.toThrow();
      const { ".kerb.md.before": before = first, ...left } = lies();
      expect([before, left["kerb.md"]], `call ${at}`).toEqual([first, first]);
      const aside = Object.keys(left).filter((name) => name !== "kerb.md");
      expect(aside.every((name) => name.startsWith("."))).toBe(true);
      if (!dead) expect(aside, `call ${at}`).toEqual([]);
      await routineFiles(content).write("kerb", key, third);
      expect(lies(), `call ${at}`).toEqual({ "kerb.md": third, ".kerb.md.before": first });
    }
  });
});

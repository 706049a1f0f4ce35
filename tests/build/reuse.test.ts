import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join, relative, resolve } from "node:path";
import fc from "fast-check";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { toolDigest } from "../../src/build/tool.js";
import { long, seed } from "../runs.js";
import { countleaf, litterBeside, routineText, treeOf, writeContent } from "./run.js";

const work = mkdtempSync(join(tmpdir(), "countleaf-reuse-"));
const [content, out] = [join(work, "content"), join(work, "home/pack")];
const cache = join(work, "home/.countleaf-pack/cache.json");
afterAll(() => rmSync(work, { recursive: true, force: true }));

beforeEach(() => {
  rmSync(content, { recursive: true, force: true });
  rmSync(join(work, "home"), { recursive: true, force: true });
  writeContent(content, {
    "routines/kerb.md": routineText("Kerb"),
    "routines/lamp.md": routineText("Lamp"),
    "routines/tram.md": routineText("Tram"),
    "workshops/eve.md": workshopText("kerb, lamp", "Bring shoes."),
  });
});

function workshopText(routines: string, prose: string): string {
  return `---\ntitle: Eve\ndate: 2027-01-16\nminutes: 60\nroutines: [${routines}]\n---\n${prose}\n`;
}

async function build(to = out): Promise<string> {
  const { status, out: said, err } = await countleaf(["build", "--content", content, "--out", to]);
  expect(status, err).toBe(0);
  return said;
}

/** The pack as a build makes it that knows of no earlier one. */
async function cleanBuild() {
  const clean = mkdtempSync(join(work, "clean-"));
  await build(join(clean, "pack"));
  const tree = treeOf(join(clean, "pack"));
  rmSync(clean, { recursive: true });
  return tree;
}

const slugs = ["kerb", "lamp", "tram"];
const publishedFiles = () => Object.keys(treeOf(out) ?? {});

/** What can happen between two builds. `dice` are numbers from 0 on. */
const happenings: Readonly<Record<string, (dice: readonly [number, number]) => void>> = {
  "a cue is changed": ([one, two]) => routine(one, `Kerb ${one}`, `Step right with ${two} fingers up`),
  "a title is changed": ([one, two]) => routine(one, `Title ${two}`),
  "two routines get one title": ([one]) => {
    routine(one, "The same");
    routine(one + 1, "The same");
  },
  "a comment is added": ([one, two]) => {
    const file = join(content, `routines/${slugs[one % 3]}.md`);
    writeFileSync(file, readFileSync(file, "utf8").replace("---\n", `---\n# ${two}\n`));
  },
  "a routine is added": ([one]) => writeContent(content, { [`routines/new-${one % 3}.md`]: routineText(`New ${one}`) }),
  "the added routines go": () => {
    for (const name of readdirSync(join(content, "routines")))
      if (name.startsWith("new-")) rmSync(join(content, "routines", name));
  },
  "the library changes": ([one]) => writeContent(content, { "library.yaml": `name: Room ${one % 5}\npaper: Letter\n` }),
  "a comment in the library changes": ([one]) => {
    const file = join(content, "library.yaml");
    writeFileSync(file, `${readFileSync(file, "utf8").replace(/#.*\n/, "")}# ${one}\n`);
  },
  "the workshop takes other routines": ([one]) =>
    writeContent(content, {
      "workshops/eve.md": workshopText(["tram", "lamp, kerb", "kerb, lamp"][one % 3] ?? "", "Bring shoes."),
    }),
  "the workshop's text changes": ([one]) =>
    writeContent(content, { "workshops/eve.md": workshopText("kerb, lamp", `Bring ${one} shoes.`) }),
  "another workshop comes": ([one]) =>
    writeContent(content, { "workshops/noon.md": workshopText("tram", `At noon ${one}.`).replace("Eve", "Noon") }),
  "and goes": () => rmSync(join(content, "workshops/noon.md"), { force: true }),
  "nothing happens": () => {},
  "a published file is changed by hand": ([one, two]) => {
    const files = publishedFiles().filter((path) => path !== ".countleaf");
    if (files.length === 0) return;
    const path = join(out, files[one % files.length] ?? "");
    const bytes = readFileSync(path);
    bytes[two % bytes.length] = (bytes[two % bytes.length] ?? 0) ^ 1;
    // Written anew: a file of the size and the time that it had.
    const { atime, mtime } = statSync(path);
    writeFileSync(path, bytes);
    utimesSync(path, atime, mtime);
  },
  "a published file is deleted": ([one]) => {
    const files = publishedFiles().filter((path) => path !== ".countleaf");
    if (files.length > 0) rmSync(join(out, files[one % files.length] ?? ""));
  },
  "the published folder is deleted": () => rmSync(out, { recursive: true, force: true }),
  "the cache is deleted": () => rmSync(cache, { force: true }),
  "the cache is cut off": ([one]) => {
    if (!existsSync(cache)) return;
    const text = readFileSync(cache, "utf8");
    writeFileSync(cache, text.slice(0, one % text.length));
  },
};

function routine(number: number, title: string, cue?: string): void {
  writeContent(content, { [`routines/${slugs[number % 3]}.md`]: routineText(title, cue) });
}

describe("a build that makes only what has changed", () => {
  const runs = long ? 150 : 1;
  it(`publishes the bytes of a clean build, whatever happened before (${runs} times)`, async () => {
    await build();
    const dice = fc.tuple(fc.nat(10_000), fc.nat(10_000));
    const happening = fc.tuple(fc.constantFrom(...Object.keys(happenings)), dice);
    const days = fc.array(happening, { minLength: long ? 1 : 3, maxLength: 3 });
    for (const day of fc.sample(days, { numRuns: runs, seed })) {
      for (const [name, numbers] of day) happenings[name]?.(numbers);
      await build();
      expect(treeOf(out), `seed ${seed}: ${JSON.stringify(day)}`).toEqual(await cleanBuild());
      expect(litterBeside(out)).toEqual([]);
    }
  }, 3_600_000);

  it("makes again what has changed and nothing else", async () => {
    await build();
    const times = () => Object.fromEntries(publishedFiles().map((path) => [path, statSync(join(out, path)).mtimeMs]));
    const before = times();
    expect(await build()).toContain("None of them had changed");
    expect(times()).toEqual(before);

    routine(2, "Tram", "Step left and wait");
    expect(await build()).toContain("1 of them had changed");
    const now = times();
    const anew = Object.keys(now).filter((path) => now[path] !== before[path] && path !== ".countleaf");
    expect(anew.filter((path) => path.startsWith("routines/") && !path.startsWith("routines/tram/"))).toEqual([]);
    expect(anew.filter((path) => path.startsWith("workshops/"))).toEqual([]);
    expect(anew).toContain("routines/tram/handout-1.pdf");
  });

  it("says again what there is to look at, though it reads nothing again", async () => {
    const run = () => countleaf(["build", "--content", content, "--out", out]);
    routine(1, "Kerb", "Step left");
    const first = await run();
    expect(first.err).toContain("routines/lamp.md:2:8  warning:");
    const second = await run();
    expect(second).toMatchObject({ status: 0, err: first.err });
    expect(second.out).toContain("None of them had changed");

    // A broken state in between is told, and what was said before it is said again after it.
    const text = readFileSync(join(content, "routines/lamp.md"), "utf8");
    writeFileSync(join(content, "routines/lamp.md"), text.replace("title:", "titel:"));
    expect((await run()).status).toBe(1);
    writeFileSync(join(content, "routines/lamp.md"), text);
    expect(await run()).toMatchObject({ status: 0, err: first.err });

    // Under another name of the folder the places are called otherwise.
    const named = relative(process.cwd(), content);
    const other = await countleaf(["build", "--content", named, "--out", out]);
    expect(other.err).toContain(`${named}/routines/lamp.md:2:8  warning:`);
  });

  it("makes everything again after a change to the library, and to the tool", async () => {
    await build();
    writeContent(content, { "library.yaml": "name: Another Room\n" });
    expect(await build()).not.toContain("had changed");
    const tool = join(work, "tool");
    const root = resolve(import.meta.dirname, "../..");
    for (const part of ["dist", "templates", "package.json"])
      cpSync(join(root, part), join(tool, part), { recursive: true });
    symlinkSync(join(root, "node_modules"), join(tool, "node_modules"));
    const digest = toolDigest(tool);
    expect(digest).toBe(toolDigest(root));
    for (const file of ["dist/pages/routine.11ty.js", "templates/style/20-routine.css", "dist/build/thread.js"]) {
      writeFileSync(join(tool, file), `${readFileSync(join(tool, file), "utf8")} `);
      expect(toolDigest(tool), file).not.toBe(digest);
      cpSync(join(root, file), join(tool, file));
    }
    expect(toolDigest(tool)).toBe(digest);
  });
});

import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { cp } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { markName } from "../../src/build/folders.js";
import { openStaging, writeInto } from "../../src/build/staging.js";
import { readFiles } from "../../src/reading/files.js";
import { slugOf } from "../../src/reading/slug.js";
import { hostileNames } from "../fixtures/hostile-names.js";
import { countleaf, litterBeside, routineText, treeOf, writeContent } from "./run.js";

const root = resolve(import.meta.dirname, "../..");
const work = mkdtempSync(join(tmpdir(), "countleaf-paths-"));
afterAll(() => rmSync(work, { recursive: true, force: true }));

/** Slugs that mean something elsewhere. */
const slugs = ["constructor", "2026"];
const files = {
  ...Object.fromEntries(slugs.map((slug) => [`routines/${slug}.md`, routineText(slug)])),
  "workshops/constructor.md": "---\ntitle: Eve\nminutes: 60\nroutines: [constructor, 2026]\n---\nBring shoes.\n",
};

/* Windows knows no files of most of these names. */
const names = process.platform === "win32" ? hostileNames.filter((name) => slugOf(name) === name) : hostileNames;

/** A path may have 4,096 bytes, of which the places of a pack want some hundreds; Node asks for them in a fraction of that. */
const mostBytes = 1200;

/** The names in a few rows, each name a folder around the next. */
const rows = names.reduce<string[][]>((rows, name) => {
  const last = rows.at(-1);
  if (last && Buffer.byteLength([...last, name].join("/")) <= mostBytes) last.push(name);
  else rows.push([name]);
  return rows;
}, []);

it("there are a hundred names and more, all different", () => {
  expect(new Set(hostileNames).size).toBe(hostileNames.length);
  expect(hostileNames.length).toBeGreaterThanOrEqual(100);
});

describe("a path is never a pattern", () => {
  let plain: ReturnType<typeof treeOf>;
  beforeAll(async () => {
    writeContent(join(work, "content"), files);
    const run = await countleaf(["build", "--content", join(work, "content"), "--out", join(work, "pack")]);
    expect(run.status, run.err).toBe(0);
    plain = treeOf(join(work, "pack"));
    expect(Object.keys(plain ?? {})).toContain("routines/2026/index.html");
  });

  it.concurrent.each(rows.map((names) => [names.length, names] as const))(
    "a build by a program, of a folder, into a folder below %i names",
    async (_, names) => {
      const folder = join(work, ...names);
      // Its name begins like that of the folder in which the command is run. Node itself loads no program from below a name with a backslash.
      const install = join(work, ...names.filter((name) => !name.includes("\\")), "home-installed");
      mkdirSync(install, { recursive: true });
      for (const part of ["dist", "templates", "package.json"])
        await cp(join(root, part), join(install, part), { recursive: true });
      symlinkSync(join(root, "node_modules"), join(install, "node_modules"));
      const last = names.at(-1) ?? "";
      const [content, out] = [last, `${last} pack`];
      const home = join(folder, "home");
      writeContent(join(home, content), files);
      writeFileSync(join(home, "package.json"), "of somebody else, and broken");
      const run = await countleaf(["build", `--content=${content}`, `--out=${out}`], {
        cwd: home,
        main: join(install, "dist/cli/main.js"),
      });
      expect([run.status, run.err]).toEqual([0, ""]);
      expect(treeOf(join(home, out))).toEqual(plain);
      expect(litterBeside(join(home, out)).filter((name) => name.startsWith("."))).toEqual([]);
    },
  );

  it.each(names.map((name) => [JSON.stringify(name), name]))("%s, each on its own", async (_, name) => {
    const home = mkdtempSync(join(work, "own-"));
    const [content, out] = [join(home, name), join(home, "out", name)];
    writeContent(content, files);
    const read = await readFiles(content);
    expect(
      [read.library, ...read.routines, ...read.workshops].map(({ slug, text, findings }) => [slug, !!text, findings]),
    ).toEqual([
      ["library", true, []],
      ["2026", true, []],
      ["constructor", true, []],
      ["constructor", true, []],
    ]);
    for (const text of ["first", "second"]) {
      const staging = openStaging(content, out);
      for (const path of ["index.html", `routines/2026/${text}.txt`])
        writeInto(staging.folder, { ...page, path, content: text });
      staging.publish(["index.html", `routines/2026/${text}.txt`]);
      staging.close();
      expect(Object.keys(treeOf(out) ?? {})).toEqual([markName, "index.html", `routines/2026/${text}.txt`]);
      expect(readFileSync(join(out, "index.html"), "utf8")).toBe(text);
    }
  });

  it("as files' names each is read as its own address, or told the one to take, which then is", async () => {
    const content = join(work, "named");
    writeContent(content, {});
    mkdirSync(join(content, "routines"));
    for (const name of names) writeFileSync(join(content, "routines", `${name}.md`), routineText("A"));
    const { routines } = await readFiles(content);
    // What begins with a dot belongs to the system.
    const visible = names.filter((name) => !name.startsWith("."));
    expect(new Set(routines.map(({ file }) => file.slice(`${content}/routines/`.length, -3)))).toEqual(
      new Set(visible),
    );
    for (const { file, slug, findings } of routines) {
      const told = findings.map(({ message }) => message).join();
      if (findings.length === 0) expect(slugOf(slug), file).toBe(slug);
      else if (!told.includes("has the same name"))
        expect(told, file).toMatch(slugOf(slug) === "" ? /can't be part of an address/ : /call it/);
      const instead = /call it `(.+)\.md`/.exec(told)?.[1];
      if (instead !== undefined) expect(slugOf(instead)).toBe(instead);
    }
    expect(existsSync(join(content, "routines", "Łódź.md"))).toBe(true);
  });
});

const page = { kind: "page", mediaType: "text/html" } as const;

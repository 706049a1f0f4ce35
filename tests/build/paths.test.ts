import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
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

/** Names that a pattern, an address or a shell reads as something else; each is a folder around the next. */
const rows: readonly (readonly string[])[] = [
  ["Program Files (x86)", "{2026,2027}", "+(b)", "[a]", "!x"],
  ["50% off #1?", "%2e", "2027-13-45", "**", "~", "'\"$HOME`", "*", "a\\b"],
];

/* Windows knows no files of most of the second row's names. */
const possible = process.platform === "win32" ? rows.slice(0, 1) : rows;

describe("a path is never a pattern", () => {
  let plain: ReturnType<typeof treeOf>;
  beforeAll(async () => {
    writeContent(join(work, "content"), files);
    const run = await countleaf(["build", "--content", join(work, "content"), "--out", join(work, "pack")]);
    expect(run.status, run.err).toBe(0);
    plain = treeOf(join(work, "pack"));
    expect(Object.keys(plain ?? {})).toContain("routines/2026/index.html");
  });

  it.concurrent.each(possible.map((names) => [names.join("/"), names] as const))("%s", async (_, names) => {
    const folder = join(work, ...names);
    // Node itself loads no program from below a name with a backslash.
    const install = join(work, ...names.filter((name) => !name.includes("\\")), "installed");
    mkdirSync(install, { recursive: true });
    for (const part of ["dist", "templates", "package.json"])
      cpSync(join(root, part), join(install, part), { recursive: true });
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
  });
});

import { execFileSync } from "node:child_process";
import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { basename, join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

const clone = resolve(import.meta.dirname, "..");
const work = mkdtempSync(join(tmpdir(), "countleaf-install-"));
const [copy, room] = [join(work, "clone"), join(work, "dances")];
let files: readonly string[] = [];

function run(command: string, args: readonly string[], cwd: string): string {
  return execFileSync(command, args, { cwd, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
}

/** What the README tells whoever wants a library of their own to type. */
function shownCommands(): string {
  const part = readFileSync(join(clone, "README.md"), "utf8").split("## What do you want to do?")[1] ?? "";
  return /```sh\n([^`]*)```/.exec(part)?.[1] ?? "";
}

/* The commands run as they are shown, in a copy of the clone. The packed file alone goes into a folder of its own: whatever it needs from
 * the clone and does not carry is missed here. */
beforeAll(() => {
  const left = ["node_modules", ".git", "_site", "output-sample", ".unbundled"].map((name) => join(clone, name));
  cpSync(clone, copy, {
    recursive: true,
    preserveTimestamps: true,
    filter: (path) => !left.includes(path) && !basename(path).startsWith(".countleaf-"),
  });
  symlinkSync(join(clone, "node_modules"), join(copy, "node_modules"), "dir");
  const settings = { npm_config_prefer_offline: "true", npm_config_audit: "false", npm_config_fund: "false" };
  const shown = `set -e\n${shownCommands()}`;
  execFileSync("bash", ["-c", shown], { cwd: copy, env: { ...process.env, ...settings }, stdio: "pipe" });
  const [packed = ""] = readdirSync(work).filter((name) => name.endsWith(".tgz"));
  const list = run("tar", ["-tzf", join(work, packed)], work);
  files = list
    .trim()
    .split("\n")
    .map((path) => path.replace(/^package\//, ""));
}, 300_000);

afterAll(() => rmSync(work, { recursive: true, force: true }));

describe("installed from the packed file", () => {
  it("as the README shows it starts a library, adds a routine and builds the pack", () => {
    expect(run("npx", ["countleaf", "--version"], room).trim()).toMatch(/^\d+\.\d+\.\d+$/);
    const home = join(room, "my-room");
    expect(existsSync(join(home, "_site/routines/low-tide/index.html"))).toBe(true);
    run("npx", ["countleaf", "new", "routine", "Tango für zwei: again"], home);
    expect(readdirSync(join(home, "content/routines")).sort()).toEqual([
      "first-steps.md",
      "low-tide.md",
      "tango-für-zwei-again.md",
    ]);
    expect(readFileSync(join(home, "content/routines/tango-für-zwei-again.md"), "utf8")).toContain(
      'title: "Tango für zwei: again"',
    );
    const said = run("npx", ["countleaf", "build"], home);
    expect(said).toContain("3 routines, 1 workshop");
    for (const path of [
      "index.html",
      "routines/first-steps/index.html",
      "routines/first-steps/handout-1.pdf",
      "routines/first-steps/routine.json",
      "workshops/first-class/index.html",
      "workshops/first-class/pack.pdf",
    ])
      expect(existsSync(join(home, "_site", path)), path).toBe(true);
  }, 120_000);

  it("is a front door for programs, with the types that it speaks of and no others", () => {
    const uses = `import { clicks, mirror, readLibrary, readRoutine, type Routine } from "countleaf";
const { library } = readLibrary("name: Saltmarsh Dance Room");
if (library === undefined) throw new Error("no library");
const text = "---\\ntitle: Sill\\nchoreographer: Ines Varga\\nmusic: { tempo: 60 }\\nsections:\\n  - { name: Hall, counts: [{ 1-8: Walk }] }\\n---\\n";
const routine: Routine | undefined = readRoutine(text, "sill", library).routine;
if (routine === undefined) throw new Error("no routine");
const seconds: number = [...clicks(mirror(routine))].at(-1)?.end.valueOf() ?? 0;
console.log(routine.title, seconds);
`;
    writeFileSync(join(room, "uses.mts"), uses);
    const options = ["--module", "nodenext", "--target", "es2023", "--strict", "--types", "", "--outDir", "built"];
    run(process.execPath, [join(clone, "node_modules/typescript/bin/tsc"), ...options, "uses.mts"], room);
    expect(run(process.execPath, ["built/uses.mjs"], room)).toBe("Sill 8\n");
    expect(() => run(process.execPath, ["--eval", "require('countleaf/dist/cli/main.js')"], room)).toThrow(
      "not defined by",
    );
    const declared = files.filter((path) => path.endsWith(".d.ts"));
    expect(declared).toContain("dist/types/index.d.ts");
    expect(declared.filter((path) => !path.startsWith("dist/types/"))).toEqual([]);
    expect(files.filter((path) => /tsbuildinfo|\.compiled|templates\/(pages|script)\/|\.map$/.test(path))).toEqual([]);
  });
});

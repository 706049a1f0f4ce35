import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

const clone = resolve(import.meta.dirname, "..");
const work = mkdtempSync(join(tmpdir(), "countleaf-install-"));
const room = join(work, "empty");
let files: readonly string[] = [];

function run(command: string, args: readonly string[], cwd: string): string {
  return execFileSync(command, args, { cwd, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
}

/* The packed file alone goes into an empty folder: whatever it needs from the clone and does not carry is missed here. */
beforeAll(() => {
  run(process.execPath, ["tests/tools/declarations.mjs"], clone);
  const [packed] = JSON.parse(run("npm", ["pack", "--json", "--ignore-scripts", "--pack-destination", work], clone));
  files = packed.files.map(({ path }: { readonly path: string }) => path);
  mkdirSync(room);
  run("npm", ["init", "--yes"], room);
  run("npm", ["install", "--prefer-offline", "--no-audit", "--no-fund", join(work, packed.filename)], room);
}, 300_000);

afterAll(() => rmSync(work, { recursive: true, force: true }));

describe("installed from the packed file", () => {
  it("starts a library, adds a routine and builds the pack", () => {
    expect(run("npx", ["countleaf", "--version"], room).trim()).toMatch(/^\d+\.\d+\.\d+$/);
    run("npx", ["countleaf", "new", "library", "my-room"], room);
    const home = join(room, "my-room");
    run("npx", ["countleaf", "new", "routine", "Tango für zwei: again"], home);
    expect(readdirSync(join(home, "content/routines")).sort()).toEqual(["first-steps.md", "tango-fur-zwei-again.md"]);
    expect(readFileSync(join(home, "content/routines/tango-fur-zwei-again.md"), "utf8")).toContain(
      'title: "Tango für zwei: again"',
    );
    const said = run("npx", ["countleaf", "build"], home);
    expect(said).toContain("2 routines, 1 workshop");
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

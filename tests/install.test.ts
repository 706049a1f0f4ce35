import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

const clone = resolve(import.meta.dirname, "..");
const work = mkdtempSync(join(tmpdir(), "countleaf-install-"));
const room = join(work, "empty");

function run(command: string, args: readonly string[], cwd: string): string {
  return execFileSync(command, args, { cwd, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
}

/* The packed file alone goes into an empty folder: whatever it needs from the clone and does not carry is missed here. */
beforeAll(() => {
  const [packed] = JSON.parse(run("npm", ["pack", "--json", "--ignore-scripts", "--pack-destination", work], clone));
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
});

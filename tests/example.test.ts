import { existsSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyLibrary, readLibrary } from "../src/reading/read-library.js";
import { readRoutine } from "../src/reading/read-routine.js";

const root = resolve(import.meta.dirname, "..");
const text = (path: string) => readFileSync(resolve(root, path), "utf8");

describe("the README", () => {
  it("shows pictures that are there, and links to files that are", () => {
    const readme = text("README.md").replace(/^```[\s\S]*?^```/gm, "");
    const targets = [...readme.matchAll(/\]\(([^)#]+)\)/g)].map(([, target = ""]) => target);
    const own = targets.filter((target) => !/^[a-z]+:/.test(target));
    expect(own.length).toBeGreaterThan(1);
    expect(own.filter((target) => !existsSync(resolve(root, target)))).toEqual([]);
  });
});

describe("the example to copy from", () => {
  it("stands in the README (else: npm run schemas)", () => {
    expect(text("README.md")).toContain(text("templates/new/routine.md").trim());
  });

  it("is danced without a finding", () => {
    const { library = emptyLibrary, findings } = readLibrary(text("templates/new/library.yaml"));
    expect(findings).toEqual([]);
    expect(readRoutine(text("templates/new/routine.md"), "first-steps", library).findings).toEqual([]);
  });
});

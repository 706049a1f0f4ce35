import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { schemaFiles } from "../src/reading/json-schema.js";
import { withKeyTable } from "../src/reading/key-table.js";
import { readRoutineText } from "../src/reading/read-routine.js";
import { library } from "./routine/arbitrary.js";

const root = resolve(import.meta.dirname, "..");
const text = (path: string) => readFileSync(resolve(root, path), "utf8");

describe("what is generated is up to date (else: npm run schemas)", () => {
  it.each([...schemaFiles()])("templates/schemas/%s", (name, schema) => {
    expect(text(`templates/schemas/${name}`)).toBe(schema);
  });

  it("the README's table of keys and example file", () => {
    const page = text("README.md");
    expect(page).toContain("| `choreographer` (required) |");
    expect(withKeyTable(page)).toBe(page);
    expect(page).toContain(text("templates/new/routine.md").trim());
  });
});

describe("the example to copy from", () => {
  it("is danced without a finding", () => {
    expect(readRoutineText(text("templates/new/routine.md"), "first-steps", library).findings).toEqual([]);
  });
});

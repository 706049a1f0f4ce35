import { readdirSync, readFileSync } from "node:fs";
import { Ajv } from "ajv";
import { expect, test } from "vitest";
import { parse } from "yaml";
import { schemaFiles } from "../../src/reading/json-schema.js";
import { keyTable, withKeyTable } from "../../src/reading/key-table.js";

const check = (name: string) => new Ajv({ strict: false }).compile(JSON.parse(schemaFiles().get(name) ?? ""));
/* As an editor reads it: YAML 1.2 with its core schema, so that 92 is a number. */
const frontMatter = (path: string) =>
  parse((readFileSync(path, "utf8").split(/^---\n/m)[1] ?? "").replace(/^#.*\n/, ""));

test.each([...schemaFiles().keys()])("%s is up to date (npm run schemas)", (name) => {
  expect(readFileSync(`templates/schemas/${name}`, "utf8")).toBe(schemaFiles().get(name));
});

test("the README's table of keys is up to date (npm run schemas)", () => {
  const readme = readFileSync("README.md", "utf8");
  expect(readme).toContain(keyTable());
  expect(withKeyTable(readme)).toBe(readme);
});

test("an editor has nothing to say against the demo library", () => {
  const routine = check("routine.schema.json");
  for (const name of readdirSync("content/routines")) {
    routine(frontMatter(`content/routines/${name}`));
    expect(routine.errors, name).toBeNull();
  }
  const workshop = check("workshop.schema.json");
  for (const name of readdirSync("content/workshops")) {
    workshop(frontMatter(`content/workshops/${name}`));
    expect(workshop.errors, name).toBeNull();
  }
  const library = check("library.schema.json");
  library(parse(readFileSync("content/library.yaml", "utf8")));
  expect(library.errors).toBeNull();
});

test.each([
  ["a misspelt key", { chorographer: "Ines Varga" }],
  ["a word that is none of the list", { audience: "everybody" }],
  ["a level that is a list", { taught: [1] }],
  [
    "a wrong word deep in a move",
    { sections: [{ name: "A", counts: [{ "1-4": { do: "Walk", height: "hovering" } }] }] },
  ],
  ["a key in place of a count", { sections: [{ name: "A", counts: [{ lenght: 4 }] }] }],
])("an editor marks %s", (_, keys) => {
  const sections = [{ name: "A", counts: [{ "1-4": "Walk", length: 4 }] }];
  const whole = { title: "A", choreographer: "B", music: { tempo: 92 }, sections };
  const routine = check("routine.schema.json");
  expect(routine(whole)).toBe(true);
  expect(routine({ ...whole, ...keys })).toBe(false);
});

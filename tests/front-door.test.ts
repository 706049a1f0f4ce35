import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import * as door from "../src/index.js";

const src = resolve(import.meta.dirname, "../src");

/** The functions that the others' examples read on from. */
const first = ["readLibrary", "readRoutine"];

/** What the front door gives, each with the file that has it. */
const given = [
  ...readFileSync(resolve(src, "index.ts"), "utf8").matchAll(/^export \{ ([^}]+) \} from "([^"]+)";$/gm),
].flatMap(([, names = "", from = ""]) =>
  names
    .split(", ")
    .filter((name) => !name.startsWith("type "))
    .map((name) => ({ name, file: resolve(src, from.replace(/\.js$/, ".ts")) })),
);

/** The lines of the example beside a function: what is written, and what stands behind `//` as its value. */
function exampleOf({
  name,
  file,
}: (typeof given)[number]): readonly { readonly code: string; readonly value?: string }[] {
  const text = readFileSync(file, "utf8");
  const declared = new RegExp(
    `/\\*\\*((?:(?!\\*/)[\\s\\S])*)\\*/\\nexport (?:async )?(?:function\\*? |const )${name}\\b`,
  ).exec(text)?.[1];
  const example = declared?.split("@example")[1];
  if (example === undefined) throw new Error(`${name} has no example beside it.`);
  return example
    .split("\n")
    .map((line) => line.replace(/^ *\* ?/, "").trim())
    .filter((line) => line !== "" && line !== "/")
    .map((line) => {
      const at = line.lastIndexOf(" // ");
      return at < 0 ? { code: line } : { code: line.slice(0, at), value: line.slice(at + 4) };
    });
}

describe("the front door", () => {
  it("has docstrings whose examples come true, read on from one to the next", () => {
    const inOrder = [...first.flatMap((name) => given.filter((one) => one.name === name)), ...given];
    const lines = [...new Set(inOrder)].flatMap((one) => exampleOf(one).map((line) => ({ ...line, of: one.name })));
    const checks = lines.filter(({ value }) => value !== undefined);
    for (const { name } of given)
      expect(
        checks.some(({ of }) => of === name),
        name,
      ).toBe(true);
    const script = lines
      .map(({ of, code, value }) =>
        value === undefined ? `${code};` : `check(${JSON.stringify(`${of}: ${code}`)}, ${code}, ${value});`,
      )
      .join("\n");
    const names = Object.keys(door);
    const check = (what: string, value: unknown, expected: unknown) => expect(value, what).toEqual(expected);
    const run = new Function(...names, "check", `"use strict";\n${script}`);
    run(...Object.values(door), check);
  });

  it("gives no more than a page of names", () => {
    expect(given.map(({ name }) => name).sort()).toEqual([
      "chart",
      "clicks",
      "countCaptions",
      "dancersOf",
      "descriptionText",
      "mirror",
      "readLibrary",
      "readRoutine",
      "routineJson",
      "rules",
    ]);
    expect(Object.keys(door).sort()).toEqual(given.map(({ name }) => name).sort());
  });
});

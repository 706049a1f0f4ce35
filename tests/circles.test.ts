import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve, sep } from "node:path";
import { describe, expect, it } from "vitest";

const src = resolve(import.meta.dirname, "../src");

/** Circles that are being mended, by the files in them: to be emptied. */
const allowed: readonly (readonly string[])[] = [
  ["reading/swallowed.ts", "reading/tree-key.ts", "reading/tree.ts"],
  ["teaching/recording.ts", "teaching/takes.ts"],
];

/** What each file of the project imports of it: values and types, in any way of writing it. */
function importsOf(file: string): readonly string[] {
  const text = readFileSync(join(src, file), "utf8");
  const found = text.matchAll(/\bfrom\s+"(\.[^"]+)"|\bimport\s+"(\.[^"]+)"|\bimport\(\s*"(\.[^"]+)"\s*\)/g);
  return [...found].map((match) => {
    const path = resolve(src, dirname(file), match[1] ?? match[2] ?? match[3] ?? "");
    return relative(src, path).replaceAll(sep, "/").replace(/\.js$/, ".ts");
  });
}

type Graph = ReadonlyMap<string, readonly string[]>;

/** A shortest circle through each file that is in one, every circle once: its files in the order in which they import each other. */
function circlesIn(graph: Graph): readonly (readonly string[])[] {
  const found = new Map<string, readonly string[]>();
  for (const file of graph.keys()) {
    const circle = circleThrough(file, graph);
    const key = [...(circle ?? [])].sort().join(" ");
    if (circle !== undefined && !found.has(key)) found.set(key, circle);
  }
  return [...found.values()];
}

function circleThrough(start: string, graph: Graph): readonly string[] | undefined {
  const seen = new Set([start]);
  let paths: readonly (readonly string[])[] = [[start]];
  while (paths.length > 0) {
    const longer: (readonly string[])[] = [];
    for (const path of paths)
      for (const next of graph.get(path.at(-1) ?? "") ?? []) {
        if (next === start) return path;
        if (!seen.has(next)) longer.push([...path, next]);
        seen.add(next);
      }
    paths = longer;
  }
  return undefined;
}

describe("circles of imports", () => {
  it("are found, by a shortest way round", () => {
    const graph = new Map([
      ["a", ["b"]],
      ["b", ["c", "d"]],
      ["c", ["a"]],
      ["d", ["d", "e"]],
      ["e", []],
    ]);
    expect(circlesIn(graph)).toEqual([["a", "b", "c"], ["d"]]);
  });

  it("are nowhere in src, imports of types included", () => {
    const files = readdirSync(src, { recursive: true, encoding: "utf8" })
      .map((file) => file.replaceAll(sep, "/"))
      .filter((file) => file.endsWith(".ts"));
    const circles = circlesIn(new Map(files.map((file) => [file, importsOf(file)])));
    const left = circles.filter((circle) => !allowed.some((files) => circle.every((file) => files.includes(file))));
    expect(left.map((circle) => [...circle, circle[0]].join(" imports "))).toEqual([]);
  });
});

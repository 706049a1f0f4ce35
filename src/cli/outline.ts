import { makeDescription } from "../build/one-routine.js";
import { printMade } from "./print-one.js";
import { readWords } from "./words.js";

const usage = "countleaf outline SLUG [--content DIR]\n";

export async function outlineCommand(args: readonly string[]): Promise<number> {
  const words = readWords(args, usage, ["content"], { least: 1, most: 1 });
  if (typeof words === "number") return words;
  const [slug = ""] = words.rest;
  return printMade(slug, await makeDescription(words.options.content ?? "content", slug));
}

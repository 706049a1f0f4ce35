import { makeDescription } from "../build/one-routine.js";
import { readArguments } from "./arguments.js";
import { printMade } from "./print-one.js";

const usage = "countleaf outline SLUG [--content DIR]\n";

export async function outlineCommand(args: readonly string[]): Promise<number> {
  const given = readArguments(args, usage, ["content"], { least: 1, most: 1 });
  if (typeof given === "number") return given;
  const [slug = ""] = given.rest;
  return printMade(slug, await makeDescription(given.options.content ?? "content", slug));
}

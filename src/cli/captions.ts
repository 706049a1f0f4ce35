import { makeCaptions } from "../build/one-routine.js";
import { readArguments } from "./arguments.js";
import { printMade } from "./print-one.js";
import { usageError } from "./status.js";

const usage = "countleaf captions SLUG [--lead COUNTS] [--content DIR]\n";

export async function captionsCommand(args: readonly string[]): Promise<number> {
  const given = readArguments(args, usage, ["content", "lead"], { least: 1, most: 1 });
  if (typeof given === "number") return given;
  const { content = "content", lead = "0" } = given.options;
  if (!/^\d{1,2}(\.\d{1,3})?$/.test(lead)) {
    process.stderr.write(`countleaf: \`--lead\` is a number of counts from 0 to 99, not ${lead}\n${usage}`);
    return usageError;
  }
  const [slug = ""] = given.rest;
  return printMade(slug, await makeCaptions(content, slug, Number(lead)));
}

import { makeCaptions } from "../build/one-routine.js";
import { printMade } from "./print-one.js";
import { wrongWords } from "./status.js";
import { readWords } from "./words.js";

const usage = "countleaf captions SLUG [--lead COUNTS] [--content DIR]\n";

export async function captionsCommand(args: readonly string[]): Promise<number> {
  const words = readWords(args, usage, ["content", "lead"], { least: 1, most: 1 });
  if (typeof words === "number") return words;
  const { content = "content", lead = "0" } = words.options;
  if (!/^\d{1,2}(\.\d{1,3})?$/.test(lead)) {
    process.stderr.write(`countleaf: \`--lead\` is a number of counts from 0 to 99, not ${lead}\n${usage}`);
    return wrongWords;
  }
  const [slug = ""] = words.rest;
  return printMade(slug, await makeCaptions(content, slug, Number(lead)));
}

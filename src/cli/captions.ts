import { type Made, makeCaptions } from "../build/one-routine.js";
import { clockHint, readClock } from "../reading/schema/values.js";
import { readArguments } from "./arguments.js";
import { printMade } from "./print-one.js";
import { usageError } from "./status.js";

const usage = "countleaf captions SLUG [--lead COUNTS] [--offset 0:12.5] [--content DIR]\n";

export async function captionsCommand(args: readonly string[]): Promise<number> {
  const given = readArguments(args, usage, ["content", "lead", "offset"], { least: 1, most: 1 });
  if (typeof given === "number") return given;
  const { content = "content", lead = "0", offset } = given.options;
  if (!/^\d{1,2}(\.\d{1,3})?$/.test(lead)) {
    process.stderr.write(`countleaf: \`--lead\` is a number of counts from 0 to 99, not ${lead}\n${usage}`);
    return usageError;
  }
  const firstCount = offset === undefined ? undefined : readClock(offset);
  if (offset !== undefined && firstCount === undefined) {
    process.stderr.write(`countleaf: ${wrongOffset(offset)}\n${usage}`);
    return usageError;
  }
  const [slug = ""] = given.rest;
  const made = await makeCaptions(content, slug, { lead: Number(lead), ...(firstCount && { firstCount }) });
  if (made.done) process.stderr.write(countedFrom(made.routine, offset));
  return printMade(slug, made);
}

function wrongOffset(offset: string): string {
  const hint = clockHint(offset) ?? "Write it as `--offset 0:12.5`.";
  return `\`--offset\` is the time in the recording on which the routine's first count falls, not ${offset}. ${hint}`;
}

type Routine = Extract<Made, { readonly done: true }>["routine"];

/** What the captions are counted from, where that is no more than the file's own word. */
function countedFrom({ music, title }: Routine, offset: string | undefined): string {
  if (offset !== undefined) return `countleaf: the first count of ${title} falls at ${offset} in the recording.\n`;
  if (music.firstCount !== undefined) return "";
  return `countleaf: the file does not say where the first count of ${title} falls, so these captions begin with it at 0:00. Say where it falls in your recording: \`--offset 0:12.5\`.\n`;
}

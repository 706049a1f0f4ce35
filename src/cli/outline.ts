import { outlineText } from "../publishing/outline/outline.js";
import { readOne } from "./one-routine.js";
import { done } from "./status.js";
import { readWords } from "./words.js";

const usage = "countleaf outline SLUG [--content DIR]\n";

export async function outlineCommand(args: readonly string[]): Promise<number> {
  const words = readWords(args, usage, ["content"], { least: 1, most: 1 });
  if (typeof words === "number") return words;
  const read = await readOne(words.options.content ?? "content", words.rest[0] ?? "");
  if (typeof read === "number") return read;
  process.stdout.write(outlineText(read.routine, read.library));
  return done;
}

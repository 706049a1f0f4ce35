import { makeOutline } from "../build/one-routine.js";
import { printObstacle } from "./findings.js";
import { done, failed } from "./status.js";
import { readWords } from "./words.js";

const usage = "countleaf outline SLUG [--content DIR]\n";

export async function outlineCommand(args: readonly string[]): Promise<number> {
  const words = readWords(args, usage, ["content"], { least: 1, most: 1 });
  if (typeof words === "number") return words;
  const [slug = ""] = words.rest;
  const made = await makeOutline(words.options.content ?? "content", slug);
  if (!made.done) {
    printObstacle(slug, made);
    return failed;
  }
  process.stdout.write(made.text);
  return done;
}

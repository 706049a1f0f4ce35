import { hearFile } from "../build/draft/hear.js";
import { findRoutine } from "../build/one-routine.js";
import { compare } from "../hearing/compare.js";
import { readArguments } from "./arguments.js";
import { comparisonText } from "./comparison-text.js";
import { printObstacle } from "./findings.js";
import { printNotHeard } from "./not-heard.js";
import { done, failed } from "./status.js";

const usage = `countleaf compare SLUG FILE [--content DIR]

  SLUG   a routine that has a file
  FILE   captions of a lesson of it (WebVTT, SubRip, or lines that begin with [m:ss])
`;

export async function compareCommand(args: readonly string[]): Promise<number> {
  const given = readArguments(args, usage, ["content"], { least: 2, most: 2 });
  if (typeof given === "number") return given;
  const [slug = "", file = ""] = given.rest;
  const found = await findRoutine(given.options.content ?? "content", slug);
  if (!found.done) {
    printObstacle(slug, found);
    return failed;
  }
  const { routine } = found;
  const heard = hearFile(file, { phrase: routine.music.phrase });
  if (!("draft" in heard)) {
    printNotHeard(file, heard);
    return failed;
  }
  process.stdout.write(comparisonText(compare(heard.draft, routine), heard.draft.length, routine.title));
  return done;
}

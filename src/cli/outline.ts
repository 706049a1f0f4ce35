import { makeDescription } from "../build/one-routine.js";
import { readArguments } from "./arguments.js";
import { printMade } from "./print-one.js";
import { failed } from "./status.js";

const usage = `countleaf outline SLUG [--mirrored] [--content DIR]

  --mirrored   for under the breakdown's mirrored film
`;

const mirroredOption = "--mirrored";

export async function outlineCommand(args: readonly string[]): Promise<number> {
  const mirrored = args.includes(mirroredOption);
  const others = args.filter((arg) => arg !== mirroredOption);
  const given = readArguments(others, usage, ["content"], { least: 1, most: 1 });
  if (typeof given === "number") return given;
  const [slug = ""] = given.rest;
  const made = await makeDescription(given.options.content ?? "content", slug, mirrored);
  if (!made.done || made.text !== "") return printMade(slug, made);
  process.stderr.write(
    `countleaf: \`${slug}\` has no mirrored film; write its link at \`breakdown-mirrored\` under \`video\`, or leave ${mirroredOption} out\n`,
  );
  return failed;
}

import { makeDescription } from "../build/one-routine.js";
import { eitherOf } from "../reading/nearest.js";
import { readArguments } from "./arguments.js";
import { printMade } from "./print-one.js";
import { failed } from "./status.js";

const usage = `countleaf outline SLUG [--mirrored] [--content DIR]

  --mirrored   for under the breakdown's mirrored film
`;

/** What the paragraphs of the text are about. */
const names: Readonly<Record<string, string>> = {
  summary: "the summary",
  introduction: "the introduction",
  gear: "what is needed",
  versions: "the levels",
  links: "the links",
  cautions: "the cautions",
  credit: "the credit",
  tags: "the tags",
  side: "which side it shows",
  music: "the music",
  start: "how it starts",
  options: "the other ways to dance it",
  run: "the run of sections",
  contents: "the contents",
  changes: "what changes when it is danced again",
  speeds: "the speeds to practise at",
};

const mirroredOption = "--mirrored";

export async function outlineCommand(args: readonly string[]): Promise<number> {
  const mirrored = args.includes(mirroredOption);
  const others = args.filter((arg) => arg !== mirroredOption);
  const given = readArguments(others, usage, ["content"], { least: 1, most: 1 });
  if (typeof given === "number") return given;
  const [slug = ""] = given.rest;
  const { made, leftOut } = await makeDescription(given.options.content ?? "content", slug, mirrored);
  if (leftOut.length > 0) {
    const what = eitherOf(
      leftOut.map((part) => names[part] ?? part),
      "and",
    );
    process.stderr.write(
      `countleaf: the text has no room for ${what}; write a shorter text, or a higher \`outline-limit\` in library.yaml\n`,
    );
  }
  if (!made.done || made.text !== "") return printMade(slug, made);
  process.stderr.write(
    `countleaf: \`${slug}\` has no mirrored film; write its link at \`breakdown-mirrored\` under \`video\`, or leave ${mirroredOption} out\n`,
  );
  return failed;
}

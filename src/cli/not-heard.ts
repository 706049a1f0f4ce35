import type { HeardIn } from "../build/draft/hear.js";
import { formatFindings } from "../reading/report.js";

type Why = Extract<HeardIn, { readonly not: unknown }>["not"]["why"];

const kinds =
  "captions (WebVTT or SubRip), lines that begin with a time (`[1:03] five six seven eight`), or notes whose lines begin with counts (`1-2 step right`)";

const sentences: Readonly<Record<Why, string>> = {
  empty: `Nothing is said in this file. Save the captions of your film once more, and give that file: ${kinds}.`,
  "too-big":
    "This file is larger than 20 MB, which no captions are. Give the captions of the film, not the film itself.",
  "too-long":
    "This lies more than ten hours into the recording. Cut the captions to one lesson, and give those of one routine at a time.",
  binary: `This is not a text. Give the captions of the film, not the film or a document of a word processor: ${kinds}.`,
  encoding: "This is not saved as UTF-8. In your editor choose “save with encoding” and there UTF-8.",
  "no-captions": `There are no times and no counts in this text. Give ${kinds}.`,
  backwards:
    "This time lies before the one above it. Put the captions in the order of their times, or save them from the film once more.",
  "no-counts":
    "Nobody counts in this recording, so there is nothing to lay moves on. Give the captions of a lesson in which counts are called, or type notes whose lines begin with counts (`1-2 step right`).",
};

/** Says in one sentence, with its place, why a file could not be listened to. */
export function printNotHeard(file: string, heard: Exclude<HeardIn, { readonly draft: unknown }>): void {
  const { line, column } = "wrong" in heard ? heard.wrong : heard.not;
  const message = "wrong" in heard ? heard.wrong.message : sentences[heard.not.why];
  const finding = { file, severity: "error", rule: "not-heard", message, line, column } as const;
  process.stderr.write(formatFindings([finding], new Map(heard.text === undefined ? [] : [[file, heard.text]])));
}

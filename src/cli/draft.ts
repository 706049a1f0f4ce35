import { lstatSync } from "node:fs";
import { dirname } from "node:path";
import { hearFile } from "../build/draft/hear.js";
import { type MadeDraft, makeDraft } from "../build/draft/make-draft.js";
import { makeFolder } from "../build/make-folder.js";
import { readOne } from "../build/read-folder.js";
import { readArguments } from "./arguments.js";
import { counted } from "./counted.js";
import { printFindings } from "./findings.js";
import { faultOfNew, type NewPlace, placeOfNew, type Refusal, refuse, writeNew, writeRoutine } from "./new-file.js";
import { printNotHeard } from "./not-heard.js";
import { done, failed, usageError } from "./status.js";

const usage = `countleaf draft FILE --title "TITLE" [--choreographer "NAME"] [--report FILE.html] [--phrase COUNTS] [--content DIR]

  FILE             captions of the lesson (WebVTT, SubRip, or lines that begin with [m:ss]), or typed notes
  --choreographer  who made the dance (the \`teacher\` of library.yaml)
  --report         a page that shows what was heard where, beside your film
  --phrase         counts in a phrase (as most of them are counted)
`;

export async function draftCommand(args: readonly string[]): Promise<number> {
  const names = ["title", "choreographer", "report", "phrase", "content"] as const;
  const given = readArguments(args, usage, names, { least: 1, most: 1 });
  if (typeof given === "number") return given;
  const { title, report, phrase, content = "content" } = given.options;
  const wrong = wrongWith(title, report, phrase);
  if (title === undefined || wrong !== undefined) return refuseArgument(wrong ?? "");
  const place = placeOfNew(title, content);
  if ("refused" in place) return refuse(place);
  const read = await readOne(content, place.slug);
  const broken = read.content.findings.filter(({ file, severity }) => severity === "error" && /\.ya?ml$/.test(file));
  if (broken.length > 0) {
    printFindings(broken, read.content.sources);
    return failed;
  }
  const choreographer = given.options.choreographer ?? read.content.library.teacher;
  if (choreographer === undefined)
    return refuseArgument(
      'say who made the dance: `--choreographer "Your Name"`, or a line `teacher: Your Name` in library.yaml',
    );
  if (report !== undefined && lstatSync(report, { throwIfNoEntry: false }))
    return refuse({ refused: `${report} is there already; name another file for the report`, status: failed });
  const [file = ""] = given.rest;
  const heard = hearFile(file, phrase === undefined ? {} : { phrase: Number(phrase) });
  if (!("draft" in heard)) {
    printNotHeard(file, heard);
    return failed;
  }
  const made = makeDraft(heard.draft, { title, choreographer }, read.content.library);
  const refused = write(place, made, report);
  if (refused) return refuse(refused);
  process.stdout.write(doneText(place, made, report));
  return done;
}

function wrongWith(title?: string, report?: string, phrase?: string): string | undefined {
  if (title === undefined) return 'say what the routine is called: `--title "Low Tide"`';
  if (report !== undefined && !/[^/\\]\.html?$/i.test(report))
    return `the report is a page, so its name ends in .html: \`--report ${report}.html\``;
  if (phrase !== undefined && !(/^\d{1,2}$/.test(phrase) && Number(phrase) >= 2 && Number(phrase) <= 64))
    return `\`--phrase\` is a number of counts from 2 to 64, not ${phrase}: for eights write \`--phrase 8\``;
  return undefined;
}

function refuseArgument(why: string): number {
  process.stderr.write(`countleaf: ${why}\n${usage}`);
  return usageError;
}

/** The report first: where that can't be written, there is no routine yet that would be in the way the next time. */
function write(place: NewPlace, made: MadeDraft, report: string | undefined): Refusal | undefined {
  const wrong = faultOfNew(made.text, place);
  if (wrong !== undefined) return { refused: `this can't be a title or a name: ${wrong}`, status: usageError };
  if (report !== undefined) {
    makeFolder(dirname(report));
    writeNew(report, made.report());
  }
  return writeRoutine(place, made.text);
}

function doneText({ path, slug }: NewPlace, made: MadeDraft, report: string | undefined): string {
  const { runs, sections, phrases, cues, sure, questions } = made;
  const asked = questions === 1 ? "1 question is left; it stands" : `${questions} questions are left; each stands`;
  return [
    `Made ${path}: ${runs === 0 ? "" : `${counted(runs, "run")} heard, `}${counted(sections, "section")}, ${counted(phrases, "phrase")}, ${counted(cues, "cue")}, ${sure} of them sure.\n`,
    `${asked} in the file at \`doubt\`. Next:\n`,
    report === undefined
      ? "  answer them in the file\n"
      : `  open ${report} in a browser, choose your film there, and answer them in the file\n`,
    "  npx countleaf check    lists those that are left\n",
    `  npx countleaf serve    shows the page, at routines/${slug}/\n`,
    "When none is left, take the line `draft: yes` out; `npx countleaf build` then publishes it.\n",
  ].join("");
}

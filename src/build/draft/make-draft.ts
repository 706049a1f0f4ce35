import type { Draft } from "../../hearing/types.js";
import type { Library } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import { type Credit, draftText } from "./draft-text.js";
import { reportPage } from "./report-page.js";
import { sheetOf } from "./sheet.js";

/** A draft as a file and as a report, and what is in it. */
export interface MadeDraft {
  readonly text: string;
  readonly report: () => string;
  readonly runs: number;
  readonly sections: number;
  readonly phrases: number;
  readonly cues: number;
  readonly sure: number;
  readonly questions: number;
}

/** Makes of what was heard a routine file, and a page that says how it was heard. */
export function makeDraft(draft: Draft, credit: Credit, { language }: Library): MadeDraft {
  const wording = wordingOf(language);
  const sheet = sheetOf(draft, wording);
  const phrases = sheet.sections.flatMap((section) => section.phrases);
  const cues = phrases.flatMap(({ moves }) => moves.filter(({ heard }) => heard !== undefined));
  return {
    text: draftText(draft, sheet, credit, wording),
    report: () => reportPage(draft, sheet, credit.title, wording),
    runs: draft.runs.length,
    sections: sheet.sections.length,
    phrases: phrases.length,
    cues: cues.length,
    sure: cues.filter(({ doubt }) => doubt === undefined).length,
    questions: sheet.questions.length,
  };
}

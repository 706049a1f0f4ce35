import { dates } from "./dates.js";
import { counted } from "./language.js";

/** A count that somebody asked about. */
export interface AskedCount {
  /** "5", or "5–8". */
  readonly counts: string;
  /** Which of the section's phrases, where it has several. */
  readonly phrase: number | undefined;
  readonly section: string;
  /** The version, group and side, where they are not as taught. */
  readonly view: readonly string[];
  readonly cue: string;
  readonly address: string;
}

/** "That is count 5 of Harbour wall: Step back. https://…" */
function answer({ counts, phrase, section, view, cue, address }: AskedCount): string {
  const which = /[–,]/.test(counts) ? `Those are counts ${counts}` : `That is count ${counts}`;
  const where = phrase === undefined ? section : `${section}, phrase ${phrase}`;
  const seen = view.length === 0 ? "" : ` (${view.join(", ")})`;
  return `${which} of ${where}${seen}: ${cue}${/[.!?…]$/.test(cue) ? "" : "."} ${address}`;
}

/** What a page says back while it is used. */
export const notices = {
  linkCopied: "The link to this version and side is copied.",
  textCopied: "The text is copied.",
  /** Where a browser gives no access to the clipboard. */
  copyYourself: (text: string): string => `This browser copies nothing by itself: ${text}`,
  copyAnswer: "Copy an answer",
  answerCopied: "Copied: paste it under the question.",
  answer,
  /* For a room without a network. */
  keep: "Keep this routine with its handouts",
  keeping: "Keeping it …",
  kept: "This routine and its handouts are kept on this device: they open without a network.",
  notAllKept: "Not all of it could be kept. Try again with a better network, or with more room on this device.",
  letGo: "Let it go again",
  gone: "The handouts are no longer kept on this device.",
  inAFolder:
    "This page was opened from a folder. All of it works from here; only a page on the web can be kept for later.",
  keepsNothing: "This browser can't keep this page for later: it opens with a network only.",
  /** Of a course that has begun. */
  nextLesson: (day: string): string => `next ${dates.weekday(day)}`,
  /** What unfolds the filters, with how many of them are set. */
  filtersSet: (number: number): string => (number === 0 ? "Filters" : `Filters (${number} set)`),
  routines: (number: number): string => counted(number, "routine", "routines"),
  /** "3 of 14 routines" */
  routinesLeft: (left: number, all: number): string => `${left} of ${counted(all, "routine", "routines")}`,
};

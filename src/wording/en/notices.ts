import { dates } from "./dates.js";
import { counted } from "./language.js";

/** What a page says back while it is used. */
export const notices = {
  linkCopied: "The link to this version and side is copied.",
  textCopied: "The text is copied.",
  /** Where a browser gives no access to the clipboard. */
  copyYourself: (text: string): string => `This browser copies nothing by itself: ${text}`,
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

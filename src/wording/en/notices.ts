import { dates } from "./dates.js";
import { counted } from "./language.js";

/** What a page says back while it is used. */
export const notices = {
  linkCopied: "The link to this version and side is copied.",
  textCopied: "The text is copied.",
  /** Where a browser gives no access to the clipboard. */
  copyYourself: (text: string): string => `This browser copies nothing by itself: ${text}`,
  /** Of a course that has begun. */
  nextLesson: (day: string): string => `next ${dates.weekday(day)}`,
  routines: (number: number): string => counted(number, "routine", "routines"),
  /** "3 of 14 routines" */
  routinesLeft: (left: number, all: number): string => `${left} of ${counted(all, "routine", "routines")}`,
};

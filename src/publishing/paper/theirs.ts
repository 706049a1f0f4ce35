import type { Span } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";

/** An author's own words, marked with their language where the rest is said in another. */
export function theirs(text: string, { authors }: Wording, set: Omit<Span, "text" | "lang"> = {}): Span {
  return { text, ...set, ...(authors === undefined ? {} : { lang: authors }) };
}

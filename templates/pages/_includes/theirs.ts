import { escapeText, type Html, raw } from "#src/publishing/site/html.js";
import type { Wording } from "#src/wording/wording.js";

/** An attribute for what holds an author's own words, where they are in another language than what we say around them. */
export const theirs = ({ authors }: Pick<Wording, "authors">): Html | false =>
  authors !== undefined && raw(` lang="${escapeText(authors)}"`);

import { isAlias, isCollection, isScalar, type Node } from "yaml";
import type { Report } from "./finding.js";
import { quoted, suggested } from "./nearest.js";
import { normalText } from "./normal-text.js";

/** C0 and C1 but for tab and line feed, the two Unicode line ends, non-characters, halves of a pair. */
export const unprintable = /(?![\t\n])\p{Cc}|[\u2028\u2029\ufffe\uffff]|\p{Surrogate}/u;

/** A key as written; nothing, and a finding, where it can be none. */
export function readKey(node: Node | null, report: Report): string | undefined {
  const at = offsetOf(node);
  if (!isScalar(node) || node.anchor !== undefined) {
    report("error", "odd-key", "A key must be a plain word or a count, for example `title:` or `1-3:`.", at);
    return undefined;
  }
  const key = normalText(String(node.value ?? ""));
  if (oddSpaceAround.test(key)) {
    report(
      "error",
      "odd-space",
      "A special space stands here, perhaps pasted from elsewhere: delete it and type a plain one.",
      at,
    );
    return undefined;
  }
  if (key === "__proto__" || key === "<<" || key === "" || unprintable.test(key)) {
    report(
      "error",
      "unknown-key",
      `${key === "" ? "A colon without a word before it" : quoted(key)} is not a key here.`,
      at,
    );
    return undefined;
  }
  return key;
}

/** What is said of a key that is there already; with `entry`, the line may be the first of another entry that lacks its dash. */
export function twice(key: string, entry?: string): string {
  const message = `${quoted(key)} stands here for the second time`;
  if (entry === undefined) return `${message}: keep one of the two.`;
  return `${message}. If another entry begins here, put a dash and a space before it: ${suggested(`- ${entry}`)}. If not, keep one of the two.`;
}

/* Spaces that are not the space bar's come along with text from web pages and word processors. */
const oddSpaceAround = /^[\u00a0\u2000-\u200b\u202f\u3000]|[\u00a0\u2000-\u200b\u202f\u3000]$/;

/** Where a node begins in its text. */
export function offsetOf(node: Node | null): number {
  if (!node) return 0;
  return isCollection(node) || isScalar(node) || isAlias(node) ? (node.range?.[0] ?? 0) : 0;
}

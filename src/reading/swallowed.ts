import { Scalar } from "yaml";
import { quoted } from "./nearest.js";
import type { Path } from "./place.js";
import { isList, isOwnWords } from "./schema/keys.js";
import { inQuotes } from "./slips/slip.js";
import type { Report } from "./tree.js";

/** Warns of what in a text was perhaps meant otherwise. */
export function warnOfText(source: string, node: Scalar, path: Path, report: Report): void {
  commentWarning(source, node, path, report);
  const text = String(node.value ?? "");
  if (node.type !== Scalar.PLAIN || !/^[“”„].*[“”]$/su.test(text)) return;
  const straight = quoted(`"${text.slice(1, -1)}"`);
  const message = `These curly quotes will be printed. If they are only to hold the text together, type straight ones: ${straight}.`;
  report("warning", "curly-quotes", message, node.range?.[0] ?? 0);
}

/*
 * Warns where a comment follows a text so closely that it was perhaps meant as part of it. Remarks that authors do write
 * stand apart: two spaces or more before the "#", and one after it.
 */
function commentWarning(source: string, node: Scalar, path: Path, report: Report): void {
  if (node.type !== Scalar.PLAIN || !node.range || !isAuthorsText(path)) return;
  const end = node.range[1];
  const after = source.slice(end, source.indexOf("\n", end) >>> 0);
  const comment = /^([ \t]+)#(.*)$/.exec(after);
  if (!comment || (comment[1] !== " " && /^(\s|$)/.test(comment[2] ?? ""))) return;
  const text = `${String(node.value)} #${comment[2] ?? ""}`;
  report(
    "warning",
    "comment",
    `Everything after \` #\` is left out as a remark. If it belongs to the text, put the whole in quotes: ${quoted(`"${text}"`)}.`,
    end + (comment[1] ?? "").length,
  );
}

function isAuthorsText(path: Path): boolean {
  const last = path.at(-1);
  const key = typeof last === "number" ? path.at(-2) : last;
  return isOwnWords(String(key)) || /^\d/.test(String(key)) || path.at(-2) === "options";
}

/**
 * What is said of keys without a value that commas inside { } made.
 *
 * @param keys those that follow each other
 * @param around the key whose value the { } is
 * @param before the key that they follow, and its value
 */
export function commaMessage(
  keys: readonly string[],
  around: string,
  before?: { readonly key: string; readonly value: unknown },
): string {
  const start = `${quoted(keys[0] ?? "")} has no value: inside { } a comma begins a new key.`;
  if (typeof before?.value !== "string") {
    if (keys.length === 1 && /^\d/.test(around))
      return `Inside { } everything has a key. Leave the braces out: ${quoted(`${around}: ${keys[0]}`)}.`;
    return `${start} Write \`key: value\`, for example \`{ do: Walk, step: left }\`.`;
  }
  const whole = (text: string) => quoted(`${before.key}: ${inQuotes(text)}`);
  const text = [before.value, ...keys].join(", ");
  if (/^[“”„]/.test(text))
    return `${start} Curly quotes do not hold a text together; type straight ones: ${whole(text.replace(/[“”„]/g, ""))}.`;
  if (isList(before.key)) return `${start} Put a list in square brackets: ${quoted(`${before.key}: [${text}]`)}.`;
  return `${start} If it belongs to the text before it, put that in quotes: ${whole(text)}.`;
}

/** What is said of a key with nothing after its colon; `from` is the text from the key on. */
export function emptyMessage(key: string, from: string): string {
  const [, remark] = /^[^\n:]*:[ \t]+(#[^\n]*)/.exec(from) ?? [];
  if (remark?.startsWith("# ") === false) {
    return `\`${key}:\` has no value: everything from the \`#\` on is left out as a remark. Put the text in quotes: ${quoted(`${key}: "${remark}"`)}.`;
  }
  if (/^\d/.test(key)) return `Nothing is written after \`${key}:\`. Write the move, for example \`${key}: hold\`.`;
  return isOwnWords(key)
    ? `Nothing is written after \`${key}:\`. Write it there; a line that is not needed can go.`
    : `Nothing is written after \`${key}:\`. Write it there, or start the lines that belong to it two spaces further in.`;
}

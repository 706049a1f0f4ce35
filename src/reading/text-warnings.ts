import { Scalar } from "yaml";
import type { Report } from "./finding.js";
import { suggested } from "./nearest.js";
import type { Path } from "./place.js";
import type { KeyNames } from "./schema/keys.js";

/** Warns of what in a text was perhaps meant otherwise. */
export function warnOfText(source: string, node: Scalar, path: Path, report: Report, keys: KeyNames): void {
  if (isAuthorsText(path, keys)) commentWarning(source, node, report);
  const text = String(node.value ?? "");
  if (node.type !== Scalar.PLAIN || !/^[“”„].*[“”]$/su.test(text)) return;
  const straight = suggested(`"${text.slice(1, -1)}"`);
  const message = `These curly quotes will be printed. If they are only to hold the text together, type straight ones: ${straight}.`;
  report("warning", "curly-quotes", message, node.range?.[0] ?? 0);
}

/*
 * Warns where a comment follows a text so closely that it was perhaps meant as part of it. Remarks that authors do write
 * stand apart: two spaces or more before the "#", and one after it.
 */
function commentWarning(source: string, node: Scalar, report: Report): void {
  if (node.type !== Scalar.PLAIN || !node.range) return;
  const end = node.range[1];
  const after = source.slice(end, source.indexOf("\n", end) >>> 0);
  const comment = /^([ \t]+)#(.*)$/.exec(after);
  if (!comment || (comment[1] !== " " && /^(\s|$)/.test(comment[2] ?? ""))) return;
  const text = `${String(node.value)} #${comment[2] ?? ""}`;
  report(
    "warning",
    "comment",
    `Everything after \` #\` is left out as a remark. If it belongs to the text, put the whole in quotes: ${suggested(`"${text}"`)}.`,
    end + (comment[1] ?? "").length,
  );
}

function isAuthorsText(path: Path, { isOwnWords }: KeyNames): boolean {
  const last = path.at(-1);
  const key = typeof last === "number" ? path.at(-2) : last;
  return isOwnWords(String(key)) || /^\d/.test(String(key)) || path.at(-2) === "options";
}

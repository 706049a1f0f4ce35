import { Scalar } from "yaml";
import { quoted } from "./nearest.js";
import type { Path } from "./place.js";
import type { Report } from "./tree.js";

/* Keys whose value is a text in the author's own words, where a "#" may well be meant as part of it. */
const ownWords = new Set(
  (
    "title choreographer summary credit artist style name words do say note item why venue cautions teacher " +
    "chapters choose same-as gear contacts for"
  ).split(" "),
);

/**
 * Warns where a comment follows a text so closely that it was perhaps meant as part of it. Remarks that authors do write
 * stand apart: two spaces or more before the "#", and one after it.
 */
export function commentWarning(source: string, node: Scalar, path: Path, report: Report): void {
  if (node.type !== Scalar.PLAIN || !node.range || !isOwnWords(path)) return;
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

function isOwnWords(path: Path): boolean {
  const last = path.at(-1);
  const key = typeof last === "number" ? path.at(-2) : last;
  return ownWords.has(String(key)) || /^\d/.test(String(key)) || path.at(-2) === "options";
}

import type { Cue } from "../../routine/cue.js";
import type { Style } from "../../typesetting/style.js";
import type { Span } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { addressAfter, linkTo } from "./link.js";
import { theirs } from "./theirs.js";

/** A cue's text as spans, its marks as styles; after a link stands where it leads. */
export function cueSpans(cue: Cue, wording: Wording): readonly Span[] {
  const edges = new Set([0, cue.text.length, ...cue.marks.flatMap(({ from, to }) => [from, to])]);
  const cuts = [...edges].sort((a, b) => a - b);
  const links = cue.marks.filter(({ kind }) => kind === "link");
  return cuts.slice(1).flatMap((to, index): readonly Span[] => {
    const from = cuts[index] ?? 0;
    const link = links.find((mark) => mark.from <= from && to <= mark.to);
    const target = linkTo(link?.href ?? "");
    const after = link?.to === to ? addressAfter(cue.text.slice(link.from, to), target) : [];
    const { text, ...set } = spanOf(cue, from, to);
    return [theirs(text, wording, { ...set, ...target }), ...after];
  });
}

function spanOf({ text, marks }: Cue, from: number, to: number): Span {
  const has = (kind: string) => marks.some((mark) => mark.kind === kind && mark.from <= from && to <= mark.to);
  const style: Style = has("strong") ? "bold" : has("emphasis") ? "italic" : "regular";
  return { text: text.slice(from, to), style, struck: has("struck") };
}

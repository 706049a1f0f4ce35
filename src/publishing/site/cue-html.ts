import type { Cue, Mark } from "../../routine/cue.js";
import { safeAddress } from "./address.js";
import { escapeText, type Html, raw } from "./html.js";

const tags: Readonly<Record<Exclude<Mark["kind"], "link" | "fixed">, string>> = {
  strong: "strong",
  emphasis: "em",
  struck: "del",
};

function tagOf(mark: Mark): readonly [open: string, close: string] {
  if (mark.kind === "fixed") return ["", ""];
  if (mark.kind !== "link") return [`<${tags[mark.kind]}>`, `</${tags[mark.kind]}>`];
  const address = mark.href === undefined ? undefined : safeAddress(mark.href);
  return address === undefined ? ["", ""] : [`<a href="${escapeText(address)}">`, "</a>"];
}

/** A cue as markup. Marks nest: an inner one never reaches beyond its outer one. */
export function cueHtml(cue: Cue): Html {
  if (cue.marks.length === 0) return raw(escapeText(cue.text));
  return raw(inside(cue.text, 0, cue.text.length, cue.marks));
}

function inside(text: string, from: number, to: number, marks: readonly Mark[]): string {
  let out = "";
  let at = from;
  let rest = marks;
  while (rest.length > 0) {
    const [mark, ...others] = rest as [Mark, ...Mark[]];
    const inner = others.filter((other) => other.from >= mark.from && other.to <= mark.to);
    const [open, close] = tagOf(mark);
    out += escapeText(text.slice(at, mark.from)) + open + inside(text, mark.from, mark.to, inner) + close;
    at = mark.to;
    rest = others.filter((other) => !inner.includes(other));
  }
  return out + escapeText(text.slice(at, to));
}

/** Both sides of a text: the page shows one of them. A text that reads the same on both sides stands there once. */
export function bothSides(asTaught: Html, mirrored: Html): Html {
  if (asTaught.html === mirrored.html) return asTaught;
  return raw(`<span class="as-taught">${asTaught.html}</span><span class="mirrored">${mirrored.html}</span>`);
}

import type Fraction from "fraction.js";

/** Characters a second that a viewer can read (from memory: a common limit in captioning guides). */
const perSecond = 20;

const cut = "…";

/**
 * As much of some texts as can be read in a time, in their order: a text that does not fit ends after a word, with an ellipsis, and
 * those after it are left out.
 *
 * @param seconds how long they are shown
 * @param before characters that are read before them
 * @returns a text for each, perhaps an empty one
 * @example readable(["Slow steps away"], new Fraction(1, 2), 0) // ["Slow…"]
 */
export function readable(texts: readonly string[], seconds: Fraction, before: number): readonly string[] {
  let left = Math.floor(seconds.mul(perSecond).valueOf()) - before;
  return texts.map((text) => {
    const line = text.replace(/\s+/g, " ").trim();
    const shown = line.length <= left ? line : shortened(line, left);
    left = shown === line ? left - line.length : 0;
    return shown;
  });
}

function shortened(text: string, most: number): string {
  const words = text.split(" ");
  while (words.length > 0 && words.join(" ").length + cut.length > most) words.pop();
  return words.length === 0 ? "" : `${words.join(" ").replace(/[\s,;:.]+$/, "")}${cut}`;
}

import { type Sentence, saidOf } from "./talk.js";
import type { DraftGear } from "./types.js";

/** Words at which a thing's name ends. */
const stops = new Set(
  `a an the some any your my our real good proper own pair and or but so because though if for with without not that this these those which who to
  please when then you we i it its is are was be will just do does don't can in on at of from as too also really very have has had bring wear need
  maybe today there here yeah yes no he she they them me us
  one two three four five six seven eight more time times help`.split(/\s+/),
);
/** Words that are no things to bring. */
const noThings = new Set(
  "space room time energy music water practice patience care lot bit count counts beat beats everything nothing anything all both what".split(
    " ",
  ),
);

/** What has to be there and what may, as she says it. */
export function gearOf(sentences: readonly Sentence[]): readonly DraftGear[] {
  const found = new Map<string, DraftGear>();
  let last: string | undefined;
  for (const sentence of sentences) {
    const words = sentence.tokens.map(({ text }) => text);
    const closes = sentence.tokens.map(({ closes }) => closes);
    for (let index = 0; index < words.length; index++) {
      const claim = claimAt(words, closes, index);
      if (!claim) continue;
      const item = claim.item || (claim.refers ? last : undefined);
      if (!item || noThings.has(item.split(" ").at(-1) ?? "")) continue;
      last = item;
      const before = found.get(item);
      if (claim.need && (!before || (claim.need === "optional" && claim.refers)))
        found.set(item, { item, need: claim.need, said: saidOf(sentence) });
    }
  }
  return [...found.values()];
}

interface Claim {
  readonly item: string;
  readonly need?: DraftGear["need"];
  /** It may speak of what was named before. */
  readonly refers?: true;
}

function claimAt(words: readonly string[], closes: readonly boolean[], index: number): Claim | undefined {
  const [word = "", after = ""] = [words[index], words[index + 1]];
  if (/^(?:optional|recommended)$/.test(word)) {
    const verb = words.lastIndexOf(
      words.slice(0, index).findLast((one) => /^(?:is|are|it's|they're|that's)$/.test(one)) ?? "-",
      index,
    );
    return { item: verb < 0 ? "" : thingBefore(words, closes, verb), need: "optional", refers: true };
  }
  if (word === "you" && (after === "need" || after === "want" || after === "will")) {
    const start = after === "will" ? (words[index + 2] === "need" ? index + 3 : -1) : index + 2;
    if (start < 0 || after === "want") return undefined;
    const item = thingFrom(words, closes, start);
    return { item: item || thingBefore(words, closes, index), need: "required" };
  }
  if (word === "if" && after === "you" && words[index + 2] === "have")
    return { item: thingFrom(words, closes, index + 3) };
  return undefined;
}

/** Up to two words of a thing, behind its article. */
function thingFrom(words: readonly string[], closes: readonly boolean[], start: number): string {
  let at = start;
  while (/^(?:a|an|the|some|your|real|good|proper|pair|of)$/.test(words[at] ?? "")) at++;
  const first = at;
  while (at < words.length && at < first + 2 && !stops.has(words[at] ?? "")) {
    at++;
    if (closes[at - 1]) break;
  }
  return words.slice(first, at).join(" ");
}

function thingBefore(words: readonly string[], closes: readonly boolean[], end: number): string {
  let at = end;
  while (at > 0 && at > end - 2 && !stops.has(words[at - 1] ?? "") && !(at < end && closes[at - 1])) at--;
  return words.slice(at, end).join(" ");
}

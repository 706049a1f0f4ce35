import { type Sentence, saidOf } from "./talk.js";
import type { Draft } from "./types.js";

const lands = /^(?:hit|hits|accent|accents|accented|punch|punches)$/;

/** Counts that land hardest in every phrase: "the four and the eight hit". */
export function accentsOf(sentences: readonly Sentence[], phrase: number): Draft["accents"] {
  const counts = new Set<number>();
  let said: Draft["accents"]["said"];
  for (const sentence of sentences)
    for (const [index, { text }] of sentence.tokens.entries()) {
      if (!lands.test(text)) continue;
      const before = numbersIn(sentence, listBefore(sentence, index), index);
      const own =
        before.length > 0
          ? before
          : / (?:on|the) /.test(` ${sentence.tokens[index + 1]?.text} `)
            ? numbersIn(sentence, index + 1, index + 7)
            : [];
      for (const count of own) if (count <= phrase) counts.add(count);
      if (own.length > 0) said ??= saidOf(sentence);
    }
  return { counts: [...counts].sort((a, b) => a - b), ...(said && { said }) };
}

/** Where a list of counts begins that ends here: "the four and the eight". */
function listBefore({ tokens }: Sentence, end: number): number {
  let at = end;
  while (at > 0) {
    const token = tokens[at - 1];
    const listed =
      token?.count?.price === 0 || /^(?:and|the|&|on|both|all|always|also|every|counts?)$/.test(token?.text ?? "");
    if (!listed || (at < end && token?.closes && tokens[at]?.text !== "and" && tokens[at]?.count === undefined)) break;
    at--;
  }
  return at;
}

function numbersIn({ tokens }: Sentence, from: number, to: number): readonly number[] {
  return tokens.slice(from, to).flatMap(({ count }) => (count?.price === 0 ? [count.value] : []));
}

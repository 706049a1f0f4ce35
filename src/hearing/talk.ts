import type { CalledRun } from "./runs.js";
import type { Token } from "./tokens.js";
import type { Said } from "./types.js";

/** What was said in one go outside of the runs: a sentence, or what stands between two silences. */
export interface Sentence {
  readonly tokens: readonly Token[];
  readonly start: number;
  readonly end: number;
}

/** Longest that is taken for one sentence, in words. */
const longest = 45;

/** The talk between the runs, sentence by sentence. */
export function sentencesOf(tokens: readonly Token[], runs: readonly CalledRun[]): readonly Sentence[] {
  const sentences: Sentence[] = [];
  let open: Token[] = [];
  const close = () => {
    const [first] = open;
    if (first) sentences.push({ tokens: open, start: first.start, end: open.at(-1)?.end ?? first.end });
    open = [];
  };
  let next = 0;
  for (const [index, token] of tokens.entries()) {
    while ((runs[next]?.to ?? tokens.length) <= index) next++;
    const run = runs[next];
    if (run && index >= run.from) {
      close();
      continue;
    }
    const before = open.at(-1);
    if (before && (ends(before, token) || opens(before, token, tokens[index + 1]) || open.length >= longest)) close();
    open.push(token);
  }
  close();
  return sentences;
}

/** A full stop, or a silence that is longer than the word before it takes. */
function ends(before: Token, token: Token): boolean {
  return /[.!?…]["”']?$/.test(before.written) || token.start - before.start > 0.5 + 0.08 * before.text.length;
}

/** "Okay" and its kind begin anew where captions have no marks. */
function opens(before: Token, token: Token, next: Token | undefined): boolean {
  if (/^(?:okay|alright)$/.test(token.text)) return true;
  return (
    /^(?:moving|next)$/.test(token.text) &&
    /^(?:on|part|bit)$/.test(next?.text ?? "") &&
    /^(?!okay|the|so|and|our)/.test(before.text)
  );
}

/** A sentence as it is shown. */
export const saidOf = ({ tokens, start }: Sentence): Said => ({
  at: start,
  text: tokens.map(({ written }) => written).join(" "),
});

/** The words of a sentence, to search for phrases in: each between two blanks. */
export const textOf = ({ tokens }: Sentence): string => ` ${tokens.map(({ text }) => text).join(" ")} `;

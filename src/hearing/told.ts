import type { Risk } from "../routine/vocabulary.js";
import type { Context, Place } from "./context.js";
import { type Sentence, saidOf, textOf } from "./talk.js";
import type { Told } from "./types.js";
import { stem } from "./words.js";

/** What a sentence tells beside counts, by its words; the first that fits. */
const kinds: readonly (readonly [Told["kind"], RegExp])[] = [
  [
    "harder",
    /\b(?:harder|hard version|hardest|bored|beast|feel strong|make the \S+ a double|if you have it|if you've got them|challenge|advanced)\b/,
  ],
  [
    "easier",
    /\b(?:easier|easy version|too much|instead|says no|heels only|leave the \S+ out|modify|option is|not for you)\b/,
  ],
  [
    "risk",
    /\b(?:careful|carefully|gently|softly|never straight|keep (?:a hand on|your own feet|your knees)|knees over (?:your )?toes|hands? first|real drop|dizzy|protect|safe|safely)\b/,
  ],
  [
    "turn",
    /\b(?:quarter|half|whole|full|three quarter)(?: a)?(?: turn)? (?:to the|to your|over the|over your) (?:left|right)\b|\bturn(?:s|ing)? (?:to the|to your|over the|over your) (?:left|right)\b/,
  ],
  ["side", /\b(?:right|left) (?:foot|arm|hand|leg|knee|heel|toe|shoulder|hip|side)\b/],
  ["other", /\btriples?\b/],
];

const risks: readonly (readonly [RegExp, Risk])[] = [
  [/\b(?:drop|drops|slide to the floor|fall|falls)\b/, "floor-drop"],
  [/\b(?:handstand|cartwheel|headstand|upside down|inverted|inversion)\b/, "inversion"],
  [/\b(?:backbend|bridge|arch back)\b/, "backbend"],
  [/\bsplits?\b/, "split"],
  [/\b(?:jump|jumps|leap|leaps|hop)\b/, "jump"],
  [/\b(?:spin|spins|pirouettes?)\b/, "spin"],
  [/\b(?:lift her|lift him|lift them|lift your partner)\b/, "lift"],
  [/\b(?:kneel|kneeling|on your knees|knee pads)\b/, "kneework"],
  [/\bheels on\b/, "heels"],
];

/** Something told, and the phrase that it was tied to. */
export interface Placed {
  readonly told: Told;
  readonly phrase?: number;
}

/** What is told in sentences and tied to the count that they name, or to that of the cue that they name. */
export function toldIn(sentences: readonly Sentence[], context: Context, size: number): readonly Placed[] {
  const found: Placed[] = [];
  let last: Place | undefined;
  for (const sentence of sentences) {
    const text = textOf(sentence);
    for (const [index] of sentence.tokens.entries()) last = cueAt(sentence, index, context) ?? last;
    const fits = kinds.filter(([, words]) => words.test(text));
    for (const [kind, words] of fits.slice(0, 2)) {
      const key = words.exec(text)?.index ?? 0;
      const at = text
        .slice(0, key + 1)
        .trim()
        .split(" ")
        .filter(Boolean).length;
      const place = placeOf(sentence, at, context, size, last);
      const named = risks.filter(([risk]) => risk.test(text)).map(([, risk]) => risk);
      if (!place && kind === "other") continue;
      found.push({
        told: {
          kind,
          said: saidOf(sentence),
          ...(place?.on && { on: place.on }),
          ...(kind === "risk" && named.length > 0 && { risks: named }),
        },
        ...(place && { phrase: place.phrase }),
      });
    }
  }
  return found;
}

function cueAt(sentence: Sentence, index: number, context: Context): Place | undefined {
  const token = sentence.tokens[index];
  return token && !token.count ? context.find([stem(token.text)], undefined, sentence.start) : undefined;
}

/** The nearest count named, with the cue that is nearest; else the cue's own count. */
function placeOf(
  sentence: Sentence,
  at: number,
  context: Context,
  size: number,
  last: Place | undefined,
): { readonly phrase: number; readonly on?: string } | undefined {
  const { tokens, start } = sentence;
  let count: number | undefined;
  let place: Place | undefined;
  let countAway = Number.POSITIVE_INFINITY;
  let cueAway = Number.POSITIVE_INFINITY;
  for (const [index, token] of tokens.entries()) {
    const away = Math.abs(index - at);
    const leads = tokens[index - 1]?.text ?? "";
    if (token.count?.price === 0 && /^(?:on|by|at|the|from|and)$/.test(leads) && away < countAway) {
      countAway = away;
      count = token.count.value;
    }
    const cue = cueAt(sentence, index, context);
    if (cue && away < cueAway) {
      cueAway = away;
      place = cue;
    }
  }
  if (count !== undefined && (countAway <= cueAway + 6 || !place)) {
    const named = tokens.flatMap(({ text }) => context.find([stem(text)], count, start) ?? []);
    const exact = named.find(({ slot }) => Math.floor(slot.position) + 1 === count) ?? place ?? last;
    const phrase = exact?.phrase ?? mostLikely(context, start, size);
    return phrase === undefined ? undefined : { phrase, on: String(count) };
  }
  if (!place) return undefined;
  return { phrase: place.phrase, on: `${Math.floor(place.slot.position) + 1}${place.slot.position % 1 ? "&" : ""}` };
}

function mostLikely(context: Context, at: number, size: number): number | undefined {
  let best: number | undefined;
  let most = 0;
  for (let phrase = 0; phrase < size; phrase++) {
    const weight = context.weight(phrase, at);
    if (weight > most) [best, most] = [phrase, weight];
  }
  return best;
}

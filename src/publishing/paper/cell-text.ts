import { aloud } from "../../routine/calls.js";
import type { Move } from "../../routine/routine.js";
import type { Facing } from "../../routine/vocabulary.js";
import type { Span } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { cueSpans } from "./cue-spans.js";
import { theirs } from "./theirs.js";

/** What a move says in one phrase, ready to be set in any size. */
export interface CellText {
  /** Its counts: "1–3". */
  readonly label: readonly Span[];
  /** Where a group began later: the counts of the music, and its own behind them. */
  readonly late?: readonly Span[];
  /** The call, the cue, its landing words; of a move that goes on, that it does. */
  readonly spans: readonly Span[];
  /** Its cautions by their names. */
  readonly risk: readonly Span[];
  /** The call, the cue, its landing words and its cautions, for its cell. */
  readonly shown: readonly Span[];
  /** All of that in one run of text, for a line rather than a cell: signs stand in words. */
  readonly listed: readonly Span[];
}

/**
 * @param begins whether the phrase holds the move's beginning
 * @param turned where it leads them to face
 * @param music the counts of the music, where a group has others of its own
 */
export function cellText(
  move: Move,
  { begins, turned, music }: { readonly begins: boolean; readonly turned?: Facing; readonly music?: string },
  wording: Wording,
): CellText {
  const { print, risks } = wording;
  const shownCounts = (on: string) => {
    const counts = wording.counts.span(on);
    return begins ? counts : print.goesOnTo(counts);
  };
  const label = shownCounts(move.on);
  const cautions = begins ? move.cautions.map(risks.label) : [];
  const asides = [...(turned === undefined ? [] : [print.nowFacing(turned)]), ...cautions];
  const spans: readonly Span[] = begins
    ? moveSpans(move, wording)
    : [{ text: print.goesOn, style: "italic", tone: "soft" }];
  const own: Span = { text: label, style: "bold" };
  const late: readonly Span[] =
    music === undefined ? [] : [{ text: shownCounts(music), style: "bold" }, { text: print.ownCount(label) }];
  return {
    label: [own],
    ...(late.length > 0 && { late }),
    spans,
    risk: cautions.length === 0 ? [] : [{ text: cautions.join(", "), style: "italic" }],
    shown: cautions.length === 0 ? spans : [...spans, { text: print.aside(cautions), style: "italic" }],
    listed: [
      ...(late.length > 0 ? late : [own]),
      { text: " " },
      ...spans,
      ...(asides.length === 0 ? [] : [{ text: print.aside(asides), style: "italic" } as const]),
    ],
  };
}

/** What a move says: the call, the cue, its landing words. */
function moveSpans({ say, hold, improvised, cue, words }: Move, wording: Wording): readonly Span[] {
  const { print } = wording;
  const calls = aloud(say).map((call) => cueSpans(call.cue, wording));
  const [before, ...called] = print.called(calls);
  const quoted = called.flatMap((piece) => (typeof piece === "string" ? [{ text: piece }] : piece));
  const call: readonly Span[] =
    calls.length === 0
      ? []
      : [{ text: before, style: "italic", tone: "soft" }, ...quoted.map((span): Span => ({ ...span, style: "bold" }))];
  return [
    ...call,
    ...(call.length === 0 ? [] : [{ text: " " }]),
    ...(improvised ? [{ text: print.own, style: "italic" } as const] : []),
    // A hold is our own word.
    ...cueSpans(cue, wording).map(({ lang, ...span }): Span => {
      if (hold) return { ...span, style: "italic", tone: "soft" };
      return lang === undefined ? span : { ...span, lang };
    }),
    ...(words === undefined
      ? []
      : print.landsOn(words).map((piece) => {
          const set = { style: "italic", tone: "soft" } as const;
          return typeof piece === "string" ? { text: piece, ...set } : theirs(piece.words, wording, set);
        })),
  ];
}

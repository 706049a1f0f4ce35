import type { Move } from "../../routine/routine.js";
import type { Span } from "../../typesetting/text.js";
import { cautionOf } from "../safety.js";
import { cueSpans } from "./cue-spans.js";

/** What a move says in one phrase, ready to be set in any size. */
export interface CellText {
  /** Its counts: "1–3". */
  readonly label: readonly Span[];
  /** The call, the cue, its landing words; of a move that goes on, that it does. */
  readonly spans: readonly Span[];
  /** Its cautions by their names. */
  readonly risk: readonly Span[];
  /** All of that in one run of text, for a line rather than a cell: signs stand in words. */
  readonly listed: readonly Span[];
}

const goesOn: readonly Span[] = [{ text: "goes on", style: "italic", tone: "soft" }];

export function cellText(move: Move, begins: boolean, ends: boolean): CellText {
  const label = labelOf(move, begins);
  const risks = begins ? move.risks.map((risk) => cautionOf(risk).label) : [];
  const turned = ends && move.after.facing !== move.before.facing ? [`now facing ${move.after.facing}`] : [];
  const asides = [...turned, ...risks].join(", ");
  const spans = begins ? moveSpans(move) : goesOn;
  return {
    label: [{ text: label, style: "bold" }],
    spans,
    risk: risks.length === 0 ? [] : [{ text: risks.join(", "), style: "italic" }],
    listed: [
      { text: `${label} `, style: "bold" },
      ...spans,
      ...(asides === "" ? [] : [{ text: ` (${asides})`, style: "italic" } as const]),
    ],
  };
}

/** Counts as they are printed: a span's dash is an en dash, and of a move that goes on only the end is named. */
export function countsText(on: string): string {
  return on.replace("-", "–");
}

function labelOf({ on }: Move, begins: boolean): string {
  const text = countsText(on);
  if (begins) return text;
  const dash = text.indexOf("–");
  return dash < 0 ? "…" : `…${text.slice(dash)}`;
}

/** What a move says: the call, the cue, its landing words. */
export function moveSpans({ say, hold, cue, words }: Move): readonly Span[] {
  const call = say === undefined ? [] : [{ text: "“" }, ...cueSpans(say), { text: "”" }];
  return [
    ...call.map((span): Span => ({ ...span, style: "bold" })),
    ...(call.length === 0 ? [] : [{ text: " " }]),
    ...cueSpans(cue).map((span): Span => (hold ? { ...span, style: "italic", tone: "soft" } : span)),
    ...(words === undefined ? [] : [{ text: ` on “${words}”`, style: "italic", tone: "soft" } as const]),
  ];
}

import { plainWords } from "../../hearing/plain-words.js";
import type { Said, Told } from "../../hearing/types.js";
import type { Wording } from "../../wording/wording.js";
import { quoteOf } from "./sheet.js";
import { remark } from "./yaml-text.js";

/** Most remarks of one kind in a row. */
export const mostRemarks = 20;

/** A sentence about a count or none, of the kinds that are told and of two that stand with a cue. */
interface Sentence extends Omit<Told, "kind"> {
  readonly kind: Told["kind"] | "hit" | "unsure";
}

/** What was only told and when, in a line. */
export function toldText(told: Sentence, wording: Wording): string {
  return toldOf(told, wording.draft.said(quoteOf(told.said)), wording);
}

/** The same for where the time stands beside it. */
export function toldAlone(told: Sentence, wording: Wording): string {
  return toldOf(told, wording.draft.quote(quoteOf(told.said).text), wording);
}

function toldOf({ kind, on, risks = [] }: Sentence, quote: string, { draft, risks: names }: Wording): string {
  return draft.told(kind, on === undefined ? undefined : plainWords(on, 12), risks.map(names.label), quote);
}

/** A remark behind a value, with what was said; nothing where nothing was. */
export function saidRemark(said: Said | undefined, { draft }: Wording): string {
  return said === undefined ? "" : `  ${remark(draft.said(quoteOf(said)))}`;
}

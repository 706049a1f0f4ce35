import { plainWords } from "../../hearing/plain-words.js";
import type { Said, Told } from "../../hearing/types.js";
import type { Wording } from "../../wording/wording.js";
import { quoteOf } from "./sheet.js";
import { remark } from "./yaml-text.js";

/** Most remarks of one kind in a row. */
export const mostRemarks = 20;

/** What was only told, in a line. */
export function toldText({ kind, on, risks = [], said }: Told, { draft, risks: names }: Wording): string {
  return draft.told(kind, on === undefined ? undefined : plainWords(on, 12), risks.map(names.label), quoteOf(said));
}

/** A remark behind a value, with what was said; nothing where nothing was. */
export function saidRemark(said: Said | undefined, { draft }: Wording): string {
  return said === undefined ? "" : `  ${remark(draft.said(quoteOf(said)))}`;
}

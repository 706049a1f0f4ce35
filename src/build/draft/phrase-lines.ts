import { plainWords } from "../../hearing/plain-words.js";
import type { DraftMove } from "../../hearing/types.js";
import type { Wording } from "../../wording/wording.js";
import { mostRemarks, saidRemark, toldAlone, toldText } from "./remarks.js";
import { elsewhereOf, type Sheet, type SheetMove, type SheetPhrase } from "./sheet.js";
import { remark, scalar } from "./yaml-text.js";

const [dash, within, inside] = ["      - ", "        ", "          "];

/** A phrase's lines in the file: when it was called, its moves, and what was heard once or only told. */
export function phraseLines(phrase: SheetPhrase, sheet: Sheet, wording: Wording): readonly string[] {
  const { number, counts, heard, moves, left } = phrase;
  const keys = [
    ...(counts === sheet.phrase ? [] : [`length: ${counts}`]),
    ...moves.flatMap((move) => moveLines(move, sheet, wording)),
  ];
  const remarks = [
    ...left.slice(0, mostRemarks).map((move) => onceText(move, phrase, wording)),
    ...heard.told.slice(0, mostRemarks).map((told) => (sheet.timed ? toldText : toldAlone)(told, wording)),
  ];
  return [
    `      ${remark(wording.draft.called(number, heard.calledAt))}`,
    ...keys.map((line, index) => `${index === 0 ? dash : within}${line}`),
    ...remarks.map((text) => `${within}${remark(text)}`),
  ];
}

/** The lines of a move, the first as an entry of its phrase. */
function moveLines(
  { on, cue, say, doubt, improvised, heard }: SheetMove,
  { timed }: Sheet,
  wording: Wording,
): readonly string[] {
  const runs =
    heard === undefined || !timed ? "" : `  ${remark(wording.draft.agreed(heard.runs, heard.of, elsewhereOf(heard)))}`;
  if ([say, doubt, improvised, heard?.hit].every((one) => one === undefined)) return [`${on}: ${scalar(cue)}${runs}`];
  const keys = [
    `do: ${scalar(cue)}${runs}`,
    ...(say === undefined ? [] : [`say: ${scalar(say)}`]),
    ...(heard?.hit === undefined ? [] : [`hit: yes${saidRemark(heard.hit, wording)}`]),
    ...(improvised ? ["improvised: yes"] : []),
    ...(doubt === undefined ? [] : [`doubt: ${scalar(doubt)}`]),
  ];
  return [`${on}:`, ...keys.map((key) => `${inside.slice(within.length)}${key}`)];
}

function onceText(move: DraftMove, { heard }: SheetPhrase, { draft }: Wording): string {
  const cells = heard.rows?.flatMap((row) => row.cells) ?? [];
  const at = cells.find(({ on, text }) => on === move.on && plainWords(text) === move.cue)?.at;
  return draft.once(move.cue, plainWords(move.on, 12), at);
}

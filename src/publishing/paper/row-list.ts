import { type Block, itemBlock, textBlock } from "../../typesetting/block.js";
import type { Span } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import type { Band, GridCell, Row } from "./bands.js";
import { facingTexts } from "./facings.js";
import type { NoteStyle } from "./note-style.js";

/** The rows of a section as lists, each under its phrase's number where there are several. */
export function bandRows({ rows }: Band, style: NoteStyle): readonly (readonly Block[])[] {
  const numbered = rows.some(({ phrase }) => phrase.number > 1);
  return rows.map((row) => rowBlocks(row, numbered, style));
}

/** What holds for all of a row, and its moves one under the other. */
function rowBlocks(row: Row, numbered: boolean, { size, width, wording }: NoteStyle): readonly Block[] {
  const { print, stance, time } = wording;
  const called = (row.phrase.say ?? []).filter(Boolean);
  const head = [
    ...(numbered ? [print.phrase(row.phrase.number)] : []),
    ...(row.dancers === undefined ? [] : [row.dancers]),
    ...(row.time === undefined ? [] : [time.track(row.time)]),
    ...(row.uncounted === undefined ? [] : [row.uncounted]),
    ...(row.facings === undefined ? [stance.facing(row.facing)] : facingTexts(row.facings, wording)),
    ...(called.length === 0 ? [] : [print.large.called(called)]),
  ];
  const moves = row.cells.map((cell) =>
    itemBlock(labelOf(cell, wording), cellSpans(cell, wording), { size, width, before: (size * 2) / 9, whole: true }),
  );
  const keepNext = moves.length > 0;
  const before = (size * 2) / 3;
  return [textBlock([{ text: head.join(", "), tone: "soft" }], { size, width, before, keepNext }), ...moves];
}

/** Its counts, with how many it lasts where they do not tell. */
function labelOf({ text, move, begins }: GridCell, { counts }: Wording): Span {
  const label = (text.late ?? text.label).map((span) => span.text).join("");
  const lasts = begins ? counts.lasts(move) : undefined;
  return { text: lasts === undefined ? label : `${label} (${lasts})`, style: "bold" };
}

/** All that a cell of the grid shows, in words. */
function cellSpans({ text, move, begins, turned }: GridCell, { print }: Wording): readonly Span[] {
  const asides = [
    ...(begins && move.hit ? [print.hit] : []),
    ...(turned === undefined ? [] : [print.nowFacing(turned)]),
    ...text.risk.map((span) => span.text),
  ];
  return [...text.spans, ...(asides.length === 0 ? [] : [{ text: print.aside(asides) }])];
}

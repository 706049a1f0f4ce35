import { type Mark, type Position, type Print, papers, type StructureElement } from "../../typesetting/print.js";
import { line } from "../../typesetting/shape.js";
import { leading, type Span, textWidth, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { smallest } from "./cell.js";
import type { Dance } from "./dance.js";
import { versionLine } from "./head.js";

export const margin = { side: 40, top: 36, bottom: 44 };

/** Ruled lines down to the foot of the page. */
export function layoutOwnNotes(
  position: Position,
  width: number,
  bottom: number,
  { print }: Wording,
  size = 10,
): { element: StructureElement; decoration: readonly Mark[] } {
  const [head] = wrap([{ text: print.ownNotes, style: "bold" }], size);
  const [first, step] = [size + 20, size + 10];
  const count = Math.max(1, Math.floor((bottom - position.y - first) / step) + 1);
  const shapes = Array.from({ length: count }, (_, index) =>
    line("line", 0.5, [0, first + index * step], [width, first + index * step]),
  );
  const content: readonly Mark[] = head === undefined ? [] : [{ ...position, line: head }];
  return { element: { tag: "H2", content }, decoration: [{ ...position, shapes }] };
}

/** The name of the dance at the top of every page but the first. */
export function layoutRunningHeads(
  { routine, version }: Dance,
  pages: number,
  width: number,
  size: number,
  wording: Wording,
): readonly Mark[] {
  const spans: readonly Span[] = [
    { text: `${routine.title} `, style: "bold" },
    { text: versionLine(routine, version, wording) },
  ];
  const [set] = wrap(spans, size, width);
  return Array.from({ length: pages - 1 }, (_, index): readonly Mark[] => {
    const position = { page: index + 1, x: margin.side, y: margin.top };
    return [
      ...(set === undefined ? [] : [{ ...position, line: set }]),
      { ...position, shapes: [line("ink", 0.6, [0, size * 1.6], [width, size * 1.6])] },
    ];
  }).flat();
}

/** Page numbers, and on each page what else stands at its foot (the credit). */
export function layoutFeet(
  paper: Print["paper"],
  notes: readonly (readonly Span[])[],
  { print }: Wording,
  size = smallest,
): readonly Mark[] {
  const [pageWidth, pageHeight] = papers[paper];
  const y = pageHeight - margin.bottom + 14 - (size - smallest);
  return notes.flatMap((note, page): readonly Mark[] => {
    const number = print.pageNumber(page + 1, notes.length);
    const [set] = wrap([{ text: number, tone: "soft" }], size);
    const room = pageWidth - 2 * margin.side - textWidth(number, size) - 20;
    const lines = wrap(
      note.map(({ text }): Span => ({ text, tone: "soft" })),
      size,
      room,
    ).slice(0, 2);
    return [
      ...lines.map((one, index): Mark => ({ page, x: margin.side, y: y + index * size * leading, line: one })),
      ...(set === undefined ? [] : [{ page, x: pageWidth - margin.side - set.width, y, line: set }]),
    ];
  });
}

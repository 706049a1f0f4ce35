import { type Mark, type Print, papers, type StructureElement } from "../../typesetting/print.js";
import { ascent, shortened, textWidth, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { linesHeight, smallest, stackLines } from "./cell.js";
import type { Dance } from "./dance.js";
import { danceLine } from "./head.js";
import { margin } from "./page.js";

const bar = 44;
const size = 22;
const small = 11;
/** Printers leave the edge of the paper white: 6 mm. */
const edge = 17;

/** Where a page that has the bar begins: the first one with its head, and every further one, whose running head is in the bar. */
export const otherSideTop = bar + 8;

/**
 * What tells a sheet for the other side from across a room: a black bar with the word along the top edge of every page, and on further
 * pages what the sheet is. Who listens hears of the side where the sheet says what it is.
 */
export function otherSideBar(dance: Dance, paper: Print["paper"], pages: number, wording: Wording): readonly Mark[] {
  const [width] = papers[paper];
  const [word] = wrap([{ text: wording.print.otherSideBar, style: "bold", tone: "paper" }], size);
  const room = width - 2 * margin.side - (word?.width ?? 0) - 20;
  const level = danceLine(dance, wording, (text) => textWidth(text, small) <= room / 2);
  const named = (title: string) =>
    wrap(
      [
        { text: `${title} `, style: "bold", tone: "paper" },
        { text: level, tone: "paper" },
      ],
      small,
    );
  const [head] = named(shortened(dance.routine.title, (title) => (named(title)[0]?.width ?? 0) <= room));
  return Array.from({ length: pages }, (_, page): readonly Mark[] => [
    { page, x: 0, y: 0, shapes: [{ kind: "box", at: [0, 0], width, height: bar, fill: "ink" }] },
    ...(word === undefined ? [] : [{ page, x: margin.side, y: edge, line: word }]),
    ...(head === undefined || page === 0
      ? []
      : [{ page, x: width - margin.side - head.width, y: edge + (size - small) * ascent, line: head }]),
  ]).flat();
}

/** What the other side is for, in the bar of the first page, where further ones say what the sheet is. */
export function otherSideReason(paper: Print["paper"], { print }: Wording): StructureElement {
  const [width] = papers[paper];
  const room = width - 2 * margin.side - textWidth(print.otherSideBar, size, "bold") - 20;
  const lines = wrap([{ text: print.mirroredFor, tone: "paper" }], smallest, room);
  const widest = Math.max(...lines.map((line) => line.width));
  const y = edge + size * ascent - smallest * ascent - linesHeight(lines.slice(1));
  return { tag: "P", content: stackLines(lines, { page: 0, x: width - margin.side - widest, y }) };
}

import type { Library } from "../../routine/routine.js";
import { type Block, itemBlock, textBlock, wholeBlock } from "../../typesetting/block.js";
import { type Area, flow } from "../../typesetting/flow.js";
import { figure, papers } from "../../typesetting/print.js";
import type { Span } from "../../typesetting/text.js";
import { phraseMap } from "../drawing/phrase-map.js";
import { clockText, stanceText, startsOf, tempoText, trackText } from "../figures.js";
import { formText } from "../form.js";
import { type Band, type Cell, type Row, sheetBands } from "../paper/bands.js";
import { versionLine } from "../paper/head.js";
import { creditSpans, type Dance } from "../paper/notes.js";
import { layoutFeet, layoutOwnNotes, layoutRunningHeads, margin } from "../paper/page.js";
import { noteBlocks, type Sheet } from "../paper/sheet.js";
import { cautionOf } from "../safety.js";

/**
 * Type size: nothing on these sheets is smaller. 18 points is what the American Printing House for the Blind asks of large
 * print (from memory), and it asks for what else is done here: one column, ragged on the right, no italics for whole texts.
 */
const size = 18;

/** The handout in large print: the counts as a list, one move under the other, in one column. */
export function layoutLarge(dance: Dance, library: Library): Sheet {
  const [pageWidth, pageHeight] = papers[library.paper];
  const width = pageWidth - 2 * margin.side;
  const bottom = pageHeight - margin.bottom - size;
  const area: Area = { left: margin.side, width, columns: 1, gutter: 0, top: margin.top + 44, bottom, tail: 90 };
  const map = phraseMap(dance.routine, dance.version, { width, size });
  const blocks = [
    ...headBlocks(dance, library, width),
    wholeBlock(map.height, 14, (position) => figure(map, position)),
    ...sheetBands(dance.routine, dance.version).flatMap((band) => bandBlocks(band, width)),
    ...noteBlocks(dance, library, { within: "handout" }, { size, width }),
    textBlock(creditSpans(dance.routine, library), { size, width, before: 24 }),
  ];
  const placed = flow(blocks, { page: 0, y: margin.top }, area);
  const own = layoutOwnNotes({ page: placed.page, x: margin.side, y: placed.y + 18 }, width, bottom, size);
  const pages = placed.page + 1;
  const title = `${dance.routine.title}, ${versionLine(dance.routine, dance.version)}, large print`;
  return {
    pages,
    elements: [...placed.draw(), own.element],
    decoration: [
      ...own.decoration,
      ...layoutRunningHeads(dance, pages, width, size),
      ...layoutFeet(library.paper, Array<readonly Span[]>(pages).fill([]), size),
    ],
    bookmarks: [{ title, page: 0, y: 0, under: [] }],
  };
}

function headBlocks({ routine, version }: Dance, library: Library, width: number): readonly Block[] {
  const { music } = routine;
  const song =
    music.title === undefined ? "" : `, to “${music.title}”${music.artist === undefined ? "" : ` by ${music.artist}`}`;
  const gear = version.gear.map(({ item, need }) => (need === "optional" ? `${item} (optional)` : item));
  const cautions = version.cautions.map((risk) => cautionOf(risk).label);
  const form = formText(routine);
  const fact = (label: string, text: string) =>
    textBlock([{ text: `${label}: `, style: "bold" }, { text }], { size, width, before: 6 });
  return [
    textBlock([{ text: library.name }], { size, width }),
    textBlock([{ text: routine.title, style: "bold" }], { size: 32, width, tag: "H1", before: 2 }),
    textBlock([{ text: `${versionLine(routine, version)}. Choreography: ${routine.choreographer}${song}.` }], {
      size,
      width,
    }),
    fact("Counts", `${routine.counts} in ${clockText(routine.seconds)}, ${tempoText(music.countsPerMinute)} a minute`),
    fact("Counts in", `${music.countIn}; the first count is at ${trackText(music.firstCount)} in the track`),
    ...startsOf(routine, version).map(({ group, start }) =>
      fact("Starts", `${group === undefined ? "" : `${group}: `}${stanceText(start)}`),
    ),
    ...(form.length === 0 ? [] : [fact(routine.walls > 1 ? "Walls" : "Times", form.join(" "))]),
    ...(gear.length === 0 ? [] : [fact("Bring", gear.join(", "))]),
    ...(cautions.length === 0
      ? []
      : [fact("Take care", `${cautions.join(", ")}. Read the cautions at the end first.`)]),
  ];
}

function bandBlocks(band: Band, width: number): readonly Block[] {
  const { section, number, again, rows } = band;
  const facts = [
    ...(section.words === undefined ? [] : [`“${section.words}”`]),
    ...(section.mirrored ? ["on the other side"] : []),
    ...section.canon.map(({ group, after }) => `${group}: the same, ${after} counts later`),
    ...(again === "" ? [] : [again]),
  ];
  const heading = textBlock([{ text: `${number} ${section.name}`, style: "bold" }], {
    size: 24,
    width,
    tag: "H2",
    before: 22,
    keepNext: true,
  });
  const about =
    facts.length === 0 ? [] : [textBlock([{ text: facts.join(", ") }], { size, width, before: 3, keepNext: true })];
  return [heading, ...about, ...rows.flatMap((row) => rowBlocks(row, width))];
}

function rowBlocks(row: Row, width: number): readonly Block[] {
  const head = [
    ...(row.dancers === undefined ? [] : [row.dancers]),
    `${trackText(row.time)}, facing ${row.facing}`,
    ...(row.phrase.say === undefined ? [] : [`called “${row.phrase.say.join(" · ")}”`]),
  ];
  const moves = row.cells.map((cell) =>
    itemBlock(labelOf(cell), cellSpans(cell), { size, width, before: 4, whole: true }),
  );
  const keepNext = moves.length > 0;
  return [textBlock([{ text: head.join(", "), tone: "soft" }], { size, width, before: 12, keepNext }), ...moves];
}

const labelOf = ({ text }: Cell): Span => ({ text: text.label.map((span) => span.text).join(""), style: "bold" });

/** All that a cell of the grid shows, in words. */
function cellSpans({ text, move, begins, ends }: Cell): readonly Span[] {
  const asides = [
    ...(begins && move.hit ? ["hit"] : []),
    ...(ends && move.after.facing !== move.before.facing ? [`now facing ${move.after.facing}`] : []),
    ...text.risk.map((span) => span.text),
  ];
  return [...text.spans, ...(asides.length === 0 ? [] : [{ text: ` (${asides.join(", ")})` }])];
}

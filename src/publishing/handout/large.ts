import { dancersOf } from "../../routine/chart.js";
import { shownFirstCount, wholeRun } from "../../routine/clock.js";
import type { Library, Routine } from "../../routine/routine.js";
import { timesThrough } from "../../routine/times-through.js";
import { groupsMeeting, oppositeGroups } from "../../routine/whose.js";
import { type Block, textBlock, wholeBlock } from "../../typesetting/block.js";
import { type Area, flow } from "../../typesetting/flow.js";
import { type Bookmark, figure, type Mark, papers, type StructureElement } from "../../typesetting/print.js";
import type { Span } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { floorPlans } from "../drawing/floor-plan.js";
import { feelTexts } from "../feel-texts.js";
import { offeredAlone } from "../offered.js";
import { type Band, canonFacts, sheetBands } from "../paper/bands.js";
import { codeLink } from "../paper/code.js";
import { creditSpans, routineAddress, viewAddress } from "../paper/credit.js";
import type { Dance } from "../paper/dance.js";
import { rungText, versionLine } from "../paper/head.js";
import { headingBlock, type NoteStyle, under } from "../paper/note-style.js";
import { teachingBlocks } from "../paper/notes.js";
import { feetOf, layoutFeet, layoutOwnNotes, layoutRunningHeads, margin } from "../paper/page.js";
import { practiceBlocks } from "../paper/practice.js";
import { cautionBlocks, gearBlocks } from "../paper/preparation.js";
import { bandRows } from "../paper/row-list.js";
import { orderBlocks } from "../paper/run-order.js";
import type { Sheet } from "../paper/sheet.js";
import { theirs } from "../paper/theirs.js";

/**
 * Type size: nothing on these sheets is smaller. 18 points is what the American Printing House for the Blind asks of large
 * print (from memory), and it asks for what else is done here: one column, ragged on the right, no italics for whole texts.
 */
const size = 18;

/** Of the code at the top right, quiet zone included, in points. */
const codeSize = 74;

/** A heading and two lines for the dancer's own notes; where there is less room, there are none. */
const ownNotes = 90;

/** Cautions in their own sentences stand before the counts as far as they leave most of the page to them, in points. */
const mostOfHead = 300;

/**
 * The handout in large print: what it is and what to take care of, then at once the counts as a list, one move under the other, in
 * one column. What else there is to know comes after them. It is the file to listen to as well: no sign, no table, no picture of counts.
 */
export function layoutLarge(dance: Dance, library: Library, wording: Wording): Sheet {
  const [pageWidth, pageHeight] = papers[library.paper];
  const width = pageWidth - 2 * margin.side;
  const bottom = pageHeight - margin.bottom - size;
  const area: Area = { left: margin.side, width, columns: 1, gutter: 0, top: margin.top + 44, bottom, tail: 0 };
  const blocks = [
    ...headBlocks(dance, library, width, wording),
    ...sheetBands(dance.routine, dance.version, wording).flatMap((band) =>
      bandBlocks(band, dance.routine, width, wording),
    ),
    ...factBlocks(dance, width, wording),
    textBlock(creditSpans(dance.routine, library, wording), { size, width, before: 6 }),
    ...afterBlocks(dance, library, width, wording),
  ];
  const text = flow(blocks, { page: 0, y: margin.top }, area);
  const floor = floorBlocks(dance, library, width, bottom - text.y, wording);
  const placed = flow(floor, text, area);
  const end = { page: placed.page, x: margin.side, y: placed.y + 18 };
  const own = end.y + ownNotes > bottom ? undefined : layoutOwnNotes(end, width, bottom, wording, size);
  const pages = placed.page + 1;
  const version = versionLine(dance.routine, dance.version, wording);
  const title = wording.print.bookmark(dance.routine.title, version, "large");
  const elements = [...text.draw(), ...placed.draw(), ...(own === undefined ? [] : [own.element])];
  return {
    pages,
    elements,
    decoration: [
      ...(own?.decoration ?? []),
      ...layoutRunningHeads(dance, pages, width, size, wording),
      ...layoutFeet(library.paper, feetOf([], pages, dance.mark), wording, size),
    ],
    bookmarks: [{ title, page: 0, y: 0, under: elements.flatMap(bookmarkOf) }],
  };
}

/** A bookmark for each section, and for each part of what comes after them. */
function bookmarkOf({ tag, content }: StructureElement): readonly Bookmark[] {
  const marks = tag === "H2" ? content.flatMap(marksIn) : [];
  const [first] = marks;
  if (first === undefined) return [];
  const title = marks.flatMap((mark) => ("line" in mark ? mark.line.pieces().map(({ text }) => text) : [])).join("");
  return [{ title: title.replace(/\s+/g, " ").trim(), page: first.page, y: first.y, under: [] }];
}

function marksIn(one: StructureElement | Mark): readonly Mark[] {
  return "tag" in one ? one.content.flatMap(marksIn) : [one];
}

const fact = (label: string, text: string, width: number): Block =>
  textBlock([{ text: label, style: "bold" }, { text }], { size, width, before: 6 });

function headBlocks(dance: Dance, library: Library, width: number, wording: Wording): readonly Block[] {
  const { routine, version } = dance;
  const { print } = wording;
  const address = viewAddress(dance, library);
  const room = address === undefined ? width : width - codeSize;
  return [
    textBlock([theirs(routine.title, wording, { style: "bold" })], { size: 28, width: room, tag: "H1" }),
    textBlock(
      [{ text: print.large.version(versionLine(routine, version, wording) + rungText(routine, version, wording)) }],
      {
        size,
        width: room,
        before: 0,
      },
    ),
    ...(address === undefined ? [] : [codeBlock(address, width, wording)]),
    ...careBlocks(dance, width, wording),
  ];
}

/**
 * What to take care of, in its own sentences; where they would fill the page, by name, and where the sentences are. Of a version that has
 * none of its own, what holds for every dance.
 */
function careBlocks({ routine, version }: Dance, width: number, wording: Wording): readonly Block[] {
  const { print, risks } = wording;
  const label: Span = { text: print.large.fact(print.takeCare), style: "bold" };
  if (version.cautions.length === 0)
    return [textBlock([label, { text: risks.generalCaution }], { size, width, before: 12 })];
  const named = version.cautions.map((risk) => ({ risk, name: risks.of(risk, groupsMeeting(routine, version, risk)) }));
  const sentences = named.flatMap(({ risk, name }): readonly Span[] => [
    { text: print.large.sentence(name), style: "bold" },
    { text: `${risks.caution(risk)} ` },
  ]);
  const whole = textBlock([label, ...sentences], { size, width, before: 12 });
  const height = whole.slices.reduce((sum, slice) => sum + slice.height, 0);
  if (height <= mostOfHead) return [whole];
  const care = print.care(named.map(({ name }) => name));
  return [textBlock([label, { text: care }], { size, width, before: 12 })];
}

/** What it is danced to, and how it begins. */
function factBlocks({ routine, version }: Dance, width: number, wording: Wording): readonly Block[] {
  const { music } = routine;
  const firstCount = shownFirstCount(routine);
  const { print, stance, time } = wording;
  const { large } = print;
  const song = music.title === undefined ? undefined : print.song(music.title, music.artist);
  const built = timesThrough(routine);
  const across = oppositeGroups(routine);
  const run = large.size(routine.counts, time.run(wholeRun(routine)), time.tempo(music));
  const facts: readonly (readonly [label: string, text: string])[] = [
    [large.counts, run],
    [large.countIn, large.firstCount(music.countIn, firstCount && time.track(firstCount))],
    ...dancersOf(routine, version).map(({ group, start }) => {
      return [print.startsOf(group), print.start("", stance.whole(start), across.has(group ?? ""))] as const;
    }),
    ...(built === undefined
      ? []
      : [[print.timesThrough(routine.walls), wording.run.timesThrough(built).join(" ")] as const]),
    ...(music.pauses.length === 0 ? [] : [[print.pauses, print.pausesOn(music.pauses)] as const]),
  ];
  return [
    headingBlock(large.aboutTitle, { size, width }),
    textBlock([{ text: large.about(routine.choreographer, song) }], { size, width }),
    ...facts.map(([label, text]) => fact(large.fact(label), text, width)),
  ];
}

/** Points that a floor is deep at most (of several, so that a page has two), and at least where that keeps it on the page before. */
const floorDepth = { most: 300, each: 220, least: 110 };
/** Its heading and what is written around it. */
const aroundFloor = 125;

/** The way over the floor, as large as the page has room for. */
function floorBlocks(
  { routine, version }: Dance,
  library: Library,
  width: number,
  room: number,
  wording: Wording,
): readonly Block[] {
  const here = room - aroundFloor;
  const most = routine.groups.length > 1 ? floorDepth.each : floorDepth.most;
  const depth = here < floorDepth.least ? most : Math.min(most, here);
  const plans = floorPlans(routine, version, library, { width, depth, size, wording });
  const blocks = plans.map((plan) => wholeBlock(plan.height, size / 2, (position) => figure(plan, position)));
  return under(wording.print.floorPlan, blocks, { size, width, wording });
}

/** What a sheet says under its counts, without what other versions dance: each has a sheet of its own. */
function afterBlocks({ routine, version }: Dance, library: Library, width: number, wording: Wording): readonly Block[] {
  const offered = offeredAlone(routine, version);
  const address = routineAddress(routine, library);
  const style: NoteStyle = { size, width, wording, ...(address === undefined ? {} : { base: address }) };
  return [
    ...gearBlocks([offered], style),
    ...orderBlocks(routine, style),
    ...cautionBlocks([offered], library, style, { general: version.cautions.length > 0 }),
    ...teachingBlocks(routine, version, style),
    ...practiceBlocks(routine, version, style),
  ];
}

/** Beside the two lines at least that stand before it, so that it takes no room of its own. */
function codeBlock(address: string, width: number, wording: Wording): Block {
  const corner = { page: 0, x: margin.side + width - codeSize + 8, y: margin.top - 8 };
  return wholeBlock(0, 0, () => codeLink(address, codeSize, corner, wording));
}

function bandBlocks(band: Band, routine: Routine, width: number, wording: Wording): readonly Block[] {
  const { print } = wording;
  const { section, number, again } = band;
  const facts = [
    ...(section.words === undefined ? [] : [print.quoted(section.words)]),
    ...(section.mirrored ? [print.otherSide] : []),
    ...(section.improvised ? [print.ownSection] : []),
    ...feelTexts(routine, section, wording),
    ...canonFacts(band, wording),
    ...(again === "" ? [] : [again]),
  ];
  const heading = textBlock([{ text: `${number} `, style: "bold" }, theirs(section.name, wording, { style: "bold" })], {
    size: 24,
    width,
    tag: "H2",
    before: 22,
    keepNext: true,
  });
  const about =
    facts.length === 0 ? [] : [textBlock([{ text: facts.join(", ") }], { size, width, before: 3, keepNext: true })];
  return [heading, ...about, ...bandRows(band, { size, width, wording }).flatMap(together)];
}

/** No move of a phrase stands alone on the page before or after the turn. */
const together = (blocks: readonly Block[]): readonly Block[] =>
  blocks.map((block, index) =>
    index < blocks.length - 1 && (index === 1 || index === blocks.length - 2) ? { ...block, keepNext: true } : block,
  );

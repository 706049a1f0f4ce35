import { dancersOf } from "../../routine/chart.js";
import { shownFirstCount, wholeRun } from "../../routine/clock.js";
import type { Library, Routine } from "../../routine/routine.js";
import { timesThrough } from "../../routine/times-through.js";
import { groupsMeeting } from "../../routine/whose.js";
import { type Block, textBlock, wholeBlock } from "../../typesetting/block.js";
import { type Area, flow } from "../../typesetting/flow.js";
import { figure, papers } from "../../typesetting/print.js";
import type { Wording } from "../../wording/wording.js";
import { phraseMap } from "../drawing/phrase-map.js";
import { feelTexts } from "../feel-texts.js";
import { type Band, sheetBands } from "../paper/bands.js";
import { codeLink } from "../paper/code.js";
import { creditSpans, viewAddress } from "../paper/credit.js";
import type { Dance } from "../paper/dance.js";
import { versionLine } from "../paper/head.js";
import { feetOf, layoutFeet, layoutOwnNotes, layoutRunningHeads, margin } from "../paper/page.js";
import { rowBlocks } from "../paper/row-list.js";
import { noteBlocks, type Sheet } from "../paper/sheet.js";
import { theirs } from "../paper/theirs.js";

/**
 * Type size: nothing on these sheets is smaller. 18 points is what the American Printing House for the Blind asks of large
 * print (from memory), and it asks for what else is done here: one column, ragged on the right, no italics for whole texts.
 */
const size = 18;

/** Of the code at the top right, quiet zone included, in points. */
const codeSize = 96;

/** The handout in large print: the counts as a list, one move under the other, in one column. */
export function layoutLarge(dance: Dance, library: Library, wording: Wording): Sheet {
  const [pageWidth, pageHeight] = papers[library.paper];
  const width = pageWidth - 2 * margin.side;
  const bottom = pageHeight - margin.bottom - size;
  const area: Area = { left: margin.side, width, columns: 1, gutter: 0, top: margin.top + 44, bottom, tail: 90 };
  const map = phraseMap(dance.routine, dance.version, { width, size, wording });
  const blocks = [
    ...headBlocks(dance, library, width, wording),
    wholeBlock(map.height, 14, (position) => figure(map, position)),
    ...sheetBands(dance.routine, dance.version, wording).flatMap((band) =>
      bandBlocks(band, dance.routine, width, wording),
    ),
    ...noteBlocks(dance, library, { within: "handout", wording }, { size, width }),
    textBlock(creditSpans(dance.routine, library, wording), { size, width, before: 24 }),
  ];
  const placed = flow(blocks, { page: 0, y: margin.top }, area);
  const own = layoutOwnNotes({ page: placed.page, x: margin.side, y: placed.y + 18 }, width, bottom, wording, size);
  const pages = placed.page + 1;
  const version = versionLine(dance.routine, dance.version, wording);
  const title = wording.print.bookmark(dance.routine.title, version, "large");
  return {
    pages,
    elements: [...placed.draw(), own.element],
    decoration: [
      ...own.decoration,
      ...layoutRunningHeads(dance, pages, width, size, wording),
      ...layoutFeet(library.paper, feetOf([], pages), wording, size),
    ],
    bookmarks: [{ title, page: 0, y: 0, under: [] }],
  };
}

function headBlocks({ routine, version }: Dance, library: Library, width: number, wording: Wording): readonly Block[] {
  const { music } = routine;
  const firstCount = shownFirstCount(routine);
  const { print, stance, risks, time } = wording;
  const { large } = print;
  const song = music.title === undefined ? undefined : print.song(music.title, music.artist);
  const gear = version.gear.map(({ item, need }) => print.item(item, need === "optional"));
  const cautions = version.cautions.map((risk) => risks.of(risk, groupsMeeting(routine, version, risk)));
  const built = timesThrough(routine);
  const about = large.about(versionLine(routine, version, wording), routine.choreographer, song);
  const run = large.size(routine.counts, time.run(wholeRun(routine)), time.tempo(music));
  const address = viewAddress({ routine, version }, library);
  const room = address === undefined ? width : width - codeSize;
  const fact = (label: string, text: string) =>
    textBlock([{ text: large.fact(label), style: "bold" }, { text }], { size, width, before: 6 });
  return [
    textBlock([theirs(library.name, wording)], { size, width: room }),
    textBlock([theirs(routine.title, wording, { style: "bold" })], { size: 32, width: room, tag: "H1", before: 2 }),
    textBlock([{ text: about }], { size, width: room }),
    ...(address === undefined ? [] : [codeBlock(address, width, wording)]),
    fact(large.counts, run),
    fact(large.countIn, large.firstCount(music.countIn, firstCount && time.track(firstCount))),
    ...dancersOf(routine, version).map(({ group, start }) => fact(print.startsOf(group), stance.whole(start))),
    ...(built === undefined
      ? []
      : [fact(print.timesThrough(routine.walls), wording.run.timesThrough(built).join(" "))]),
    ...(music.pauses.length === 0 ? [] : [fact(print.pauses, print.pausesOn(music.pauses))]),
    ...(gear.length === 0 ? [] : [fact(print.bring, gear.join(", "))]),
    ...(cautions.length === 0 ? [] : [fact(print.takeCare, print.care(cautions, "large"))]),
  ];
}

/** Beside the three lines at least that stand before it, so that it takes no room of its own. */
function codeBlock(address: string, width: number, wording: Wording): Block {
  const corner = { page: 0, x: margin.side + width - codeSize + 8, y: margin.top - 8 };
  return wholeBlock(0, 0, () => codeLink(address, codeSize, corner, wording));
}

function bandBlocks(band: Band, routine: Routine, width: number, wording: Wording): readonly Block[] {
  const { print } = wording;
  const { section, number, again, rows } = band;
  const facts = [
    ...(section.words === undefined ? [] : [print.quoted(section.words)]),
    ...(section.mirrored ? [print.otherSide] : []),
    ...(section.improvised ? [print.ownSection] : []),
    ...feelTexts(routine, section, wording),
    ...band.canon.map(({ group, after, facing }) => print.canon(group, after, facing)),
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
  return [heading, ...about, ...rows.flatMap((row) => rowBlocks(row, { size, width, wording }))];
}

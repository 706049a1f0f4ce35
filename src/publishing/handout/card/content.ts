import { dancersOf } from "../../../routine/chart.js";
import { otherWords } from "../../../routine/mirror-cue.js";
import type { DancedSection, Move, Routine } from "../../../routine/routine.js";
import type { Risk } from "../../../routine/vocabulary.js";
import { groupsMeeting } from "../../../routine/whose.js";
import type { Wording } from "../../../wording/wording.js";
import { feelTexts } from "../../feel-texts.js";
import { type Band, sheetBands } from "../../paper/bands.js";
import type { Dance } from "../../paper/dance.js";
import { versionLine } from "../../paper/head.js";
import { type CardRow, type CardShape, rowsOf } from "./rows.js";

/** What a card says, in whatever size. */
export interface CardContent {
  readonly title: string;
  readonly version: string;
  readonly facts: readonly string[];
  /** In a word or two each. */
  readonly cautions: readonly string[];
  /** The counts over the columns, and which of them the music lands on. */
  readonly numbers: readonly number[];
  readonly accents: readonly number[];
  readonly sections: readonly CardSection[];
}

/** A section as it is danced: its rows, or the section further up whose rows it dances. */
export interface CardSection {
  readonly name: string;
  readonly same?: { readonly name: string; readonly otherSide: boolean };
  /** How often in a row. */
  readonly times: number;
  readonly asides: readonly string[];
  /** Of a section without rows of its own. */
  readonly cautions: readonly Risk[];
  readonly rows: readonly CardRow[];
}

export function cardContent(dance: Dance, { columns, fold }: CardShape, wording: Wording): CardContent {
  const { routine, version } = dance;
  const { music } = routine;
  const { card, risks } = wording;
  const numbers = Array.from({ length: columns }, (_, index) => index + 1);
  const row = Array.from({ length: fold }, () => numbers).flat();
  return {
    title: routine.title,
    version: versionLine(routine, version, wording),
    facts: [
      card.counts(routine.counts),
      card.tempo(wording.time.tempo(music)),
      card.countIn(music.countIn),
      ...(routine.times > 1 ? [card.times(routine.walls, routine.times)] : []),
      ...(music.pauses.length > 0 ? [card.pauses(music.pauses)] : []),
      ...(dance.mark === undefined ? [] : [wording.print.mark(dance.mark)]),
    ],
    cautions: version.cautions.map((risk) => risks.of(risk, groupsMeeting(routine, version, risk))),
    numbers: row,
    accents: row.flatMap((number, index) => (music.accents.includes(number) ? [index] : [])),
    sections: cardSections(dance, { columns, fold }, wording),
  };
}

/** A section that the card prints, and what is danced in it. */
interface Printed {
  readonly band: Band;
  readonly key: string;
}

/** Sections that follow each other and are danced alike are one entry. */
function cardSections(dance: Dance, shape: CardShape, wording: Wording): readonly CardSection[] {
  const printed: Printed[] = [];
  const entries: (Printed & { section: CardSection })[] = [];
  const other = (band: Band) => keyOf(band, otherSide(dance.routine));
  for (const band of dancedBands(dance, wording)) {
    const one: Printed = { band, key: keyOf(band, ownSide) };
    const last = entries.at(-1);
    if (last !== undefined && last.section.name === band.section.name && isSame(last, one)) {
      last.section = { ...last.section, times: last.section.times + 1 };
      continue;
    }
    const same = printed.find((before) => isSame(before, one));
    // What is across from the other side would be two turns of thought.
    const isAcross = ({ band: before, key }: Printed) =>
      !before.section.mirrored && isAsLong(before, band) && (key === other(band) || other(before) === one.key);
    const alike = same ?? printed.find(isAcross);
    if (alike === undefined) printed.push(one);
    entries.push({
      ...one,
      section: sectionOf(dance, band, shape, { alike: alike?.band, same: same !== undefined }, wording),
    });
  }
  return entries.map(({ section }) => section);
}

/** Alike in words is not enough: words that name no side are danced on either. */
const isSame = (one: Printed, other: Printed): boolean =>
  one.key === other.key && one.band.section.mirrored === other.band.section.mirrored;

/** Whether two could be alike at all, which takes less time to see. */
const isAsLong = ({ rows }: Band, other: Band): boolean =>
  rows.length === other.rows.length && rows.every(({ cells }, at) => cells.length === other.rows[at]?.cells.length);

function sectionOf(
  { routine, version }: Dance,
  band: Band,
  shape: CardShape,
  { alike, same }: { readonly alike: Band | undefined; readonly same: boolean },
  wording: Wording,
): CardSection {
  const shared = { name: band.section.name, times: 1, asides: asidesOf(band, routine, alike !== undefined, wording) };
  if (alike === undefined) return { ...shared, cautions: [], rows: rowsOf(band, shape) };
  const moves = dancersOf(routine, version).flatMap(({ moves }) => moves.filter(isIn(band)));
  return {
    ...shared,
    same: { name: alike.section.name, otherSide: !same || alike.section.mirrored },
    cautions: version.cautions.filter((risk) => moves.some((move) => move.cautions.includes(risk))),
    rows: [],
  };
}

const isIn =
  ({ entry }: Band) =>
  ({ section }: { readonly section: number }): boolean =>
    section === entry.section;

/** In the order in which they are danced; of a dance that goes several times through, each once. */
function dancedBands({ routine, version }: Dance, wording: Wording): readonly Band[] {
  const bands = sheetBands(routine, version, wording);
  if (routine.times > 1) return bands;
  return routine.sections.flatMap((_, index) => bands.find(({ entry }) => entry.danced.includes(index)) ?? []);
}

/** The words of a move, as one side dances it. */
type Side = (move: Move) => readonly string[];

const ownSide: Side = ({ cue, say = [] }) => [cue.text, ...say.map((call) => call.cue.text)];

function otherSide({ mirrorWords }: Routine): Side {
  return (move) => {
    const flip = otherWords(move, mirrorWords);
    return [move.mirroredCue.text, ...(move.say ?? []).map(({ cue }) => flip(cue).text)];
  };
}

/** What is danced in it, by what the card shows: alike where this is. */
function keyOf({ section, rows }: Band, words: Side): string {
  const shown = rows.map(({ phrase, dancers, uncounted, cells }) => [
    phrase.numbers,
    dancers,
    uncounted,
    cells.map(({ move, from, to, text }) => [
      ...[from, to, text.label.map((span) => span.text).join("")],
      words(move),
      ...[move.hit, move.improvised, move.cautions],
    ]),
  ]);
  return JSON.stringify([section.canon, shown]);
}

function asidesOf(band: Band, routine: Routine, alike: boolean, wording: Wording): readonly string[] {
  const { card, time } = wording;
  const { section, canon, again } = band;
  const ownTempo = !section.countsPerMinute.equals(routine.music.countsPerMinute) && isCounted(section);
  return [
    ...(section.mirrored && !alike ? [card.otherSide] : []),
    ...(ownTempo ? [card.tempo(time.tempo(section))] : []),
    ...feelTexts(routine, section, wording),
    ...(alike ? [] : canon),
    ...(routine.times > 1 && again !== "" ? [again] : []),
  ];
}

const isCounted = ({ seconds }: DancedSection): boolean => seconds === undefined;

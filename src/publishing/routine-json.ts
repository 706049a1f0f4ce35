import type Fraction from "fraction.js";
import { type Click, clicks } from "../routine/clicks.js";
import { trackTime } from "../routine/clock.js";
import type { Cue } from "../routine/cue.js";
import { otherWords } from "../routine/mirror-cue.js";
import type {
  DancedSection,
  GearItem,
  Group,
  Library,
  Move,
  PracticeSpeed,
  Routine,
  Stance,
  Version,
} from "../routine/routine.js";
import { groupsMeeting } from "../routine/whose.js";
import { writtenSeconds } from "./format.js";
import type { FindingInFile } from "./publisher.js";

/** All that was computed of a routine, as `routine.json` has it. */
export type RoutineJson = ReturnType<typeof routineJson>;

/**
 * All that was computed of a routine, as plain data. Times are seconds to the millisecond, each rounded on its own from the
 * exact figure; `at` and `length` are counts as exact texts ("7/2"). A field that has nothing to say is left out.
 *
 * @example
 * const record = routineJson(routine, library, findings)
 * record.versions[0].moves[1].seconds // 1
 * record.versions[0].moves[1].at // "3"
 */
export function routineJson(routine: Routine, library: Library, findings: readonly FindingInFile[]) {
  const { slug, title, choreographer, date, styles, audience, summary, levels, walls, times } = routine;
  return {
    slug,
    formerly: some(routine.formerly),
    title,
    choreographer,
    date,
    styles,
    audience,
    summary,
    credit: routine.credit ?? library.credit,
    language: library.language,
    page: library.url && `${library.url}/routines/${slug}/`,
    music: musicRecord(routine),
    song: songRecord(routine),
    video: videoRecord(routine),
    counts: routine.counts,
    seconds: writtenSeconds(routine.seconds),
    levels,
    taught: routine.taught,
    groups: some(routine.groups),
    walls,
    times,
    sections: routine.sections.map((section, index) => sectionRecord(routine, section, index)),
    versions: routine.versions.map((version) => versionRecord(routine, version)),
    practice: routine.practice.map(practiceRecord),
    clicks: [...clicks(routine)].filter(isDanced).map((click) => clickRecord(routine, click)),
    findings: findings
      // What the author is not sure of is for the author alone.
      .filter(({ rule }) => rule !== "doubt")
      .map(({ severity, rule, message, line, column }) => ({ severity, rule, message, line, column })),
  };
}

function musicRecord({ music }: Routine) {
  return {
    countsPerMinute: music.countsPerMinute.valueOf(),
    tempoIsEstimate: music.tempoIsEstimate,
    phrase: music.phrase,
    accents: music.accents,
    pauses: some(music.pauses),
    firstCount: music.firstCount === undefined ? null : writtenSeconds(music.firstCount),
    countIn: music.countIn,
    feel: music.feel,
  };
}

function songRecord({ music: { title, artist, link } }: Routine) {
  return (title ?? artist ?? link) === undefined ? undefined : { title, artist, link };
}

function videoRecord({ video }: Routine) {
  const { performance, breakdown, mirrored, length, chapters } = video;
  return {
    performance,
    breakdown,
    breakdownMirrored: mirrored?.address,
    mirroredBy: mirrored?.by,
    length: length && writtenSeconds(length),
    chapters: some(chapters)?.map(({ at, title }) => ({ at: writtenSeconds(at), title })),
  };
}

function sectionRecord(routine: Routine, section: DancedSection, index: number) {
  const next = routine.sections[index + 1];
  const wait = next?.start.sub(section.end);
  return {
    name: section.name,
    words: section.words,
    wall: section.wall,
    pass: section.pass,
    mirrored: section.mirrored,
    /** Time without counts. */
    uncounted: section.seconds !== undefined || undefined,
    counts: section.counts,
    at: String(section.at),
    ...clock(routine, section),
    /** Seconds that the dancers wait for the next section. */
    wait: wait && wait.compare(0) > 0 ? writtenSeconds(wait) : undefined,
    countsPerMinute: section.seconds === undefined ? section.countsPerMinute.valueOf() : undefined,
    tempoIsEstimate: section.tempoIsEstimate,
    feel: section.seconds === undefined ? section.feel : undefined,
    improvised: section.improvised || undefined,
    canon: some(section.canon),
    parts: some(section.parts),
  };
}

function versionRecord(routine: Routine, version: Version) {
  return {
    id: version.id,
    kind: version.kind,
    from: version.from,
    gear: version.gear.map(gearRecord),
    cautions: version.cautions,
    /** Whose a caution is, where not all groups meet it. */
    cautionGroups: cautionGroups(routine, version),
    ...dancedRecord(routine, version),
    /** The groups after the first. */
    groups: some(version.groups)?.map((group) => ({ name: group.name, ...dancedRecord(routine, group) })),
  };
}

function cautionGroups(routine: Routine, version: Version) {
  const met = version.cautions.map((risk) => [risk, groupsMeeting(routine, version, risk)] as const);
  const apart = some(met.filter(([, groups]) => groups.length > 0));
  return apart && Object.fromEntries(apart);
}

function dancedRecord(routine: Routine, { load, space, start, end, moves }: Version | Group) {
  return {
    load,
    space: space === undefined ? null : { width: centimetres(space.width), depth: centimetres(space.depth) },
    start: stanceRecord(start),
    end: stanceRecord(end),
    moves: moves.map((move) => moveRecord(routine, move)),
  };
}

/** Where the weight is not known, after what is improvised, it is `null`. */
function stanceRecord({ facing, weight, height }: Stance) {
  return { facing, weight: weight ?? null, height };
}

function gearRecord({ item, need }: GearItem) {
  return { item, need };
}

function moveRecord(routine: Routine, move: Move) {
  return {
    section: move.section,
    phrase: move.phrase,
    on: move.on,
    at: move.at.toFraction(),
    length: move.length.toFraction(),
    ...clock(routine, move),
    do: move.cue.text,
    mirrored: move.mirroredCue.text,
    hold: move.hold,
    hit: move.hit,
    /** The dancers' own. */
    improvised: move.improvised || undefined,
    ...stanceRecord(move.after),
    /** A text, or several in a list, each on its count; an empty list where nothing is called. */
    say: sayRecord(move.say?.map(({ cue }) => cue)),
    mirroredSay: sayRecord(move.say?.map(({ cue }) => otherWords(move, routine.mirrorWords)(cue))),
    words: move.words,
    through: move.through,
    steps: some(move.steps),
    /** Turns to the right, an eighth being 0.125. */
    turn: move.turn === 0 ? undefined : move.turn / 8,
    travel: some(move.travel),
    contacts: some(move.contacts),
    risks: some(move.risks),
    gear: some(move.gear),
    choose: some(move.choose)?.map(({ text }) => text),
    note: move.note?.text,
    /** The version whose option this is. */
    option: move.option,
  };
}

function sayRecord(calls: readonly Cue[] | undefined): string | readonly string[] | undefined {
  const texts = calls?.map(({ text }) => text);
  return texts?.length === 1 ? texts[0] : texts;
}

function practiceRecord({ percent, countsPerMinute, seconds }: PracticeSpeed) {
  return { percent, countsPerMinute: countsPerMinute.valueOf(), seconds: writtenSeconds(seconds) };
}

/** Not in the count-in: such a click has a section and a phrase. */
function isDanced(click: Click): click is Required<Click> {
  return click.at >= 0;
}

function clickRecord(routine: Routine, click: Required<Click>) {
  const { at, number, call, accent, section, phrase } = click;
  return {
    at: String(at),
    ...clock(routine, click),
    number,
    accent,
    section,
    phrase,
    say: call === String(number) ? undefined : call,
  };
}

function clock(routine: Routine, { start, end }: { readonly start: Fraction; readonly end: Fraction }) {
  const time = trackTime(routine, start);
  return {
    start: writtenSeconds(start),
    seconds: writtenSeconds(end.sub(start)),
    trackTime: time === undefined ? null : writtenSeconds(time),
  };
}

function some<T>(list: readonly T[]): readonly T[] | undefined {
  return list.length > 0 ? list : undefined;
}

/** Metres are worked out from steps as floating numbers: a sum that should be 2.4 may be a hair beside it. */
function centimetres(metres: number): number {
  return Math.round(Number((metres * 100).toPrecision(12))) / 100;
}

import type { Played, PlayedMove } from "../../../src/publishing/site/player-data.js";
import { tellsLength } from "../../../src/routine/tells-length.js";
import type { PlayerWording } from "../../../src/wording/player.js";

/** A routine on the clock: exact starts, in seconds at full tempo from the routine's first count. */
export interface Score {
  readonly sections: readonly Section[];
  readonly beats: readonly Beat[];
  readonly countIn: number;
  /** Counts in a phrase. */
  readonly phrase: number;
}

export interface Section {
  readonly name: string;
  readonly wall: number;
  readonly pass: number;
  readonly mirrored: boolean;
  /** In counts from the routine's first. */
  readonly at: number;
  readonly counts: number;
  readonly start: number;
  /** End of its last count, before any wait. */
  readonly end: number;
  /** Seconds that a count lasts; 0 where nothing is counted. */
  readonly count: number;
  /** Time without counts. */
  readonly uncounted: boolean;
}

export interface Beat {
  readonly start: number;
  readonly number: number;
  readonly label: string;
  readonly accent: boolean;
  readonly section: number;
  /** True on the first count of a phrase. */
  readonly opens: boolean;
}

/** One move on the clock, its texts on one side. */
export interface Cue {
  readonly start: number;
  readonly end: number;
  readonly section: number;
  /** The counts, as they are set: "5–6". */
  readonly on: string;
  /** What comes after the number where the move starts between two counts: "&". */
  readonly part: string;
  readonly text: string;
  readonly call?: string;
  readonly words?: string;
  /** Where several quick moves stand together: each of them. */
  readonly run?: readonly Cue[];
  /** It lands hard on its first count. */
  readonly hit: boolean;
  /** What it asks care for where it is not danced below full tempo. */
  readonly care?: string;
}

/** A published figure is rounded to the millisecond, so it lies this near to the exact one, in seconds. */
const rounding = 0.0005 + 1e-9;

/** "Harbour wall, 2nd time, wall 3, other side": as much as tells it from the others of its name. */
export function sectionTitle({ sections }: Score, index: number, wording: PlayerWording): string {
  const section = sections[index];
  if (!section) return "";
  const { name, wall, pass } = section;
  const repeats = sections.some((other) => other.name === name && other.pass > 1);
  const walls = sections.some((other) => other.wall > 1);
  return [
    name,
    repeats ? wording.pass(pass) : "",
    walls ? wording.wall(wall) : "",
    section.mirrored ? wording.otherSide : "",
  ]
    .filter(Boolean)
    .join(", ");
}

/** A whole number, or a fraction in lowest terms: exact("7/2") is 3.5. */
export function exact(figure: number | string): number {
  const [above = 0, below = 1] = String(figure).split("/").map(Number);
  return above / below;
}

/**
 * Computes exact starts anew from counts and tempo, since loops of rounded seconds would drift. A published start is
 * believed only where it differs from what the counts reach: there the dancers wait, or the track cuts in. So every start
 * is exact where the track times were given to the millisecond, and otherwise within a millisecond.
 */
export function score(file: Played): Score {
  const sections: Section[] = [];
  for (const { name, wall, pass, mirrored, counts, at, start, seconds, countsPerMinute } of file.sections) {
    const reached = sections.at(-1)?.end ?? 0;
    const begins = Math.abs(start - reached) < rounding ? reached : start;
    const count = countsPerMinute === undefined ? 0 : 60 / exact(countsPerMinute);
    const uncounted = countsPerMinute === undefined;
    const end = begins + (uncounted ? seconds : counts * count);
    sections.push({ name, wall, pass, mirrored, at: exact(at), counts, start: begins, end, count, uncounted });
  }
  const beats = file.clicks.map((click, index): Beat => {
    const before = file.clicks[index - 1];
    return {
      start: startOf(sections, click.section, exact(click.at)),
      number: click.number,
      label: click.say || String(click.number),
      accent: click.accent,
      section: click.section,
      opens: before?.section !== click.section || before.phrase !== click.phrase,
    };
  });
  return { sections, beats, countIn: file.music.countIn, phrase: file.music.phrase };
}

/** What the page shows of a routine. */
export interface View {
  readonly version: string;
  /** As a mirror would show it. */
  readonly otherSide: boolean;
  /** Whose counts; empty where all dance the same. */
  readonly group: string;
}

/** The moves of a version and group on the clock, on one side. */
export function cues(
  file: Played,
  { sections }: Score,
  { version, otherSide, group }: View,
  wording: PlayerWording,
): readonly Cue[] {
  const danced = file.versions.find(({ id }) => id === version);
  const moves = danced?.groups?.find(({ name }) => name === group)?.moves ?? danced?.moves ?? [];
  return moves.map((move) => {
    const at = exact(move.at);
    const call = [otherSide ? (move.mirroredSay ?? move.say) : move.say].flat().filter(Boolean).join(" · ");
    const text = otherSide ? move.mirrored : move.do;
    return {
      start: startOf(sections, move.section, at),
      end: endOf(sections, move.section, at + exact(move.length)),
      section: move.section,
      on: onText(move, wording),
      part: /^\d+([e&a])(?:$|-)/.exec(move.on)?.[1] ?? "",
      text: move.improvised ? wording.ownMove(text) : text,
      ...(call ? { call } : {}),
      ...(move.words ? { words: move.words } : {}),
      hit: move.hit,
      ...(move.care ? { care: move.care } : {}),
    };
  });
}

/** The counts of a move, with its length where they do not tell: "5 (10 counts)". */
function onText({ on, length }: PlayedMove, wording: PlayerWording): string {
  const long = !tellsLength(on) && exact(length) > 1;
  return long ? wording.longSpan(on, length) : wording.span(on);
}

/** Where the next section cuts in early, what lies beyond its start begins with it. */
function startOf(sections: readonly Section[], index: number, at: number): number {
  const section = sections[index];
  if (!section) return 0;
  const start = section.start + (at - section.at) * section.count;
  return Math.min(start, sections[index + 1]?.start ?? start);
}

/** A move that ends with its section ends before the wait that may follow; one that runs on ends in a later section. */
function endOf(sections: readonly Section[], from: number, at: number): number {
  const beyond = sections.findIndex(({ at: first, counts }, index) => index >= from && at < first + counts + 1e-9);
  return startOf(sections, beyond < 0 ? sections.length - 1 : beyond, at);
}

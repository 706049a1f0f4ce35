import type { DeskRoutine } from "../../../src/build/live/desk-data.js";
import { countLength, timeOfCount } from "../../../src/hearing/song/grid.js";
import type { Landing, LandingSection } from "../../../src/hearing/song/landing.js";
import type { Grid } from "../../../src/hearing/song/types.js";
import { type Places, placed } from "./marks.js";
import { type Desk, fitFor, gridOf } from "./state.js";

/** A count of the dance in the song. */
export interface Beat {
  /** Seconds from the start of the song. */
  readonly at: number;
  /** As it is counted: 1 to 8 in most phrases. */
  readonly number: number;
  readonly accent: boolean;
}

/** The counts of the dance laid into the song, and where its sections begin. */
export interface Laid {
  readonly beats: readonly Beat[];
  /** As danced; nothing without a routine. */
  readonly sections: readonly LandingSection[];
  readonly landings: readonly Landing[];
  /** Where sections begin that are not on a count of those before them. */
  readonly places: Places;
}

const nothing: Laid = { beats: [], sections: [], landings: [], places: new Map() };

/** Without a routine: eights from the first count to the end, the 1 heavier. */
const eight = 8;

/** @param length of the song, in seconds */
export function lay(desk: Desk, routine: DeskRoutine | undefined, length: number): Laid {
  const grid = gridOf(desk);
  if (grid === undefined) return nothing;
  if (routine === undefined) return { ...nothing, beats: eights(grid, length) };
  const sections = sectionsOf(desk, routine, grid);
  const { landings, places } = placed(desk, grid, sections);
  const beats = landings.flatMap((landing, index) => {
    const until = landings[index + 1]?.begins ?? Number.POSITIVE_INFINITY;
    return beatsIn(landing, sections, routine).filter(({ at }) => at < until - 1e-6);
  });
  return { beats, sections, landings, places };
}

function eights(grid: Grid, length: number): readonly Beat[] {
  const counts = Math.max(0, Math.ceil((length - grid.firstCount) / countLength(grid)));
  return Array.from({ length: counts }, (_, count) => {
    const number = (count % eight) + 1;
    return { at: timeOfCount(grid, count), number, accent: number === 1 };
  });
}

function beatsIn(
  { section, begins }: Landing,
  sections: readonly LandingSection[],
  { music, danced }: DeskRoutine,
): readonly Beat[] {
  const countsPerMinute = sections[section]?.countsPerMinute ?? 0;
  const accents = music.accents.length === 0 ? [1] : music.accents;
  return (danced[section]?.numbers ?? []).map((number, count) => ({
    at: timeOfCount({ firstCount: begins, countsPerMinute }, count),
    number,
    accent: accents.includes(number),
  }));
}

/** A section of the file goes at its own tempo, as tapped or as written, or at the one of the section that it is the same as, or at the music's. */
export function tempoOf(desk: Desk, routine: DeskRoutine, written: number, grid: Grid): number {
  return (
    tappedTempo(desk, routine, written, grid) ??
    routine.written[written]?.countsPerMinute ??
    tempoAround(desk, routine, written, grid)
  );
}

/** The tempo of a section that says none itself. */
export function tempoAround(desk: Desk, routine: DeskRoutine, written: number, grid: Grid): number {
  const { sameAs } = routine.written[written] ?? {};
  return sameAs === undefined ? grid.countsPerMinute : tempoOf(desk, routine, sameAs, grid);
}

/**
 * What taps in a section alone say of its tempo, as its `tempo` has it: half and double time are told apart from that. Nothing where it goes at
 * that tempo anyway, as nearly as such taps can tell; the tempo around it, where it is that again.
 */
export function tappedTempo(desk: Desk, routine: DeskRoutine, written: number, grid: Grid): number | undefined {
  const fit = fitFor(desk, written);
  if (fit === undefined || "why" in fit) return undefined;
  const { factor = 1, countsPerMinute: own } = routine.written[written] ?? {};
  // A line for it is to be beyond doubt: one in twenty would be wrong else.
  const isIt = (tempo: number) => Math.abs(fit.countsPerMinute - factor * tempo) <= 2 * fit.spread;
  const around = tempoAround(desk, routine, written, grid);
  if (isIt(own ?? around)) return undefined;
  return isIt(around) ? around : Math.round((fit.countsPerMinute / factor) * 100) / 100;
}

function sectionsOf(desk: Desk, routine: DeskRoutine, grid: Grid): readonly LandingSection[] {
  const seen = new Set<number>();
  return routine.danced.map(({ written, wall, pass, numbers, seconds }) => {
    const section = routine.written[written];
    const first = !seen.has(written);
    seen.add(written);
    const times = pass === 1 ? (section?.at ?? []) : [];
    const at = times.find(({ through }) => through === wall) ?? (first ? times.find((one) => !one.through) : undefined);
    return {
      ...{ written, wall, pass },
      counts: numbers.length,
      countsPerMinute: tempoOf(desk, routine, written, grid) * (section?.factor ?? 1),
      ...(seconds !== undefined && { seconds }),
      ...(at && { at: at.seconds }),
    };
  });
}

import type { DeskRoutine } from "../../../src/build/live/desk-data.js";
import { atLines } from "../../../src/hearing/song/landing.js";
import type { Grid } from "../../../src/hearing/song/types.js";
import type { SectionFigures, SongFigures } from "../../../src/reading/song-lines.js";
import { type Laid, lay, tappedTempo, tempoAround } from "./laid.js";
import { type Desk, gridOf } from "./state.js";

/** What the file has to say that it does not say yet. */
export function figuresOf(desk: Desk, routine: DeskRoutine): SongFigures {
  const grid = gridOf(desk);
  if (grid === undefined) return {};
  const { music } = routine;
  const laid = lay(desk, routine, 0);
  const moved = music.firstCount === undefined || differs(grid.firstCount, music.firstCount);
  const opening = routine.danced.find(({ numbers }) => numbers.length > 0)?.written ?? 0;
  // Where the section that it begins with has an `at`, that says the first count too.
  const openingSays = (routine.written[opening]?.at.length ?? 0) > 0;
  const otherTempo = music.tempoIsEstimate || Math.abs(grid.countsPerMinute - music.countsPerMinute) > 0.004;
  const sections = routine.written.flatMap((_, index): readonly SectionFigures[] => {
    const opens = index === opening && openingSays;
    const place = opens ? (moved ? { at: grid.firstCount } : {}) : newAt(index, routine, laid);
    const tempo = newTempo(desk, routine, index, grid);
    const needless = [...(place.needless ?? []), ...(tempo.needless ?? [])];
    const figures = { index, ...place, ...tempo, ...(needless.length > 0 && { needless }) };
    return figures.at === undefined && figures.countsPerMinute === undefined ? [] : [figures];
  });
  return {
    ...(otherTempo && { countsPerMinute: grid.countsPerMinute }),
    ...(moved && (music.saysFirstCount || !openingSays) && { firstCount: grid.firstCount }),
    ...(sections.length > 0 && { sections }),
  };
}

/** To the millisecond, as a file has it. */
function differs(one: number, other: number): boolean {
  return Math.abs(one - other) > 0.0005;
}

/** The tempo that a section needs, where it is not the one that it has. */
function newTempo(desk: Desk, routine: DeskRoutine, index: number, grid: Grid): Partial<SectionFigures> {
  const countsPerMinute = tappedTempo(desk, routine, index, grid);
  const own = routine.written[index]?.countsPerMinute;
  if (countsPerMinute === undefined || countsPerMinute === own) return {};
  const isNeedless = own !== undefined && countsPerMinute === tempoAround(desk, routine, index, grid);
  return { countsPerMinute, ...(isNeedless && { needless: ["tempo"] }) };
}

/** The `at` that a section needs, where it is not the one that it has. */
function newAt(index: number, { written }: DeskRoutine, { sections, landings }: Laid): Partial<SectionFigures> {
  const needed = atLines(sections, landings).find((line) => line.written === index)?.at;
  const there = written[index]?.at ?? [];
  // A mark where the counts arrive says that the place in the file is wrong.
  const wrong = landings.find(({ section, mark, begins }) => {
    const { written, at } = sections[section] ?? {};
    return written === index && mark && at !== undefined && differs(at, begins);
  });
  const firstWall = sections.find((section) => section.written === index)?.wall ?? 1;
  if (needed !== undefined) return wrong === undefined && isThere(needed, there, firstWall) ? {} : { at: needed };
  if (wrong === undefined) return {};
  const wall = sections[wrong.section]?.wall ?? firstWall;
  const at = wall === firstWall ? wrong.begins : { [wall]: wrong.begins };
  return { at, ...(there.length === 1 && { needless: ["at"] }) };
}

function isThere(
  at: NonNullable<SectionFigures["at"]>,
  there: DeskRoutine["written"][number]["at"],
  firstWall: number,
): boolean {
  const wanted = typeof at === "number" ? { [firstWall]: at } : at;
  return Object.entries(wanted).every(([wall, seconds]) =>
    there.some(({ through = firstWall, seconds: has }) => through === Number(wall) && !differs(has, seconds)),
  );
}

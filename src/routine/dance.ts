import Fraction from "fraction.js";
import { adaptationGaps } from "./adaptations.js";
import { chapterProblems } from "./chapters.js";
import { checkRoutine } from "./checks/check.js";
import { beginAt, type Clock, endAt, runClock } from "./clock.js";
import { floorPath, spaceOf } from "./floor.js";
import { gearOf } from "./gear.js";
import { type VersionName, versionNames } from "./ladder.js";
import { loadOf } from "./load.js";
import { mirrorCue } from "./mirror-cue.js";
import { danceOrder, type OrderOptions, type Pass } from "./order.js";
import { otherWays } from "./others.js";
import { placeMoves, type Run } from "./placing.js";
import type { Problem } from "./problem.js";
import { collectProblems, type Problems } from "./problems.js";
import { cautionsOf, risksOf } from "./risk.js";
import type { DancedSection, Library, Move, Routine, Version } from "./routine.js";
import { eighths } from "./stance.js";
import { type StancedMove, stanceMoves, startOf } from "./stancing.js";
import type { WrittenRoutine } from "./written.js";

export interface Danced {
  /** Absent where there is an error. */
  readonly routine?: Routine;
  readonly problems: readonly Problem[];
}

/**
 * Dances a written routine through: danced order, clock, versions, stances, gear, risks, load and space.
 *
 * @returns the whole routine, perhaps with warnings and notes, or the errors that keep it from being whole
 */
export function dance(written: WrittenRoutine, library: Library, options: Pick<OrderOptions, "longest"> = {}): Danced {
  const problems = collectProblems();
  const passes = danceOrder(written, problems, options);
  if (problems.failed()) return { problems: problems.list() };
  const run = runOf(written, passes);
  const clock = runClock(written, passes, problems);
  if (problems.failed()) return { problems: problems.list() };

  const names = versionNames(written);
  const stanced = new Map(names.map((name) => [name.id, stancedMoves(run, name, library, problems)]));
  for (const name of names) adaptationGaps(name, stanced, problems);
  checkWallTurns(written, library, problems);
  checkShortened(passes, clock, stanced, written, problems);
  if (problems.failed()) return { problems: problems.list() };

  const versions = names.map((name) => computeVersion(run, clock, name, stanced.get(name.id) ?? [], library));
  const routine = assemble(written, library, run, clock, versions);
  return {
    routine,
    problems: [...problems.list(), ...chapterProblems(written.video), ...checkRoutine(written, routine, library)],
  };
}

function runOf(routine: WrittenRoutine, passes: readonly Pass[]): Run {
  const counts = passes.reduce((sum, pass) => sum + pass.counts, 0);
  return { routine, passes, phrases: passes.flatMap((pass) => pass.phrases), counts };
}

function stancedMoves(run: Run, name: VersionName, library: Library, problems: Problems): readonly StancedMove[] {
  return stanceMoves(run, name, placeMoves(run, name, problems), library.mirrorWords, problems);
}

/** The turns of one plain time through, times the walls, must make whole turns. */
function checkWallTurns(written: WrittenRoutine, library: Library, problems: Problems): void {
  const taught = versionNames(written).find(({ id }) => id === written.taught);
  if (written.walls < 2 || taught === undefined || problems.failed()) return;
  const aside = collectProblems();
  const moves = stancedMoves(runOf(written, danceOrder(written, aside, { oneTime: true })), taught, library, aside);
  const turn = eighths(moves.at(-1)?.after.facing ?? "front") - eighths(moves[0]?.before.facing ?? "front");
  if ((turn * written.walls) % 8 === 0) return;
  const from = moves[0]?.before.facing ?? "front";
  const to = moves.at(-1)?.after.facing ?? "front";
  problems.error(
    "walls",
    `${written.place}/walls`,
    `one time through goes from facing ${from} to facing ${to}, and ${written.walls} times that make no whole turns; correct a turn, or write another number of walls`,
  );
}

/** Where a section's track time cuts in early, the move before it must still have begun. */
function checkShortened(
  passes: readonly Pass[],
  clock: Clock,
  stanced: ReadonlyMap<string, readonly StancedMove[]>,
  written: WrittenRoutine,
  problems: Problems,
): void {
  for (const moves of stanced.values())
    for (const { placed } of moves) {
      const section = placed.phrase.section;
      const stretch = clock.stretches[section];
      if (stretch === undefined || beginAt(clock, section, placed.at).lt(stretch.end)) continue;
      const next = written.sections[passes[section + 1]?.written ?? -1];
      problems.error(
        "at",
        `${next?.place ?? written.place}/at`,
        `this track time comes before the move on \`${placed.on}\` at the end of the section before has begun; write a later time`,
      );
    }
}

function computeVersion(
  run: Run,
  clock: Clock,
  name: VersionName,
  stanced: readonly StancedMove[],
  library: Library,
): Version {
  const ways = otherWays(run, library.mirrorWords);
  const moves = stanced.map((one): Omit<Move, "risks"> => moveOf(one, clock, library, ways));
  const risks = risksOf(
    moves,
    stanced.map(({ danced }) => danced.risks),
  );
  const finished = moves.map((move, index): Move => ({ ...move, risks: risks[index] ?? [] }));
  const start = startOf(run.routine, name);
  const gear = gearOf(run.routine.gear, name.id, finished);
  return {
    ...name,
    gear,
    cautions: cautionsOf(finished, gear),
    load: loadOf(finished),
    space: spaceOf(floorPath(finished, library.stepLength)),
    start,
    end: finished.at(-1)?.after ?? start,
    moves: finished,
  };
}

function moveOf(
  { placed, danced, before, after }: StancedMove,
  clock: Clock,
  library: Library,
  ways: ReturnType<typeof otherWays>,
): Omit<Move, "risks"> {
  const { phrase, plain, option, leads } = placed;
  const end = placed.at.add(placed.length);
  const words = leads ? (danced.words ?? plain?.words) : danced.words;
  return {
    place: danced.place,
    section: phrase.section,
    phrase: phrase.number,
    on: placed.on,
    at: placed.at,
    length: placed.length,
    start: beginAt(clock, phrase.section, placed.at),
    end: endAt(clock, phrase.section, end),
    cue: danced.cue,
    mirroredCue: mirrorCue(danced.cue, library.mirrorWords),
    ...given("say", danced.say),
    ...given("words", words),
    hold: danced.hold,
    hit: danced.hit,
    before,
    after,
    ...given("through", danced.through),
    steps: danced.steps,
    turn: danced.turn ?? 0,
    travel: danced.travel,
    contacts: danced.contacts,
    gear: danced.gear,
    choose: danced.choose,
    ...given("note", danced.note),
    ...given("option", option?.version),
    others: ways(placed),
    allow: danced.allow,
  };
}

/** A property where there is a value for it, nothing where there is none. */
function given<Key extends string, Value>(key: Key, value: Value | undefined): { [K in Key]?: Value } {
  return value === undefined ? {} : ({ [key]: value } as { [K in Key]: Value });
}

function assemble(
  written: WrittenRoutine,
  library: Library,
  run: Run,
  clock: Clock,
  versions: readonly Version[],
): Routine {
  const { music } = written;
  const seconds = clock.stretches.at(-1)?.end ?? new Fraction(0);
  return {
    slug: written.slug,
    title: written.title,
    choreographer: written.choreographer,
    ...given("date", written.date),
    styles: written.styles,
    audience: written.audience,
    ...given("summary", written.summary),
    ...given("credit", written.credit ?? library.credit),
    music: {
      ...given("title", music.title),
      ...given("artist", music.artist),
      ...given("link", music.link),
      countsPerMinute: music.tempo,
      phrase: music.phrase,
      accents: music.accents,
      firstCount: clock.firstCount,
      countIn: music.countIn ?? Math.floor(music.phrase / 2),
      feel: music.feel,
    },
    video: written.video,
    mirrored: false,
    mirrorWords: library.mirrorWords,
    levels: written.levels,
    taught: written.taught,
    walls: written.walls,
    times: written.times,
    counts: run.counts,
    seconds,
    sections: run.passes.map((pass, index) => sectionOf(pass, index, written, clock, library)),
    versions,
    practice: library.practiceSpeeds.map((percent) => ({
      percent,
      countsPerMinute: music.tempo.mul(percent).div(100),
      seconds: seconds.mul(100).div(percent),
    })),
    prose: written.prose,
  };
}

function sectionOf(pass: Pass, index: number, written: WrittenRoutine, clock: Clock, library: Library): DancedSection {
  const section = written.sections[pass.written];
  const stretch = clock.stretches[index];
  const zero = new Fraction(0);
  return {
    name: section?.name ?? "",
    ...given("words", pass.material.words),
    ...given("sameAs", section?.sameAs),
    place: section?.place ?? written.place,
    written: pass.written,
    wall: pass.wall,
    pass: pass.pass,
    mirrored: pass.mirrored,
    counts: pass.counts,
    at: pass.at,
    start: stretch?.start ?? zero,
    end: stretch?.end ?? zero,
    countsPerMinute: stretch?.countsPerMinute ?? written.music.tempo,
    feel: pass.material.feel,
    phrases: pass.phrases.map(({ number, at, numbers, written: phrase }) => ({
      place: phrase.place,
      number,
      at,
      numbers,
      ...given("say", phrase.say && called(phrase.say, pass.mirrored, library)),
    })),
  };
}

function called(say: readonly string[], mirrored: boolean, library: Library): readonly string[] {
  return mirrored ? say.map((text) => mirrorCue({ text, marks: [] }, library.mirrorWords).text) : say;
}

import Fraction from "fraction.js";
import { adaptationGaps } from "./adaptations.js";
import { withDancedRisks } from "./alternative-risks.js";
import { alternativesOf } from "./alternatives.js";
import { callsOf, checkCalls } from "./calls.js";
import { checkRoutine } from "./checks/check.js";
import { beginAt, type Clock, endAt, practised, runClock } from "./clock.js";
import { definedOnly } from "./defined-only.js";
import { doubtsOf } from "./doubts.js";
import { floorPath, spaceOf } from "./floor.js";
import { gearOf } from "./gear.js";
import { type VersionName, versionNames } from "./ladder.js";
import { loadOf } from "./load.js";
import { mirrorCue, otherWords } from "./mirror-cue.js";
import { danceOrder, type OrderOptions, type Pass } from "./order.js";
import { placeMoves, type Run } from "./placing.js";
import type { Problem } from "./problem.js";
import { collectProblems, inGroup, type Problems } from "./problems.js";
import { cautionsOf, risksOf, saidRisks } from "./risk.js";
import type { DancedPhrase, DancedSection, Group, Library, Move, Music, Routine, Version } from "./routine.js";
import { checkSize } from "./size.js";
import { eighths } from "./stance.js";
import { type Dancer, type StancedMove, stanceMoves, startOf } from "./stancing.js";
import type { Facing } from "./vocabulary.js";
import type { WrittenGroup, WrittenRoutine } from "./written.js";

export interface Danced {
  /** Absent where there is an error. */
  readonly routine?: Routine;
  readonly problems: readonly Problem[];
}

/** Other limits than the usual ones, for measuring. */
export interface DanceLimits extends Pick<OrderOptions, "longest"> {
  /** Moves over all versions and groups. */
  readonly mostMoves?: number;
}

/**
 * Dances a written routine through: danced order, clock, versions, stances, gear, risks, load and space.
 *
 * @returns the whole routine, perhaps with warnings and notes, or the errors that keep it from being whole
 */
export function dance(written: WrittenRoutine, library: Library, options: DanceLimits = {}): Danced {
  const problems = collectProblems();
  checkPauses(written, problems);
  const passes = danceOrder(written, problems, options);
  const names = versionNames(written);
  checkSize(written, passes, names, problems, options.mostMoves);
  if (problems.failed()) return { problems: problems.list() };
  const clock = runClock(written, passes, problems);
  if (problems.failed()) return { problems: problems.list() };

  const meant = new Map(names.map(({ id }) => [id, new Map<string, Facing>()]));
  const [all, ...groups] = groupRuns(written, passes).map((dancers, index): DancedBy => {
    const found = inGroup(problems, index === 0 ? undefined : dancers.group?.name);
    const dance = (name: VersionName) => stancedMoves(dancers, name, meant.get(name.id) ?? new Map(), library, found);
    return { ...dancers, stanced: new Map(names.map((name) => [name.id, dance(name)])) };
  });
  if (all === undefined) return { problems: problems.list() };
  for (const { stanced } of [all, ...groups]) {
    for (const name of names) adaptationGaps(name, stanced, problems);
    checkShortened(passes, clock, stanced, written, problems);
  }
  checkWallTurns(written, library, problems);
  if (problems.failed()) return { problems: problems.list() };

  const versions = withDancedRisks(names.map((name) => computeVersion(name, all, groups, clock, library)));
  const routine = assemble(written, library, all.run, clock, versions);
  return {
    routine,
    problems: [...problems.list(), ...checkRoutine(written, routine, library)],
  };
}

/** A pause must be on a count that some phrase has. */
function checkPauses({ music, sections }: WrittenRoutine, problems: Problems): void {
  const phrases = sections.flatMap(({ counts = [] }) => counts);
  const most = Math.max(music.phrase, ...phrases.map(({ from = 1, length = 0 }) => from + length - 1));
  for (const count of music.pauses.filter((one) => one > most))
    problems.error(
      "pauses",
      `${music.place}/pauses`,
      `no phrase has a count ${count} to pause on; write counts from 1 to ${most}`,
    );
}

/** The run as a group dances it, or as everybody does where there are no groups. */
interface GroupRun {
  readonly group?: WrittenGroup;
  readonly run: Run;
}

interface DancedBy extends GroupRun {
  /** By version. */
  readonly stanced: ReadonlyMap<string, readonly StancedMove[]>;
}

function groupRuns(written: WrittenRoutine, passes: readonly Pass[]): readonly GroupRun[] {
  if (written.groups.length === 0) return [{ run: runOf(written, passes) }];
  return written.groups.map((group) => ({ group, run: runOf(written, passes, group.name) }));
}

function runOf(routine: WrittenRoutine, passes: readonly Pass[], group?: string): Run {
  const counts = passes.reduce((sum, pass) => sum + pass.counts, 0);
  const phrases = passes.flatMap((pass) => (group === undefined ? undefined : pass.groups.get(group)) ?? pass.phrases);
  return { routine, passes, phrases, counts };
}

function stancedMoves(
  { run, group }: GroupRun,
  version: VersionName,
  meant: Map<string, Facing>,
  library: Library,
  problems: Problems,
): readonly StancedMove[] {
  const dancer: Dancer = { version, meant, ...definedOnly<Dancer>({ group }) };
  const placed = placeMoves(run, version, problems);
  for (const one of placed) checkCalls(one, problems);
  return stanceMoves(run, dancer, placed, library.mirrorWords, problems);
}

/** The turns of one plain time through, times the walls, must make whole turns. */
function checkWallTurns(written: WrittenRoutine, library: Library, problems: Problems): void {
  const taught = versionNames(written).find(({ id }) => id === written.taught);
  if (written.walls < 2 || taught === undefined || problems.failed()) return;
  const aside = collectProblems();
  const run = runOf(written, danceOrder(written, aside, { oneTime: true }), written.groups[0]?.name);
  const moves = stancedMoves(
    { run, ...definedOnly<GroupRun>({ group: written.groups[0] }) },
    taught,
    new Map(),
    library,
    aside,
  );
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
      const times = clock.passes[section];
      if (times === undefined || beginAt(clock, section, placed.at).lt(times.end)) continue;
      const next = written.sections[passes[section + 1]?.written ?? -1];
      problems.error(
        "at",
        `${next?.place ?? written.place}/at`,
        `this track time comes before the move on \`${placed.on}\` at the end of the section before has begun; write a later time`,
      );
    }
}

function computeVersion(
  name: VersionName,
  all: DancedBy,
  others: readonly DancedBy[],
  clock: Clock,
  library: Library,
): Version {
  const own = computeGroup(name, all, clock, library);
  const groups = others.map((dancers) => computeGroup(name, dancers, clock, library));
  const moves = [own, ...groups].flatMap((group) => group.moves);
  const gear = gearOf(all.run.routine.gear, name.id, moves);
  const { load, space, start, end } = own;
  return { ...name, gear, cautions: cautionsOf(moves, gear), load, space, start, end, moves: own.moves, groups };
}

function computeGroup(name: VersionName, dancers: DancedBy, clock: Clock, library: Library): Group {
  const stanced = dancers.stanced.get(name.id) ?? [];
  const alternatives = alternativesOf(dancers.run, library.mirrorWords, dancers.group);
  const moves = stanced.map((one) => moveOf(one, clock, library, alternatives));
  const named = stanced.map(({ danced, placed }) => danced.risks ?? placed.kept);
  const risks = risksOf(moves, named);
  const met = moves.map((move, index) => ({ ...move, risks: risks[index] ?? [] }));
  const said = saidRisks(met, named);
  const finished = met.map((move, index): Move => ({ ...move, cautions: said[index] ?? [] }));
  const start = startOf(dancers.run.routine, name, dancers.group);
  return {
    name: dancers.group?.name ?? "",
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
  alternatives: ReturnType<typeof alternativesOf>,
): Omit<Move, "risks" | "cautions"> {
  const { phrase, plain, option, leads } = placed;
  const end = placed.at.add(placed.length);
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
    mirroredCue: otherWords(danced, library.mirrorWords)(danced.cue),
    hold: danced.hold,
    hit: danced.hit,
    improvised: danced.improvised,
    before,
    after,
    steps: danced.steps,
    turn: danced.turn ?? 0,
    travel: danced.travel,
    contacts: danced.contacts,
    gear: danced.gear,
    choose: danced.choose,
    alternatives: alternatives(placed),
    allow: danced.allow,
    ...definedOnly<Move>({
      say: callsOf(placed, danced),
      words: leads ? (danced.words ?? plain?.words) : danced.words,
      through: danced.through,
      note: danced.note,
      option: option?.version,
    }),
  };
}

function assemble(
  written: WrittenRoutine,
  library: Library,
  run: Run,
  clock: Clock,
  versions: readonly Version[],
): Routine {
  const { music } = written;
  const last = clock.passes.findLast(({ counts }) => counts > 0);
  const seconds = last?.end ?? new Fraction(0);
  const uncounted = clock.passes.filter(({ counts }) => counts === 0);
  const secondsAreEstimate = last !== undefined && (last.startIsEstimate || last.tempoIsEstimate);
  return {
    slug: written.slug,
    title: written.title,
    choreographer: written.choreographer,
    styles: written.styles,
    audience: written.audience,
    music: {
      countsPerMinute: music.tempo,
      tempoIsEstimate: music.tempoIsEstimate,
      phrase: music.phrase,
      accents: music.accents,
      pauses: music.pauses,
      countIn: music.countIn ?? Math.floor(music.phrase / 2),
      feel: music.feel,
      ...definedOnly<Music>({
        title: music.title,
        artist: music.artist,
        link: music.link,
        firstCount: clock.firstCount,
      }),
    },
    video: written.video,
    mirrored: false,
    mirrorWords: library.mirrorWords,
    levels: written.levels,
    taught: written.taught,
    groups: written.groups.map(({ name }) => name),
    walls: written.walls,
    times: written.times,
    restarts: written.restarts.map(({ wall, after }) => ({ wall, after })),
    counts: run.counts,
    seconds,
    secondsAreEstimate,
    sections: run.passes.map((pass, index) => sectionOf(pass, index, written, clock, library)),
    versions,
    practice: library.practiceSpeeds.map((percent) => ({
      percent,
      countsPerMinute: music.tempo.mul(percent).div(100),
      tempoIsEstimate: music.tempoIsEstimate,
      seconds: practised(uncounted, seconds, percent),
      secondsAreEstimate,
    })),
    prose: written.prose,
    draft: written.draft,
    formerly: written.formerly,
    doubts: doubtsOf(written),
    ...definedOnly<Routine>({
      date: written.date,
      summary: written.summary,
      credit: written.credit ?? library.credit,
    }),
  };
}

function sectionOf(pass: Pass, index: number, written: WrittenRoutine, clock: Clock, library: Library): DancedSection {
  const section = written.sections[pass.written];
  const times = clock.passes[index];
  const zero = new Fraction(0);
  return {
    name: section?.name ?? "",
    place: section?.place ?? written.place,
    written: pass.written,
    wall: pass.wall,
    pass: pass.pass,
    mirrored: pass.mirrored,
    tag: section?.onWalls !== undefined,
    counts: pass.counts,
    at: pass.at,
    start: times?.start ?? zero,
    end: times?.end ?? zero,
    startIsEstimate: times?.startIsEstimate === true,
    countsPerMinute: times?.countsPerMinute ?? written.music.tempo,
    tempoIsEstimate: times?.tempoIsEstimate === true,
    feel: pass.material.feel,
    improvised: pass.material.improvised,
    canon: [...pass.material.delays].map(([group, after]) => ({ group, after })),
    parts: [...pass.material.parts.keys()],
    phrases: pass.phrases.map(({ number, at, numbers, feel, echo, written: phrase }) => ({
      place: phrase.place,
      number,
      at,
      numbers,
      feel,
      echo,
      ...definedOnly<DancedPhrase>({ say: phrase.say && called(phrase.say, pass.mirrored, library) }),
    })),
    ...definedOnly<DancedSection>({
      words: pass.material.words,
      sameAs: section?.sameAs,
      seconds: pass.material.seconds,
    }),
  };
}

function called(say: readonly string[], mirrored: boolean, library: Library): readonly string[] {
  return mirrored ? say.map((text) => mirrorCue({ text, marks: [] }, library.mirrorWords).text) : say;
}

import { type Dancers, dancersOf, moveEnd } from "../../routine/chart.js";
import type { DancedSection, Move, Routine, Version } from "../../routine/routine.js";
import { type Risk, risks } from "../../routine/vocabulary.js";

/** Where in a section something is danced: on most of it, or in one of its thirds. */
export type SectionPart = "all" | "start" | "middle" | "end";

/** An option, where it is danced, and the taught moves that it stands in for. */
export interface Replacement {
  readonly part: SectionPart;
  readonly moves: readonly Move[];
  readonly instead: readonly Move[];
  readonly risks: readonly Risk[];
}

/** What a version dances its own way in a section. */
export interface OwnWay {
  readonly version: Version;
  /** Those who do, where not all dancers do. */
  readonly groups: readonly string[];
  readonly section: DancedSection;
  readonly replacements: readonly Replacement[];
}

/** What each option replaces and where, version by version in the order of the run; each once, however often it is danced. */
export function ownWays(routine: Routine): readonly OwnWay[] {
  const taught = routine.versions.find(({ id }) => id === routine.taught);
  if (taught === undefined) return [];
  const plain = dancersOf(routine, taught);
  return routine.versions.flatMap((version) => {
    if (version === taught) return [];
    const ways = dancersOf(routine, version).flatMap((own, index) => waysOf(routine, version, own, plain[index]));
    return alikeTogether(ways, routine.groups.length);
  });
}

/** Section by section, of one group. */
function waysOf(routine: Routine, version: Version, own: Dancers, taught: Dancers | undefined): readonly OwnWay[] {
  const firstIn = new Map<string, number>();
  const options = own.moves.filter(({ option, place, section }) => {
    if (option !== version.id) return false;
    if (!firstIn.has(place)) firstIn.set(place, section);
    return firstIn.get(place) === section;
  });
  return [...new Set(options.map(({ section }) => section))].flatMap((index): readonly OwnWay[] => {
    const section = routine.sections[index];
    if (section === undefined) return [];
    const here = options.filter((move) => move.section === index);
    const groups = own.group === undefined ? [] : [own.group];
    return [{ version, groups, section, replacements: replacements(here, taught?.moves ?? [], section) }];
  });
}

/** Options that stand in for the same move are one. */
function replacements(
  options: readonly Move[],
  taught: readonly Move[],
  section: DancedSection,
): readonly Replacement[] {
  const found: { moves: Move[]; instead: Move[] }[] = [];
  for (const move of options) {
    const instead = taught.filter((other) => other.at.lt(moveEnd(move)) && moveEnd(other).gt(move.at));
    const last = found.at(-1);
    if (last !== undefined && instead.some((other) => last.instead.includes(other))) {
      last.moves.push(move);
      last.instead.push(...instead.filter((other) => !last.instead.includes(other)));
    } else found.push({ moves: [move], instead });
  }
  return found.map(({ moves, instead }) => ({
    part: partOf(moves, section),
    moves,
    instead,
    risks: risks.filter((risk) => moves.some((move) => move.risks.includes(risk))),
  }));
}

function partOf(moves: readonly Move[], { at, counts }: DancedSection): SectionPart {
  const [first, last] = [moves[0], moves.at(-1)];
  if (first === undefined || last === undefined || counts === 0) return "all";
  const [from, to] = [first.at.sub(at).div(counts).valueOf(), moveEnd(last).sub(at).div(counts).valueOf()];
  if (to - from >= 2 / 3) return "all";
  const middle = (from + to) / 2;
  return middle < 1 / 3 ? "start" : middle > 2 / 3 ? "end" : "middle";
}

/** What several groups dance alike stands there once; without names where all of them do. */
function alikeTogether(ways: readonly OwnWay[], all: number): readonly OwnWay[] {
  const found = new Map<string, OwnWay>();
  for (const way of ways) {
    const cues = way.replacements.map(({ moves, instead }) => [moves, instead].map((some) => some.map(called)));
    const key = JSON.stringify([way.section.name, cues]);
    found.set(key, { ...way, groups: [...(found.get(key)?.groups ?? []), ...way.groups] });
  }
  return [...found.values()].map((way) => (way.groups.length === all ? { ...way, groups: [] } : way));
}

const called = ({ on, cue }: Move): readonly string[] => [on, cue.text];

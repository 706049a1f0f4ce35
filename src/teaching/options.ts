import Fraction from "fraction.js";
import { dancersOf } from "../routine/chart.js";
import { countSeconds } from "../routine/clock.js";
import type { DancedSection, Move, Routine, Version } from "../routine/routine.js";
import { type Risk, risks } from "../routine/vocabulary.js";
import { isNeverSlowed } from "./never-slowed.js";
import type { ClassSettings } from "./settings.js";

/** What the dancers of other versions dance in a chunk in place of the class's moves. */
export interface ShownOption {
  /** Those who dance the same. */
  readonly versions: readonly string[];
  /** The groups that dance it, where not all do. */
  readonly groups: readonly string[];
  readonly moves: readonly Move[];
  readonly risks: readonly Risk[];
}

/** Some phrases of a section. */
interface Phrases {
  readonly section: DancedSection;
  readonly sectionIndex: number;
  readonly phrases: readonly [from: number, to: number];
  /** Seconds at full tempo, and of the count-in. */
  readonly seconds: Fraction;
  readonly countIn: Fraction;
}

/** More moves than this are no longer shown one by one: the chunk is danced in that version, once. */
const fewMoves = 4;

/** Whether so many moves are another that the chunk is danced as a whole. */
export function isShownWhole({ moves }: Pick<ShownOption, "moves">): boolean {
  return moves.length > fewMoves;
}

/** The other versions' ways to fill a chunk's counts, of a class that dances a level; one that dances an adaptation has no others. */
export function optionsBy(routine: Routine, taught: Version): (chunk: Phrases) => readonly ShownOption[] {
  if (taught.kind === "adaptation") return () => [];
  const own = new Set(dancersOf(routine, taught).flatMap(({ moves }) => moves.map(key)));
  const others = routine.versions
    .filter((version) => version !== taught)
    .map((version) => ({
      id: version.id,
      dancers: dancersOf(routine, version).map(({ group, moves }) => ({
        group,
        moves: moves.filter((move) => !move.hold && !own.has(key(move))),
      })),
    }));
  return (chunk) => {
    const options = new Map<string, ShownOption>();
    for (const { id, dancers } of others) {
      const here = dancers.map(({ group, moves }) => ({ group, moves: moves.filter((move) => isIn(chunk, move)) }));
      const those = here.filter(({ moves }) => moves.length > 0);
      const moves = [...new Map(those.flatMap((one) => one.moves).map((move) => [key(move), move])).values()];
      if (moves.length === 0) continue;
      const groups = those.length < dancers.length ? those.flatMap(({ group }) => group ?? []) : [];
      const same = JSON.stringify([groups, moves.map(key)]);
      const met = risks.filter((risk) => moves.some((move) => move.risks.includes(risk)));
      options.set(same, { versions: [...(options.get(same)?.versions ?? []), id], groups, moves, risks: met });
    }
    return [...options.values()];
  };
}

function key({ place, at, cue }: Move): string {
  return `${place} ${at.toFraction()} ${cue.text}`;
}

function isIn({ sectionIndex, phrases: [from, to] }: Phrases, { section, phrase }: Move): boolean {
  return section === sectionIndex && phrase >= from && phrase <= to;
}

/** Seconds of showing options: each move slowly and explained, or the chunk in that version; what is never slowed at full tempo. */
export function optionsSeconds(options: readonly ShownOption[], chunk: Phrases, settings: ClassSettings): number {
  return options.reduce((sum, option) => {
    if (isShownWhole(option)) return sum + chunk.countIn.add(chunk.seconds).valueOf() + settings.explain;
    const slowly = option.moves.filter((move) => !isNeverSlowed(move));
    const counts = (moves: readonly Move[]) => moves.reduce((all, { length }) => all.add(length), new Fraction(0));
    const count = countSeconds(chunk.section.countsPerMinute);
    const danced = count.mul(counts(slowly)).mul(100).div(settings.markSpeed);
    const fast = count.mul(counts(option.moves).sub(counts(slowly)));
    return sum + danced.add(fast).valueOf() + settings.explain * option.moves.length;
  }, 0);
}

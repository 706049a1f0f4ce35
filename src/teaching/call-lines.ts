import { dancersOf } from "../routine/chart.js";
import type { Move } from "../routine/routine.js";
import { type Risk, risks } from "../routine/vocabulary.js";
import { type Load, loadOf } from "./load.js";
import type { Chunk } from "./material.js";
import { isShownWhole } from "./options.js";

/** A move as it is called: on its counts, its cue, or in place of that what its author calls. */
export interface CalledMove {
  /** Of its section, from 1. */
  readonly phrase: number;
  readonly on: string;
  /** How many counts it lasts. */
  readonly length: number;
  /** The section that leads into the one that is taught, where it is danced in that. */
  readonly pickUp?: string;
  readonly cue: string;
  readonly say?: readonly string[];
  readonly improvised: boolean;
}

/** What is called to one group, or to everybody where all dance the same. */
export interface Calls {
  readonly group?: string;
  readonly moves: readonly CalledMove[];
}

/** What a version dances in a chunk in place of the taught level's moves. */
export interface ShownOption {
  readonly version: string;
  /** Those who dance it, where not all do. */
  readonly groups: readonly string[];
  readonly moves: readonly CalledMove[];
  /** It has so many moves that the chunk is danced in that version. */
  readonly whole: boolean;
  readonly load: Load;
  readonly cautions: readonly Risk[];
}

/** What is called in a chunk, in order, to each group where groups differ; holds that nobody wrote left out. */
export function callsIn({ dancers, routine, pickUp }: Chunk): readonly Calls[] {
  const leads = ({ section }: Move) => pickUp !== undefined && routine.sections[section] === pickUp;
  const all = dancers.map(({ group, taught }) => ({
    ...(group !== undefined && { group }),
    // What leads in comes first, wherever it was found.
    moves: taught
      .toSorted((one, other) => one.at.compare(other.at))
      .map((move) => ({ ...called(move), ...(leads(move) && { pickUp: pickUp?.name ?? "" }) })),
  }));
  const [first, ...others] = all;
  if (first === undefined) return [];
  return others.every(({ moves }) => same(moves, first.moves)) ? [{ moves: first.moves }] : all;
}

/** The other versions' ways to fill a chunk's counts, each once however many versions and groups dance it. */
export function optionsIn(chunk: Chunk): readonly ShownOption[] {
  const found: { version: string; groups: string[]; moves: readonly Move[] }[] = [];
  for (const [version, group, moves] of optionMoves(chunk)) {
    const alike = found.find((one) => one.version === version && same(one.moves.map(called), moves.map(called)));
    if (alike === undefined) found.push({ version, groups: [group], moves });
    else if (!alike.groups.includes(group)) alike.groups.push(group);
  }
  const all = Math.max(1, chunk.routine.groups.length);
  return found.map(({ version, groups, moves }) => shown(version, groups.length < all ? groups : [], moves));
}

/** The moves of each option and of each group that dances it; the group's name is empty where all dance the same. */
function optionMoves({ routine, sectionIndex, phrases: [from, to] }: Chunk) {
  const options = new Map<string, [version: string, group: string, moves: Map<string, Move>]>();
  for (const version of routine.versions)
    for (const { group = "", moves } of dancersOf(routine, version))
      for (const move of moves) {
        const { option, section, phrase, at, place } = move;
        if (option === undefined || section !== sectionIndex || phrase < from || phrase > to) continue;
        const entry = options.get(`${option}\n${group}`) ?? [option, group, new Map()];
        entry[2].set(`${at.toFraction()} ${place}`, move);
        options.set(`${option}\n${group}`, entry);
      }
  return [...options.values()].map(([version, group, moves]) => [version, group, [...moves.values()]] as const);
}

function shown(version: string, groups: readonly string[], moves: readonly Move[]): ShownOption {
  return {
    ...{ version, groups, whole: isShownWhole({ moves }) },
    moves: moves.map(called),
    load: loadOf(moves),
    cautions: risks.filter((risk) => moves.some((move) => move.risks.includes(risk))),
  };
}

/** What is called on a move. */
export function called({ phrase, on, length, cue, say, improvised }: Move): CalledMove {
  const calls = say?.flatMap(({ cue: { text } }) => (text === "" ? [] : [text]));
  return { phrase, on, length: length.valueOf(), cue: cue.text, ...(calls && { say: calls }), improvised };
}

function same(one: readonly CalledMove[], other: readonly CalledMove[]): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

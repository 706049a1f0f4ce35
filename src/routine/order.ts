import { heldAtEnd } from "./held-at-end.js";
import { type Material, type MaterialPhrase, materials } from "./material.js";
import { phraseNumbers } from "./phrases.js";
import type { Problems } from "./problems.js";
import type { Feel } from "./vocabulary.js";
import type { WrittenPhrase, WrittenRoutine } from "./written.js";

/** One pass of a section as it is danced, before it has a clock. */
export interface Pass {
  /** Index of the section in the file. */
  readonly written: number;
  readonly material: Material;
  /** Which time through, from 1. */
  readonly wall: number;
  /** Which of its repeats, from 1. */
  readonly pass: number;
  readonly mirrored: boolean;
  /** Counts from the routine's first count. */
  readonly at: number;
  readonly counts: number;
  /** What is counted, and what every group dances that has nothing of its own. */
  readonly phrases: readonly PassPhrase[];
  /** What groups dance that begin later or have a part of their own. */
  readonly groups: ReadonlyMap<string, readonly PassPhrase[]>;
}

export interface PassPhrase {
  readonly written: WrittenPhrase;
  readonly origin: string;
  /** A group's own counts. */
  readonly own: boolean;
  /** Index of its pass. */
  readonly section: number;
  /** From 1 within the section. */
  readonly number: number;
  readonly at: number;
  /** The numbers counted; fewer than written where a restart breaks the phrase off. */
  readonly numbers: readonly number[];
  /** How its counts are divided. */
  readonly feel: Feel;
  /** True where a restart breaks it off. */
  readonly broken: boolean;
  /** Counts that only groups in canon still dance. */
  readonly echo: boolean;
}

/** The longest run that is computed, in counts: hours of dancing. */
export const longestRun = 50_000;

export interface OrderOptions {
  /** One plain time through: no tag, no restart. */
  readonly oneTime?: boolean;
  readonly longest?: number;
}

/**
 * The passes in danced order: times through, sections, repeats; tags on their walls only, restarts breaking a time off.
 * What can't be danced is a problem, and the order then stops where it is.
 */
export function danceOrder(routine: WrittenRoutine, problems: Problems, options: OrderOptions = {}): readonly Pass[] {
  const found = materials(routine, problems);
  const counted = found.map((material, index) => material && countMaterial(routine, material, index, problems));
  if (problems.failed()) return [];
  if (options.oneTime !== true) checkWalls(routine, problems);
  if (found.every((material) => material?.seconds !== undefined))
    problems.error(
      "no-counts",
      `${routine.place}/sections`,
      "no section has counts, so there is nothing to dance; give at least one of them `counts:` in place of `seconds:`",
    );

  const passes: Pass[] = [];
  let at = 0;
  const times = options.oneTime === true ? 1 : routine.times;
  for (let wall = 1; wall <= times; wall++) {
    const restart = options.oneTime === true ? undefined : routine.restarts.find((one) => one.wall === wall);
    const stop = restart === undefined ? Number.POSITIVE_INFINITY : at + restart.after;
    for (const [index, section] of routine.sections.entries()) {
      const [material, numbers] = [found[index], counted[index]];
      if (material === undefined || numbers === undefined) continue;
      if (section.onWalls !== undefined && (options.oneTime === true || !section.onWalls.includes(wall))) continue;
      for (let pass = 1; pass <= section.repeat && at < stop; pass++) {
        const mirrored = section.mirrored === "always" || (section.mirrored === "alternate" && pass % 2 === 0);
        const phrases = passPhrases(numbers.all, passes.length, material.feel, at, stop);
        const counts = phrases.reduce((sum, phrase) => sum + phrase.numbers.length, 0);
        const groups = new Map(
          [...numbers.groups].map(([group, { after, phrases: own }]) => [
            group,
            passPhrases(own, passes.length, material.feel, at + after, Math.min(stop, at + counts)),
          ]),
        );
        passes.push({ written: index, material, wall, pass, mirrored, at, counts, phrases, groups });
        at += counts;
        if (Math.max(at, passes.length) > (options.longest ?? longestRun)) {
          problems.error(
            "too-long",
            section.place,
            `one run is longer than ${options.longest ?? longestRun} counts here; lower \`repeat\`, \`times\` or \`walls\``,
          );
          return passes;
        }
      }
    }
    if (restart !== undefined && at < stop)
      problems.error(
        "restart",
        restart.place,
        `time ${wall} has only ${at - (stop - restart.after)} counts, so it can't be broken off after ${restart.after}; write a smaller \`after\``,
      );
  }
  return passes;
}

/** A phrase of the file with the numbers that it counts. */
interface Counted extends MaterialPhrase {
  readonly numbers: readonly number[];
  readonly echo: boolean;
}

interface CountedMaterial {
  readonly all: readonly Counted[];
  readonly groups: ReadonlyMap<string, { readonly after: number; readonly phrases: readonly Counted[] }>;
}

/**
 * A section's phrases with their numbers: the counts written, then as many more as its latest group begins later and dances.
 * Nobody waits for a group that only holds: its holds at the end are cut.
 */
function countMaterial(
  routine: WrittenRoutine,
  material: Material,
  index: number,
  problems: Problems,
): CountedMaterial {
  const place = routine.sections[index]?.place ?? routine.place;
  const written = countPhrases(routine, material.phrases, problems);
  if (written.length === 0 && material.seconds === undefined)
    problems.error(
      "no-counts",
      place,
      "this section has no counts; write `counts:` with one `- ` entry a phrase, or `same-as:` and another section's name",
    );
  checkGroups(routine, material, place, problems);
  const groups = new Map(
    [...new Set([...material.delays.keys(), ...material.parts.keys()])].map((group) => {
      const part = material.parts.get(group);
      const phrases = part === undefined ? written : countPhrases(routine, part, problems);
      if (sizeOf(phrases) !== sizeOf(written))
        problems.error(
          "parts",
          `${place}/parts/${group}`,
          `${group} has ${sizeOf(phrases)} counts here, the others ${sizeOf(written)}; make them the same, with \`hold\` where ${group} waits`,
        );
      return [group, { after: material.delays.get(group) ?? 0, phrases }] as const;
    }),
  );
  const longer = [...groups.values()].map(({ after, phrases }) => after - heldAtEnd(phrases, material.feel));
  const more = Math.max(0, ...longer);
  const echoes = echoPhrases(routine, `${place}/canon`, String(index), more, written.at(-1)?.numbers.at(-1) ?? 0);
  return { all: [...written, ...echoes], groups };
}

/** The counts in which only later groups still dance; they go on from the last count written. */
function echoPhrases(
  routine: WrittenRoutine,
  place: string,
  origin: string,
  latest: number,
  last: number,
): readonly Counted[] {
  const { phrase } = routine.music;
  const echoes: Counted[] = [];
  for (let left = latest, from = (last % phrase) + 1; left > 0; from = 1) {
    const length = Math.min(left, phrase - from + 1);
    const written = { place, from, length, moves: [], options: [] };
    echoes.push({ written, origin, own: false, numbers: phraseNumbers(written, phrase), echo: true });
    left -= length;
  }
  return echoes;
}

/** Only groups that the routine names can be in canon or have a part, and the first of them sets the counts. */
function checkGroups(routine: WrittenRoutine, material: Material, place: string, problems: Problems): void {
  const names = routine.groups.map(({ name }) => name);
  for (const [key, groups] of [
    ["canon", material.delays],
    ["parts", material.parts],
  ] as const)
    for (const group of groups.keys()) {
      const at = `${place}/${key}/${group}`;
      if (!names.includes(group))
        problems.error(
          "groups",
          at,
          names.length === 0
            ? `no group is called \`${group}\`; name the groups at the top of the file, such as \`groups: [Ebb, ${group}]\``
            : `no group is called \`${group}\`; the groups are ${names.map((name) => `\`${name}\``).join(", ")}`,
        );
      else if (group === names[0] && key === "parts")
        problems.error(
          "groups",
          at,
          `\`${group}\` is the first group and dances \`counts\`; write the others under \`parts\``,
        );
    }
}

function sizeOf(phrases: readonly Counted[]): number {
  return phrases.reduce((sum, { numbers }) => sum + numbers.length, 0);
}

function countPhrases(
  routine: WrittenRoutine,
  phrases: readonly MaterialPhrase[],
  problems: Problems,
): readonly Counted[] {
  return phrases.map((phrase) => {
    const numbers = phraseNumbers(phrase.written, routine.music.phrase);
    if (numbers.length === 0)
      problems.error(
        "from",
        `${phrase.written.place}/from`,
        `the phrase has ${routine.music.phrase} counts, so it can't begin on ${phrase.written.from}; write a count from 1 to ${routine.music.phrase}, or give the phrase a \`length\``,
      );
    return { ...phrase, numbers, echo: false };
  });
}

function passPhrases(
  counted: readonly Counted[],
  section: number,
  sectionFeel: Feel,
  start: number,
  stop: number,
): readonly PassPhrase[] {
  const phrases: PassPhrase[] = [];
  let at = start;
  for (const [index, { numbers: whole, ...phrase }] of counted.entries()) {
    const numbers = at + whole.length > stop ? whole.slice(0, Math.max(stop - at, 0)) : whole;
    if (numbers.length === 0) break;
    const [feel, broken] = [phrase.written.feel ?? sectionFeel, numbers.length < whole.length];
    phrases.push({ ...phrase, section, number: index + 1, at, numbers, feel, broken });
    at += numbers.length;
  }
  return phrases;
}

function checkWalls(routine: WrittenRoutine, problems: Problems): void {
  const beyond = (wall: number) => wall > routine.times;
  const times = routine.times === 1 ? "danced once" : `danced ${routine.times} times through`;
  for (const section of routine.sections)
    for (const wall of section.onWalls?.filter(beyond) ?? [])
      problems.error("on-walls", `${section.place}/on-walls`, `the routine is ${times}, so there is no time ${wall}`);
  for (const restart of routine.restarts)
    if (beyond(restart.wall))
      problems.error(
        "restart",
        restart.place,
        `the routine is ${times}, so there is no time ${restart.wall} to break off`,
      );
  for (const section of routine.sections)
    for (const { time, place } of section.at)
      if (time !== undefined && (beyond(time) || section.onWalls?.includes(time) === false))
        problems.error("at", place, `\`${section.name}\` is not danced on time ${time}; take this \`at\` out`);
}

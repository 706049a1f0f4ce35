import { type Material, materials } from "./material.js";
import { phraseNumbers } from "./phrases.js";
import type { Problems } from "./problems.js";
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
  readonly phrases: readonly PassPhrase[];
}

export interface PassPhrase {
  readonly written: WrittenPhrase;
  readonly origin: number;
  /** Index of its pass. */
  readonly section: number;
  /** From 1 within the section. */
  readonly number: number;
  readonly at: number;
  /** The numbers counted; fewer than written where a restart breaks the phrase off. */
  readonly numbers: readonly number[];
  /** True where a restart breaks it off. */
  readonly broken: boolean;
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
  const lengths = found.map((material, index) => material && writtenPhrases(routine, material, index, problems));
  if (problems.failed()) return [];
  if (options.oneTime !== true) checkWalls(routine, problems);

  const passes: Pass[] = [];
  let at = 0;
  const times = options.oneTime === true ? 1 : routine.times;
  for (let wall = 1; wall <= times; wall++) {
    const restart = options.oneTime === true ? undefined : routine.restarts.find((one) => one.wall === wall);
    const stop = restart === undefined ? Number.POSITIVE_INFINITY : at + restart.after;
    for (const [index, section] of routine.sections.entries()) {
      const [material, numbers] = [found[index], lengths[index]];
      if (material === undefined || numbers === undefined) continue;
      if (section.onWalls !== undefined && (options.oneTime === true || !section.onWalls.includes(wall))) continue;
      for (let pass = 1; pass <= section.repeat && at < stop; pass++) {
        const mirrored = section.mirrored === "always" || (section.mirrored === "alternate" && pass % 2 === 0);
        const phrases = passPhrases(material, numbers, passes.length, at, stop);
        const counts = phrases.reduce((sum, phrase) => sum + phrase.numbers.length, 0);
        passes.push({ written: index, material, wall, pass, mirrored, at, counts, phrases });
        at += counts;
        if (at > (options.longest ?? longestRun)) {
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

function writtenPhrases(routine: WrittenRoutine, material: Material, index: number, problems: Problems) {
  const numbers = material.phrases.map((phrase) => {
    const counted = phraseNumbers(phrase.written, routine.music.phrase);
    if (counted.length === 0)
      problems.error(
        "from",
        `${phrase.written.place}/from`,
        `the phrase has ${routine.music.phrase} counts, so it can't begin on ${phrase.written.from}; write a count from 1 to ${routine.music.phrase}, or give the phrase a \`length\``,
      );
    return counted;
  });
  if (numbers.length === 0)
    problems.error(
      "no-counts",
      routine.sections[index]?.place ?? routine.place,
      "this section has no counts; write `counts:` with one `- ` entry a phrase, or `same-as:` and another section's name",
    );
  return numbers;
}

function passPhrases(
  material: Material,
  numbers: readonly (readonly number[])[],
  section: number,
  start: number,
  stop: number,
): readonly PassPhrase[] {
  const phrases: PassPhrase[] = [];
  let at = start;
  for (const [index, { written, origin }] of material.phrases.entries()) {
    const whole = numbers[index] ?? [];
    const counted = at + whole.length > stop ? whole.slice(0, stop - at) : whole;
    if (counted.length === 0) break;
    const broken = counted.length < whole.length;
    phrases.push({ written, origin, section, number: index + 1, at, numbers: counted, broken });
    at += counted.length;
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

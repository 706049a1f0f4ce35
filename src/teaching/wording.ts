import type { DividedClass, Fit, SectionEnd } from "./class-plan.js";
import type { LimitOutcome } from "./ease.js";
import type { FrameKind } from "./kinds.js";
import { type LevelLoads, type Load, type LoadPart, loadParts } from "./load.js";
import type { Chunk, Material, Part } from "./material.js";
import type { Step } from "./steps.js";

export interface Words {
  readonly label: string;
  readonly instruction: string;
}

/* Names of what is danced */

/** "Harbour wall (other side), eights 1–2" */
export function chunkName(chunk: Chunk): string {
  const [from, to] = chunk.phrases;
  const name = sectionName(chunk);
  if (from === 1 && to === chunk.section.phrases.length) return name;
  const unit = chunk.routine.music.phrase === 8 ? "eight" : "phrase";
  return from === to ? `${name}, ${unit} ${from}` : `${name}, ${unit}s ${from}–${to}`;
}

/** A section's name; on the other side it says so where both sides are danced under this name. */
export function sectionName({ routine, section }: Pick<Part, "routine" | "section">): string {
  const both = routine.sections.some(({ name, mirrored }) => name === section.name && mirrored !== section.mirrored);
  return both && section.mirrored ? `${section.name} (other side)` : section.name;
}

/* Activities */

const times = ["no times", "once", "twice"];
export const often = (runs: number) => times[runs] ?? `${runs} times`;

/** What a step is called and what to do in it. `tempo` is counts a minute at its speed, where there is one tempo. */
export function stepWords(
  step: Step,
  runs: number,
  material: Material,
  tempo: number | undefined,
  groups: number,
): Words {
  const part = material.parts[step.part];
  const names = step.chunks.flatMap((index) => material.chunks[index] ?? []).map(chunkName);
  const what = names.at(-1) ?? "";
  const title = part?.routine.title ?? "";
  const until = part && !part.last ? `${title}, as far as the end of ${sectionName(part)}` : title;
  const at = `${step.speed === 100 ? "full tempo" : `${step.speed}%`}${tempo === undefined ? "" : ` (${tempo} counts a minute)`}`;
  const r = often(runs);
  switch (step.kind) {
    case "show":
      return { label: `Show: ${what}`, instruction: `Dance it ${r} at ${at}, counting aloud; the class watches.` };
    case "mark":
      return { label: `Mark: ${what}`, instruction: `Explain it move by move, then walk it ${r} at ${at}.` };
    case "detail":
      return { label: `Hard moves: ${what}`, instruction: `Each on its own, ${r} at ${at}: ${hardMoves(step)}.` };
    case "drill":
      return { label: `Drill: ${what}`, instruction: `Dance it ${r} on the counts at ${at}.` };
    case "link":
      return { label: `Link: ${names[0]} into ${what}`, instruction: `Dance both without a stop, ${r} at ${at}.` };
    case "from-the-top":
      return { label: `From the top: ${until}`, instruction: `All of it so far on the counts, ${r} at ${at}.` };
    case "run-through":
      return { label: `Run-through: ${until}`, instruction: `Dance it ${r} with the song, whatever happens.` };
    case "away-from-mirror":
      return {
        label: `Away from the mirror: ${until}`,
        instruction: `Turn the room round and dance it ${r} at ${at}.`,
      };
    case "mirrored":
      return { label: `Other side: ${until}`, instruction: `Exchange left and right and dance it ${r} at ${at}.` };
    case "groups":
      return {
        label: `In groups: ${until}`,
        instruction: `${groups} groups: each dances ${r} with the song while the others watch.`,
      };
  }
}

/** What a step's block is called: a chunk, or a routine that is put together. */
export function blockName(step: Step, material: Material): string {
  const part = material.parts[step.part];
  const title = part?.routine.title ?? "";
  const chunk = material.chunks[step.chunks.at(-1) ?? -1];
  switch (step.kind) {
    case "from-the-top":
      return `${title}, from the top`;
    case "run-through":
    case "away-from-mirror":
    case "mirrored":
    case "groups":
      return `${title}, to dance`;
    default:
      return chunk ? `${title}: ${chunkName(chunk)}` : title;
  }
}

function hardMoves(step: Step): string {
  return step.moves.map(({ move }) => `“${move.cue.text}” (${move.on})`).join(", ");
}

export function frameWords(kind: FrameKind, seconds: number, load: Load): Words {
  const used = loadParts.filter((part) => load[part] && part !== "inversions").map(partName);
  const parts = used.length === 0 ? "the whole body" : `the whole body, above all ${list(used)}`;
  switch (kind) {
    case "warm-up":
      return { label: "Warm-up", instruction: `Warm ${parts}.` };
    case "water":
      return { label: "Water", instruction: "Drink, rest, ask." };
    case "free-practice":
      return {
        label: "Free practice",
        instruction:
          seconds < 60 ? "Time for a question." : "Each repeats what they like; go round and answer questions.",
      };
    case "cool-down":
      return { label: "Cool-down", instruction: `Come to rest and ease ${parts}.` };
  }
}

/** Stands behind an instruction where runs were swapped. */
export function easierWords(runs: number, of: number, version: string): string {
  const which = runs < of ? `${runs} of the ${of} runs` : of === 1 ? "This run" : `All ${of} runs`;
  return `${which} in the level ${version} option, for the limit's sake.`;
}

/* Sentences about the whole plan */

export function fitWords(fit: Fit, minutes: number, freePractice: number): readonly string[] {
  const has = `there ${are(fit.available)} ${clock(fit.available)} for teaching`;
  if (fit.fits) {
    const spent = fit.available - fit.least - freePractice;
    const rest = freePractice > 0 ? ` ${clock(freePractice)} is left as free practice.` : "";
    return [
      `Everything fits: the least that teaches it takes ${clock(fit.least)}, and ${has}.`,
      `${clock(spent)} more goes into further runs, the densest chunks and whole runs first.${rest}`,
      ...(freePractice > 600 ? ["There is room for more: another section, another routine, or a shorter class."] : []),
    ];
  }
  const reach = fit.upTo
    ? `It fits as far as the end of ${endName(fit.upTo)}.`
    : "Not even the first section fits whole.";
  return [
    `Not everything fits: the least takes ${clock(fit.least)}, and ${has}, ${clock(fit.short)} too few. ${reach}`,
    ...fit.divisions.map(
      ({ classes }) => `Over ${numberName(classes.length)} classes of ${minutes} minutes: ${shareWords(classes)}.`,
    ),
    `One class would need ${fit.minutesNeeded} minutes.`,
  ];
}

function shareWords(classes: readonly DividedClass[]): string {
  return classes
    .map(({ ends, spare }, index) => `class ${index + 1} ends with ${endName(ends)} (${clock(spare)} to spare)`)
    .join("; ");
}

export function endName({ title, section }: SectionEnd): string {
  return `“${section}” in ${title}`;
}

/** How often the body is asked; nothing for a class that never asks it. No figure here is called safe or unsafe. */
export function loadWords(load: LevelLoads, level: string): readonly string[] {
  const [taught, easiest] = [tally(load.taught), tally(load.easiest)];
  if (taught === easiest)
    return taught === "" ? [] : [`Times with weight or impact, at level ${level} as at the easiest: ${taught}.`];
  return [`Times with weight or impact: ${taught || "none"} at level ${level}; ${easiest || "none"} at the easiest.`];
}

/** "knees 12, hands 1, upside down 2" */
function tally(load: Load): string {
  const named = loadParts.filter((part) => load[part]);
  return named.map((part) => `${part === "inversions" ? "upside down" : part} ${load[part]}`).join(", ");
}

export function limitWords(outcome: LimitOutcome, level: string): string {
  const { part, limit, before, after, kept } = outcome;
  const own = `${partName(part)}: the library's own limit is ${limit} a class`;
  if (before <= limit) return sentence(`${own}, and the plan has ${before}.`);
  if (kept)
    return sentence(
      `${own}; ${before} at level ${level}, brought to ${after} by dancing marked runs in the easier option.`,
    );
  return sentence(
    `${own}, and it is not kept: ${after} remain after every run that may change has gone to the easier option. ` +
      "Each chunk marked once and danced once at full tempo, and one run-through, stay at the level taught. " +
      "Teach an easier level, or less.",
  );
}

export function partName(part: LoadPart): string {
  return part === "inversions" ? "upside down" : `the ${part}`;
}

const numberName = (number: number) => ({ 2: "two", 3: "three" })[number] ?? String(number);
const sentence = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
const are = (seconds: number) => (Math.floor(seconds / 60) === 1 ? "is" : "are");

export function list(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

/** "12 min 5 s" */
export function clock(seconds: number): string {
  const [minutes, rest] = [Math.floor(seconds / 60), seconds % 60];
  return [minutes > 0 && `${minutes} min`, (rest > 0 || minutes === 0) && `${rest} s`].filter(Boolean).join(" ");
}

import type { DancedName, SectionName } from "../../routine/sheet.js";
import type { Contact } from "../../routine/vocabulary.js";
import { capital, list, often } from "./language.js";
import { routine } from "./routine.js";
import { versions } from "./versions.js";

/** The end of a section of a routine. */
export interface SectionEnd extends SectionName {
  readonly title: string;
}

/** A part of the body that is loaded, or being upside down. */
export type LoadPart = Contact | "inversions";
export type Load = Readonly<Partial<Record<LoadPart, number>>>;

/** What the dancers of a group meet in a class. */
export interface GroupFigures {
  readonly group: string;
  /** Of the routine. */
  readonly title: string;
  readonly taught: Load;
  readonly easiest: Load;
}

/** What is said of a danced activity. */
export interface Danced {
  /** All that it dances, in order. */
  readonly names: readonly DancedName[];
  /** The routine's title. */
  readonly title: string;
  /** Where it goes only as far as the end of a section. */
  readonly until?: SectionEnd;
  /** Per cent of the tempo. */
  readonly speed: number;
  /** Counts a minute at that speed, where there is one tempo. */
  readonly tempo?: string;
  readonly runs: number;
  /** The dancers' own. */
  readonly improvised: boolean;
  readonly moves: readonly { readonly cue: string; readonly on: string; readonly groups?: readonly string[] }[];
  /** Groups that the class is divided into. */
  readonly groups: number;
}

/** The level that a class asks for. */
export interface PlannedLevel {
  readonly level: string;
  /** The versions that it dances, each once, where no routine of it has an easier one. */
  readonly easiest: readonly string[] | undefined;
}

export interface Said {
  readonly label: string;
  readonly instruction: string;
}

const inWords = (number: number): string => ["", "", "two", "three"][number] || String(number);
const sectionName = ({ section, otherSide }: SectionName): string => (otherSide ? `${section} (other side)` : section);
const endName = (end: SectionEnd): string => `“${sectionName(end)}” in ${end.title}`;
const partName = (part: LoadPart): string => (part === "inversions" ? "upside down" : `the ${part}`);

/** "12 min 5 s" */
function span(seconds: number): string {
  const [minutes, rest] = [Math.floor(seconds / 60), seconds % 60];
  return [minutes > 0 && `${minutes} min`, (rest > 0 || minutes === 0) && `${rest} s`].filter(Boolean).join(" ");
}

/** "Harbour wall (other side), eights 1–2" */
function danced(name: DancedName): string {
  const [from, to] = name.phrases ?? [];
  if (from === undefined || to === undefined) return sectionName(name);
  const unit = name.phrase === 8 ? "eight" : "phrase";
  return from === to ? `${sectionName(name)}, ${unit} ${from}` : `${sectionName(name)}, ${unit}s ${from}–${to}`;
}

const what = ({ names: [...names] }: Danced): string => names.slice(-1).map(danced).join("");
const until = ({ title, until: end }: Danced): string =>
  end === undefined ? title : `${title}, as far as the end of ${sectionName(end)}`;
const at = ({ speed, tempo }: Danced): string =>
  `${speed === 100 ? "full tempo" : `${speed}%`}${tempo === undefined ? "" : ` (${tempo} counts a minute)`}`;

/** The whole body, and what of it this class uses most. */
function parts(used: readonly LoadPart[]): string {
  const named = used.filter((part) => part !== "inversions").map(partName);
  return named.length === 0 ? "the whole body" : `the whole body, above all ${list(named)}`;
}

/** "knees 12, hands 1, upside down 2" */
const tally = (load: Load): string =>
  Object.entries(load)
    .map(([part, times]) => `${part === "inversions" ? "upside down" : part} ${times}`)
    .join(", ");

/** "the moves that load the knees" */
const loading = (part: LoadPart): string =>
  part === "inversions" ? "the moves upside down" : `the moves that load ${partName(part)}`;

const noneEasier = ([only, ...others]: readonly string[]): string =>
  only === undefined || others.length > 0 ? "No easier level is written" : `${versions.name(only)} is the easiest`;

const { contacts } = routine;

/** A class plan: its activities, and what is said about the whole of it. */
export const plan = {
  span,
  danced,
  endName,
  /** What each kind of activity is called, and what to do in it. */
  activities: {
    show: (one: Danced): Said => ({
      label: `Show: ${what(one)}${one.improvised ? " (theirs)" : ""}`,
      instruction: `${one.improvised ? "Say what they may dance there; it is theirs, and not drilled. " : ""}Dance it ${often(one.runs)} at ${at(one)}, counting aloud; the class watches.`,
    }),
    mark: (one: Danced): Said => ({
      label: `Mark: ${what(one)}`,
      instruction: `Explain it move by move, then walk it ${often(one.runs)} at ${at(one)}.`,
    }),
    detail: (one: Danced): Said => ({
      label: `Hard moves: ${what(one)}`,
      instruction: `Each on its own, ${often(one.runs)} at ${at(one)}: ${one.moves.map(({ cue, on, groups = [] }) => `“${cue}” (${[...groups, on].join(", ")})`).join(", ")}.`,
    }),
    drill: (one: Danced): Said => ({
      label: `Drill: ${what(one)}`,
      instruction: `Dance it ${often(one.runs)} on the counts at ${at(one)}.`,
    }),
    link: (one: Danced): Said => ({
      label: `Link: ${one.names.slice(0, 1).map(danced).join("")} into ${what(one)}`,
      instruction: `Dance both without a stop, ${often(one.runs)} at ${at(one)}.`,
    }),
    "from-the-top": (one: Danced): Said => ({
      label: `From the top: ${until(one)}`,
      instruction: `All of it so far on the counts, ${often(one.runs)} at ${at(one)}.`,
    }),
    "run-through": (one: Danced): Said => ({
      label: `Run-through: ${until(one)}`,
      instruction: `Dance it ${often(one.runs)} with the song, whatever happens.`,
    }),
    "away-from-mirror": (one: Danced): Said => ({
      label: `Away from the mirror: ${until(one)}`,
      instruction: `Turn the room round and dance it ${often(one.runs)} at ${at(one)}.`,
    }),
    mirrored: (one: Danced): Said => ({
      label: `Other side: ${until(one)}`,
      instruction: `Exchange left and right and dance it ${often(one.runs)} at ${at(one)}.`,
    }),
    groups: (one: Danced): Said => ({
      label: `In groups: ${until(one)}`,
      instruction: `${one.groups} groups: each dances ${often(one.runs)} with the song while the others watch.`,
    }),
  },
  /** What stands around the dancing. `used` are the parts of the body that the class loads. */
  frame: {
    "warm-up": (used: readonly LoadPart[]): Said => ({ label: "Warm-up", instruction: `Warm ${parts(used)}.` }),
    water: (): Said => ({ label: "Water", instruction: "Drink, rest, ask." }),
    "free-practice": (_: readonly LoadPart[], seconds: number): Said => ({
      label: "Free practice",
      instruction:
        seconds < 60 ? "Time for a question." : "Each repeats what they like; go round and answer questions.",
    }),
    "cool-down": (used: readonly LoadPart[]): Said => ({
      label: "Cool-down",
      instruction: `Come to rest and ease ${parts(used)}.`,
    }),
  },
  /** Stands behind an instruction where some runs are danced in the easiest option. */
  easier(runs: number, of: number, version: string): string {
    const all = of === 1 ? "This run" : of === 2 ? "Both runs" : `All ${of} runs`;
    const which = runs < of ? `${runs} of the ${of} runs` : all;
    return `${which} in the level ${version} option, for the limit's sake.`;
  },
  /** What a block of activities is called. */
  blocks: {
    chunk: (title: string, name: DancedName): string => `${title}: ${danced(name)}`,
    top: (title: string): string => `${title}, from the top`,
    dance: (title: string): string => `${title}, to dance`,
  },
  /** Everything fits. Seconds. */
  fits(least: number, available: number, freePractice: number): readonly string[] {
    const rest = freePractice > 0 ? ` ${span(freePractice)} is left as free practice.` : "";
    return [
      `Everything fits: the least that teaches it takes ${span(least)}, and ${thereIs(available)}.`,
      `${span(available - least - freePractice)} more goes into further runs, the densest chunks and whole runs first.${rest}`,
      ...(freePractice > 600 ? ["There is time for more: another section, another routine, or a shorter class."] : []),
    ];
  },
  /** Not everything fits. Seconds. */
  tooLong: (least: number, available: number, short: number, upTo: SectionEnd | undefined): string =>
    `Not everything fits: the least takes ${span(least)}, and ${thereIs(available)}, ${span(short)} too few. ${
      upTo ? `It fits as far as the end of ${endName(upTo)}.` : "Not even the first section fits whole."
    }`,
  /** How it could be divided over several classes. */
  division: (classes: readonly { readonly ends: SectionEnd; readonly spare: number }[], minutes: number): string =>
    `Over ${inWords(classes.length)} classes of ${minutes} minutes: ${classes
      .map(({ ends, spare }, index) => `class ${index + 1} ends with ${endName(ends)} (${span(spare)} to spare)`)
      .join("; ")}.`,
  minutesNeeded: (minutes: number): string => `One class would need ${minutes} minutes.`,
  /** Counts of a routine's phrases on which nothing is danced. */
  pauses: (title: string, counts: readonly number[]): string =>
    `${title}: nothing is danced on ${list(counts.map(String))} of each phrase.`,
  /** A routine that has no such level. */
  otherLevel: (title: string, level: string, planned: string): string =>
    `${title} has no level ${level}; it is planned at ${planned}, the one it is taught at.`,
  /** How often the body is asked; nothing for a class that never asks it. No figure here is called safe or unsafe. */
  loads(taughtLoad: Load, easiestLoad: Load, { level, easiest: own }: PlannedLevel): readonly string[] {
    const [taught, easiest] = [tally(taughtLoad), tally(easiestLoad)];
    if (own !== undefined) return taught === "" ? [] : [`Times with weight or impact: ${taught}.`];
    if (taught === easiest)
      return taught === "" ? [] : [`Times with weight or impact, at level ${level} as at the easiest: ${taught}.`];
    return [`Times with weight or impact: ${taught || "none"} at level ${level}; ${easiest || "none"} at the easiest.`];
  },
  /** The same of each group, where groups differ; their routine is named where there are several. */
  groupLoads(
    groups: readonly GroupFigures[],
    { level, easiest: own }: PlannedLevel,
    several: boolean,
  ): readonly string[] {
    return groups.map(({ group, title, taught, easiest }) => {
      const whose = several ? `${group} in ${title}` : group;
      if (own !== undefined) return `${whose}: ${tally(taught) || "none"}.`;
      return `${whose}: ${tally(taught) || "none"} at level ${level}, ${tally(easiest) || "none"} at the easiest.`;
    });
  },
  /** "Flood knees 4": contacts of an activity, of each group where groups differ. */
  contacts: (load: Load, groups: readonly { readonly group: string; readonly load: Load }[] | undefined): string =>
    groups === undefined
      ? contacts(load)
      : groups.flatMap((one) => (contacts(one.load) === "" ? [] : [`${one.group} ${contacts(one.load)}`])).join("; "),
  /** How a limit that the library sets came out. */
  limit(
    outcome: {
      readonly part: LoadPart;
      readonly limit: number;
      readonly before: number;
      readonly after: number;
      readonly kept: boolean;
      readonly groups?: readonly Pick<GroupFigures, "group" | "title">[];
    },
    { level, easiest }: PlannedLevel,
    several: boolean,
  ): string {
    const { part, limit, before, after, kept, groups = [] } = outcome;
    const names = list(groups.map(({ group, title }) => (several ? `${group} in ${title}` : group)));
    const whose = names === "" ? "" : ` for ${names}`;
    const own = `${partName(part)}: the library's own limit is ${limit} a class`;
    if (before <= limit) return capital(`${own}, and the plan has ${before}${whose}.`);
    if (kept)
      return capital(
        `${own}; ${before} at level ${level}, brought to ${after}${whose} by dancing marked runs in the easier option.`,
      );
    if (easiest !== undefined)
      return capital(
        `${own}, and it is not kept: the plan has ${after}${whose}. ${noneEasier(easiest)}: ` +
          `give ${loading(part)} an easier option${whose}, or teach less.`,
      );
    return capital(
      `${own}, and it is not kept: ${after} remain${whose} after every run that may change has gone to the easier option. ` +
        "Each chunk marked once and danced once at full tempo, and one run-through, stay at the level taught. " +
        "Teach an easier level, or less.",
    );
  },
};

/** "there is 1 min 5 s for teaching" */
function thereIs(seconds: number): string {
  return `there ${Math.floor(seconds / 60) === 1 ? "is" : "are"} ${span(seconds)} for teaching`;
}

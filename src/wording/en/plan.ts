import type { DancedName, SectionName } from "../../routine/sheet.js";
import type { TimesThrough } from "../../routine/times-through.js";
import {
  type BodyPart,
  bodyParts,
  type LoadPart,
  loadParts,
  neverSlowed,
  type Risk,
} from "../../routine/vocabulary.js";
import { counts } from "./counts.js";
import { capital, list, often, ordinal } from "./language.js";
import { risks } from "./risks.js";
import { shortCall } from "./short-call.js";
import { versions } from "./versions.js";

/** The end of a section of a routine. */
export interface SectionEnd extends SectionName {
  readonly title: string;
}

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
  /** What its cautions ask for before it is danced. */
  readonly asks: string;
  /** Something in it has a caution, at the class's level or in an option that is offered. */
  readonly risky: boolean;
  /** The dancers' own. */
  readonly improvised: boolean;
  readonly moves: readonly Cue[];
  readonly options: readonly OptionCues[];
  /** Where it was danced before. */
  readonly before: BeforeCue | undefined;
  /** Where a recap does not go on from what is danced before, and how everybody stands there. */
  readonly entries: readonly (SectionName & { readonly stance: string })[];
  /** With the song: where a piece begins that does not begin with the dance, "0:38" in the track where that is known. */
  readonly cues: readonly (SectionName & { readonly at?: string })[];
  /** Which times through it dances, of a routine that has several. */
  readonly times?: readonly number[];
  /** How the times through differ, and that in words. */
  readonly form?: Pick<TimesThrough, "walls" | "restarts" | "tags"> & { readonly said: readonly string[] };
  /** With the song, where something between is left out. */
  readonly pieces?: number;
  /** Groups that the class is divided into. */
  readonly groups: number;
}

/** Where some phrases were danced before: in which section, in which phrases of it where not in all, and how else. */
export interface BeforeCue {
  readonly section: string;
  readonly otherSide: boolean;
  readonly phrases?: readonly number[];
  readonly pace?: "slower" | "faster";
}

/** The level that a class asks for. */
export interface PlannedLevel {
  readonly level: string;
  /** The versions that it dances, each once, where no routine of it has an easier one. */
  readonly easiest: readonly string[] | undefined;
}

/** A move, and whose it is where not everybody dances it. */
interface Cue {
  readonly cue: string;
  /** Of its section, from 1. */
  readonly phrase: number;
  readonly on: string;
  readonly groups?: readonly string[];
  /** The level whose option it is. */
  readonly version?: string;
}

/** What the dancers of other versions dance. */
export interface OptionCues {
  readonly versions: readonly string[];
  readonly groups?: readonly string[];
  /** Absent where it is danced as a whole. */
  readonly moves?: readonly Cue[];
  readonly cautions: readonly Risk[];
}

/** A move as it is called. */
export interface CalledMove extends Omit<Cue, "version"> {
  /** In counts. */
  readonly length: number;
  readonly say?: readonly string[];
}

/** A move that is never slowed, and what is danced in its place. */
export interface UnslowedCue extends Cue {
  readonly instead: readonly string[];
}

export interface Said {
  readonly label: string;
  readonly instruction: string;
}

const inWords = (number: number): string => ["", "", "two", "three"][number] || String(number);
export const sectionName = ({ section, otherSide }: SectionName): string =>
  otherSide ? `${section} (other side)` : section;
const endName = (end: SectionEnd): string => `“${sectionName(end)}” in ${end.title}`;
export const riskOf = (part: LoadPart): Risk | undefined =>
  part === "inversions" ? "inversion" : isBodyPart(part) ? undefined : part;
const isBodyPart = (part: LoadPart): part is BodyPart => bodyParts.some((one) => one === part);
export const partName = (part: LoadPart): string => {
  const risk = riskOf(part);
  return risk === undefined ? `the ${part}` : risks.label(risk);
};

const two = (number: number): string => String(number).padStart(2, "0");

/** "12 min 5 s" */
function span(seconds: number): string {
  const [minutes, rest] = [Math.floor(seconds / 60), seconds % 60];
  return [minutes > 0 && `${minutes} min`, (rest > 0 || minutes === 0) && `${rest} s`].filter(Boolean).join(" ");
}

export const unit = (name: DancedName | undefined): string => (name?.phrase === 8 ? "eight" : "phrase");

/** "Harbour wall (other side), eights 1–2" */
function danced(name: DancedName): string {
  const [from, to] = name.phrases ?? [];
  const section = name.pickUp === undefined ? sectionName(name) : `${name.pickUp} and ${sectionName(name)}`;
  if (from === undefined || to === undefined) return section;
  return from === to ? `${section}, ${unit(name)} ${from}` : `${section}, ${unit(name)}s ${from}–${to}`;
}

/** "eight 2 of “Flood” on the other side, slower" */
export function before({ section, otherSide, phrases = [], pace }: BeforeCue, one: string): string {
  const which = phrases.length === 0 ? "" : `${one}${phrases.length > 1 ? "s" : ""} ${list(phrases.map(String))} of `;
  return `${which}“${section}”${otherSide ? " on the other side" : ""}${pace === undefined ? "" : `, ${pace}`}`;
}

const what = ({ names: [...names] }: Danced): string => names.slice(-1).map(danced).join("");
export const until = ({ until: end }: Danced): string =>
  end === undefined ? "" : `, as far as the end of ${sectionName(end)}`;
const at = ({ speed, tempo }: Danced): string =>
  `${speed === 100 ? "full tempo" : `${speed}%`}${tempo === undefined ? "" : ` (${tempo} counts a minute)`}`;

/** "eight 2", where a chunk has several. */
const phraseIn = ([name, ...others]: readonly DancedName[], number: number): readonly string[] => {
  const [from, to] = name?.phrases ?? [1, name?.last ?? 1];
  return others.length > 0 || from === to ? [] : [`${unit(name)} ${number}`];
};

/** "“Drag” (Flood, eight 2, 5–6)"; of more than a chunk without its place. */
export const cueIn =
  ({ names }: Pick<Danced, "names">) =>
  ({ cue, phrase, on, groups = [], version }: Cue): string => {
    const where = names.length > 1 ? [] : [...phraseIn(names, phrase), counts.span(on)];
    const whose = [...groups, ...(version === undefined ? [] : [versions.name(version)]), ...where];
    return whose.length === 0 ? `“${cue}”` : `“${cue}” (${whose.join(", ")})`;
  };

/** "5–6 Drag the right toes", "Flood: 5–6 “and drag”": what the author calls, else the cue as short as it can be called. */
function called({ on, length, cue, say, groups = [] }: CalledMove): string {
  const whose = groups.length > 0 ? `${list(groups)}: ` : "";
  return `${whose}${counts.long(on, length)} ${say === undefined ? shortCall(cue, length) : say.length === 0 ? "(nothing)" : `“${say.join(", ")}”`}`;
}

/** "Level 3, Flood: “Handstand” (5-8), at full tempo or not at all, with a mat ready." */
function option(of: Danced, { versions: ids, groups = [], moves, cautions }: OptionCues): string {
  const whose = [list(ids.map(versions.name)), ...groups].join(", ");
  if (moves === undefined) return `${whose}: dance all of it once in this version, counting aloud.`;
  const moment = cautions.filter((risk) => neverSlowed.includes(risk));
  const met = cautions.length === 0 ? "" : ` Take care: ${list(cautions.map(risks.label))}.`;
  const ready = moment.length === 0 ? "" : ` Never slowed; have ready: ${risks.asks(moment)}.`;
  return `${whose}: ${moves.map(cueIn(of)).join(", ")}.${met}${ready}`;
}

/** ", one time through (the 2nd)": how much of a dance that goes through several times. */
export function through({ times }: Danced): string {
  const [only, ...others] = times ?? [];
  if (only === undefined) return "";
  if (others.length > 0) return `, ${1 + others.length} times through`;
  return `, one time through${only === 1 ? "" : ` (the ${ordinal(only)})`}`;
}

export const inPieces = ({ pieces = 1, cues }: Danced): string => {
  const begin = cues.map((cue) =>
    cue.at === undefined
      ? ` Start the song shortly before “${sectionName(cue)}”.`
      : ` “${sectionName(cue)}” begins at ${cue.at} in the song: start that shortly before.`,
  );
  const parts =
    pieces === 1
      ? ""
      : ` It is danced in ${inWords(pieces)} pieces: what lies between them is not danced in this class.`;
  return `${parts}${begin.join("")}`;
};

/** The whole body, and what of it this class uses most. */
export function parts(used: readonly LoadPart[]): string {
  // Nobody warms a seat.
  const warmed = used.map((part) => (part === "seat" ? "hips" : part)).filter((part) => riskOf(part) === undefined);
  const named = [...new Set(warmed)].map(partName);
  return named.length === 0 ? "the whole body" : `the whole body, above all ${list(named)}`;
}

/** "knees 12, hands 1, upside down 2" */
export const tally = (load: Load): string =>
  bodyParts
    .flatMap((part) => (load[part] ? [`${part === "inversions" ? "upside down" : part} ${load[part]}`] : []))
    .join(", ");

/** "lift 4, upside down 2" */
const unslowed = (load: Load): string =>
  loadParts
    .flatMap((part) => {
      const [risk, times] = [riskOf(part), load[part]];
      return times && risk && neverSlowed.includes(risk) ? [`${risks.label(risk)} ${times}`] : [];
    })
    .join(", ");

/** "the moves that load the knees", "the moves marked lift" */
const loading = (part: LoadPart): string =>
  riskOf(part) === undefined ? `the moves that load ${partName(part)}` : `the moves marked “${partName(part)}”`;

/** What comes before the song where the dance goes through several times. */
function form({ walls, restarts, tags, said }: NonNullable<Danced["form"]>): Said {
  const marked = [
    walls > 1 ? "the turn into the next wall" : "the way from its end to its beginning",
    ...(tags.length > 0 ? ["the tag"] : []),
    ...(restarts.length > 0 ? ["the restart"] : []),
  ];
  return {
    label: walls > 1 ? "Walls" : "Times through",
    instruction: `Say how it goes round: ${said.join(" ")} Walk ${list(marked)} once.`,
  };
}

/** Some of a step's runs, by their numbers from 1. */
export interface SomeRuns {
  readonly from: number;
  readonly to: number;
  readonly of: number;
}

/** "runs 2–3 of the 3" */
function which({ from, to, of }: SomeRuns): string {
  if (to - from + 1 === of) return of === 1 ? "this run" : of === 2 ? "both runs" : `all ${of} runs`;
  return from === to ? `run ${from} of the ${of}` : `runs ${from}–${to} of the ${of}`;
}

/** Of a run that has something with a caution in it. */
export const keepSafe = "Leave out what is not safe today, and go on.";

const noneEasier = ([only, ...others]: readonly string[]): string =>
  only === undefined || others.length > 0 ? "No easier level is written" : `${versions.name(only)} is the easiest`;

/** A class plan: its activities, and what is said about the whole of it. */
export const plan = {
  /** "0:20" hours and minutes from the beginning, or the time of day where the class begins at one, "18:30". */
  clock(seconds: number, starts = "0:00"): string {
    const [hours = 0, minutes = 0] = starts.split(":").map(Number);
    const all = hours * 3600 + minutes * 60 + seconds;
    const rest = all % 60 === 0 ? "" : `:${two(all % 60)}`;
    return `${Math.floor(all / 3600) % 24}:${two(Math.floor(all / 60) % 60)}${rest}`;
  },
  span,
  danced,
  before,
  endName,
  /** What an activity is about. */
  topics: {
    show: (title: string): string => `${title}, the whole dance`,
    recap: (title: string): string => `${title}, what they know`,
    teach: (title: string, name: DancedName): string => `${title}: ${danced(name)}`,
    "from-the-top": (title: string): string => `${title}, from the top`,
    dance: (title: string): string => `${title}, to dance`,
  },
  /** What each step of an activity is called, and what to do in it. */
  steps: {
    "show-all": (one: Danced): Said => ({
      label: "Show",
      instruction: `Dance all of it ${often(one.runs)} with the song; the class watches.`,
    }),
    recap: (one: Danced): Said => ({
      label: `Recap: ${list([...new Set(one.names.flatMap((name) => [...(name.pickUp === undefined ? [] : [name.pickUp]), sectionName(name)]))])}`,
      instruction: `They know it: dance it ${often(one.runs)} at ${at(one)}, and put right what has gone.${one.entries.map((entry) => ` Stop before “${sectionName(entry)}”, since what comes before it is left out, and begin it anew, ${entry.stance}.`).join("")}`,
    }),
    show: (one: Danced): Said => ({
      label: "Show",
      instruction: `Dance it ${often(one.runs)} at ${at(one)}, counting aloud; the class watches.`,
    }),
    mark: (one: Danced): Said => ({
      label: "Mark",
      instruction: `Explain it move by move, then mark it together ${often(one.runs)} at ${at(one)}.`,
    }),
    options: (one: Danced): Said => ({
      label: "Options",
      instruction: `Show each to those who take it, who dance it from here on. ${one.options.map((each) => option(one, each)).join(" ")}`,
    }),
    detail: (one: Danced): Said => ({
      label: "Hard moves",
      instruction: `${one.speed < 100 ? "Each" : "Never slowed: each"} on its own, ${often(one.runs)} at ${at(one)}: ${one.moves.map(cueIn(one)).join(", ")}.${one.speed < 100 || one.asks === "" ? "" : ` Have ready: ${one.asks}.`}`,
    }),
    drill: (one: Danced): Said => ({
      label: "Drill",
      instruction: `Dance it ${often(one.runs)} on the counts at ${at(one)}.`,
    }),
    again: (one: Danced): Said => ({
      label: "You know this",
      instruction: `${one.before ? `It is ${before(one.before, unit(one.names[0]))}: say so, and dance it` : "Dance it"} ${often(one.runs)} at ${at(one)}.`,
    }),
    explain: (one: Danced): Said =>
      one.form !== undefined
        ? form(one.form)
        : one.improvised
          ? {
              label: "Theirs",
              instruction: `Say what they may dance there; it is theirs, and not drilled. Give it room: count it through ${often(one.runs)} at ${at(one)}, everybody as they like.`,
            }
          : {
              label: "Without counts",
              instruction: `Say what happens in it, and let it pass ${often(one.runs)} as long as it lasts, each in their place.`,
            },
    link: (one: Danced): Said => ({
      label: `Link: ${one.names.slice(0, 1).map(danced).join("")} into ${what(one)}`,
      instruction: `Dance both without a stop, ${often(one.runs)} at ${at(one)}.`,
    }),
    "from-the-top": (one: Danced): Said => ({
      label: `From the top${until(one)}`,
      instruction: `All of it so far on the counts${through(one)}, ${often(one.runs)} at ${at(one)}.`,
    }),
    "run-through": (one: Danced): Said => ({
      label: `Run-through${until(one)}`,
      instruction: `Dance it ${often(one.runs)} with the song${through(one)}${one.risky ? `. ${keepSafe}` : ", whatever happens."}${inPieces(one)}`,
    }),
    "away-from-mirror": (one: Danced): Said => ({
      label: `Away from the mirror${until(one)}`,
      instruction: `Turn the room round and dance it ${often(one.runs)}${through(one)} at ${at(one)}.${one.risky ? ` ${keepSafe}` : ""}`,
    }),
    mirrored: (one: Danced): Said => ({
      label: `Other side${until(one)}`,
      instruction: `Exchange left and right and dance it ${often(one.runs)}${through(one)} at ${at(one)}.`,
    }),
    groups: (one: Danced): Said => ({
      label: `In groups${until(one)}`,
      instruction: `${one.groups} groups: each dances ${often(one.runs)} with the song${through(one)} while the others watch.${one.risky ? ` ${keepSafe}` : ""}${inPieces(one)}`,
    }),
  },
  /** What is called in a chunk, on its counts: to be read off. */
  call: (calls: readonly CalledMove[]): Said => ({
    label: "Call",
    instruction: calls
      .map(
        (one, index) => `${index === 0 ? "" : one.phrase === calls[index - 1]?.phrase ? " · " : " / "}${called(one)}`,
      )
      .join(""),
  }),
  /** Behind what is to be done: the cautions that it meets. */
  takeCare: (cautions: readonly string[]): string => `Take care: ${list(cautions)}.`,
  /** What stands around the dancing. `used` are the parts of the body that the class loads. */
  frame: {
    "warm-up": (used: readonly LoadPart[]): Said => ({ label: "Warm-up", instruction: `Warm ${parts(used)}.` }),
    water: (): Said => ({ label: "Water", instruction: "Drink and rest." }),
    questions: (): Said => ({
      label: "Questions",
      instruction: "Sit or stand at ease, breathe, and ask what is not clear yet.",
    }),
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
  easier: (these: SomeRuns, version: string): string =>
    `${capital(which(these))} in the level ${version} option, for the limit's sake.`,
  /** Stands behind an instruction where some runs leave out what is never slowed. */
  spared: (these: SomeRuns): string => `In ${which(these)} leave out what is never slowed, for the limit's sake.`,
  /** Stands behind an instruction where those of a level above the class's dance some runs as the class does. */
  asTaught: (these: SomeRuns, version: string): string =>
    `${capital(versions.name(version))} dances ${which(these)} as the class does, for the limit's sake.`,
  /** Stands behind an instruction at full tempo where something in it asks for a spotter. */
  turns:
    "What asks for a spotter goes in turns, as many at once as there are spotters; who waits dances the easier way.",
  /** Stands behind an instruction below full tempo: what is left out, and what is danced in its place. */
  without: (one: Pick<Danced, "names">, moves: readonly UnslowedCue[]): string =>
    `Not slowed: ${moves
      .map((move) =>
        move.instead.length > 0
          ? `in place of ${cueIn(one)(move)} dance ${move.instead.map((cue) => `“${cue}”`).join(", ")}`
          : `of ${cueIn(one)(move)} only the way in and the way out`,
      )
      .join("; ")}.`,
  /** The same, where it has been said already. */
  withoutAgain: "Again what is never slowed gives way.",
  /** Where a class does not teach all of its routines: sections of one of them, its title last. */
  recalled: (sections: readonly string[], title: string): string =>
    `Known, and recalled at the start: ${list(sections)} (${title}).`,
  /** Of a class that is long enough for some. */
  noWater:
    "No water is planned, since the class asks for no breaks: “breaks: 3” in its file gives three minutes, or let everybody drink while you take questions.",
  leftOut: (sections: readonly string[], title: string): string =>
    `No part of this class: ${list(sections)} (${title}).`,
  /** Everything fits. Seconds. */
  fits(least: number, available: number, freePractice: number, questions: number): readonly string[] {
    const rest = freePractice > 0 ? ` ${span(freePractice)} is left as free practice.` : "";
    const further = available - least - freePractice;
    return [
      `Everything fits: the least that teaches it takes ${span(least)}, and ${thereIs(available)}.`,
      ...(further > 0 || rest !== ""
        ? [`${span(further)} more goes into further runs, the densest chunks and whole runs first.${rest}`]
        : []),
      ...(questions > 0 ? [`${span(questions)} of it all is kept for questions.`] : []),
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
  /** A class that dances an adaptation. */
  adaptation: (title: string, version: string): string =>
    `The whole class dances ${title} as “${version}”; no other version is planned.`,
  /** A routine that has no such level. */
  otherLevel: (title: string, level: string, planned: string): string =>
    `${title} has no level ${level}; it is planned at ${planned}, the one it is taught at.`,
  /** How often the body is asked; nothing for a class that never asks it. No figure here is called safe or unsafe. */
  loads(taughtLoad: Load, easiestLoad: Load, { level, easiest: own }: PlannedLevel): readonly string[] {
    const [taught, easiest] = [tally(taughtLoad), tally(easiestLoad)];
    if (own !== undefined) return taught === "" ? [] : [`Times with weight or impact: ${taught}.`];
    if (taught === easiest)
      return taught === ""
        ? []
        : [`Times with weight or impact, at level ${level} as at the easiest level: ${taught}.`];
    return [
      `Times with weight or impact: ${taught || "none"} at level ${level}; ${easiest || "none"} at the easiest level.`,
    ];
  },
  /** How often the class meets what is danced at full tempo or not at all, and who takes the highest level that is offered. */
  unslowed(load: Load, offered: Load = load): readonly string[] {
    const [times, more] = [unslowed(load), unslowed(offered)];
    const higher = more === times || more === "" ? "" : `the highest level offered: ${more} times.`;
    if (times !== "")
      return [
        `Danced at full tempo or not at all, in the whole class: ${times} times.${higher && ` Who takes ${higher}`}`,
      ];
    return higher === "" ? [] : [`Danced at full tempo or not at all, by those who take ${higher}`];
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
      return `${whose}: ${tally(taught) || "none"} at level ${level}, ${tally(easiest) || "none"} at the easiest level.`;
    });
  },
  /** "Flood knees 4": contacts of an activity, of each group where groups differ. */
  contacts: (load: Load, groups: readonly { readonly group: string; readonly load: Load }[] | undefined): string =>
    groups === undefined
      ? tally(load)
      : groups.flatMap((one) => (tally(one.load) === "" ? [] : [`${one.group} ${tally(one.load)}`])).join("; "),
  /** How a limit that the library sets came out. */
  limit(
    outcome: {
      readonly part: LoadPart;
      readonly limit: number;
      /** Of the planning, not the library's own. */
      readonly preset?: boolean;
      readonly before: number;
      readonly after: number;
      readonly kept: boolean;
      /** Of who stays at the easiest level. */
      readonly easiest: number;
      readonly groups?: readonly Pick<GroupFigures, "group" | "title">[];
      /** Of who takes the highest level that is offered. */
      readonly offered?: { readonly before: number; readonly after: number; readonly kept: boolean };
    },
    { level, easiest }: PlannedLevel,
    several: boolean,
  ): string {
    const { part, limit, preset = false, before, after, kept, groups = [] } = outcome;
    const higher = outcome.offered === undefined ? "" : ` ${offeredLimit(outcome.offered, limit)}`;
    const names = list(groups.map(({ group, title }) => (several ? `${group} in ${title}` : group)));
    const whose = names === "" ? "" : ` for ${names}`;
    const own = preset
      ? `${partName(part)}: our planning default is ${limit} a class, which is no safety figure`
      : `${partName(part)}: the library's own limit is ${limit} a class`;
    if (before <= limit) return capital(`${own}, and the plan has ${before}${whose}.${higher}`);
    if (kept)
      return capital(
        `${own}; ${before} ${/^\d+$/.test(level) ? `at level ${level}` : `as “${level}”`}, brought to ${after}${whose} by dancing ${
          riskOf(part) === undefined
            ? "marked runs in the easier option"
            : "some runs in the easier option, or without it"
        }.${higher}`,
      );
    if (easiest !== undefined)
      return capital(
        `${own}, and it is not kept: the plan has ${after}${whose}. ${noneEasier(easiest)}: ` +
          `give ${loading(part)} an easier option${whose}, or teach less.${higher}`,
      );
    return capital(
      `${own}, and it is not kept: ${after} remain${whose} after every run that may change has been changed. ` +
        "Each chunk marked once and danced once at full tempo, and one run-through, stay at the level taught. " +
        (outcome.easiest < after ? "Teach an easier level, or less." : "Teach less: the easiest level has as many.") +
        higher,
    );
  },
};

/** "there is 1 min 5 s for teaching" */
function thereIs(seconds: number): string {
  return `there ${Math.floor(seconds / 60) === 1 ? "is" : "are"} ${span(seconds)} for teaching`;
}

/** How a limit came out for who takes the highest level that is offered. */
function offeredLimit(
  { before, after, kept }: { readonly before: number; readonly after: number; readonly kept: boolean },
  limit: number,
): string {
  const who = "Who takes the highest level offered";
  if (before <= limit) return `${who} has ${before}.`;
  if (kept) return `${who} has ${after} in place of ${before}, since some runs are danced as the class does.`;
  return `${who} has ${after}, and for them it is not kept: offer that level less often, or teach less.`;
}

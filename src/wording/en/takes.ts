import type { DancedName } from "../../routine/sheet.js";
import type { RecordingStyle } from "../../routine/vocabulary.js";
import { counts } from "./counts.js";
import { description } from "./description.js";
import { capital, counted, list, often, plural } from "./language.js";
import { type BeforeCue, plan } from "./plan.js";

const last = (names: readonly DancedName[]): string => names.slice(-1).map(plan.danced).join("");

const numbers =
  "no one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen".split(" ");
/** A count as it is said: "four". */
const inWords = (number: number): string => numbers[number] ?? String(number);
const through = (times: number | undefined): string =>
  times === undefined ? "" : times === 1 ? " (one time through)" : ` (${times} times through)`;
/** "27 min" */
const minutes = (seconds: number): string => plan.span(Math.max(60, Math.round(seconds / 60) * 60));
/** "the four and the eight" */
const theCounts = (on: readonly number[]): string => list(on.map((count) => `the ${inWords(count)}`));

/** "level 2", "levels 1 and 3, seated" */
const nameOf = ({ id, level }: TakenVersion): string => (level ? `level ${id}` : id);
const namesOf = (all: readonly TakenVersion[]): string => {
  const ids = (level: boolean) => all.filter((one) => one.level === level).map(({ id }) => id);
  return description.versions(ids(true), ids(false));
};
const sentence = (text: string): string => (/[.!?…]$/.test(text) ? text : `${text}.`);

/** "5–6 Drag the right toes", "5 (10 counts) “melt” (Melt down)" */
function called({ on, length, cue, say, improvised }: Called): string {
  const what = say === undefined || say.length === 0 ? cue : `“${say.join(", ")}” (${cue})`;
  return `${counts.long(on, length)} ${improvised ? counts.ownMove(what) : what}`;
}

const calls = ({ moves }: CalledPhrase): string => moves.map(called).join(" · ");
/** "eight 2", "Flood" */
const where = ({ phrase, pickUp, of, group }: CalledPhrase): readonly string[] => [
  ...(pickUp !== undefined ? [pickUp] : of === undefined ? [] : [`${of === 8 ? "eight" : "phrase"} ${phrase}`]),
  ...(group === undefined ? [] : [group]),
];

/** What is said into the camera, in so many words. */
const aloud = {
  quoted: (text: string): string => `“${text}”`,
  title(title: string, choreographer: string, { title: song, artist }: TakenSong): string {
    const to = [song, artist && `by ${artist}`].filter(Boolean).join(" ");
    return sentence(`This is ${title}, by ${choreographer}${to && `, to ${to}`}`);
  },
  /** Where the music is, since the video has none. */
  music(song: boolean, link: boolean, performance: boolean): string {
    const below = [...(link ? ["the song"] : []), ...(performance ? ["the performance with it"] : [])];
    const there = below.length > 0 ? ` You find ${list(below)} under the video.` : "";
    return `There is no music in this video.${there}${song && !link ? " The name of the song is under it." : ""}`;
  },
  /** "You need: knee pads, for levels 1 and 2." or "Long sleeves are optional." */
  bring(item: string, optional: boolean, only: readonly TakenVersion[], why: string | undefined): string {
    const whose = only.length > 0 ? `, for ${namesOf(only)}` : "";
    const be = /[^s]s$/.test(item) ? "are" : "is";
    const what = optional ? `${capital(item)} ${be} optional${whose}` : `You need: ${item}${whose}`;
    return sentence(`${what}${why === undefined ? "" : `: ${why}`}`);
  },
  versions(all: readonly TakenVersion[], [taught]: readonly TakenVersion[]): string {
    const levels = all.filter(({ level }) => level);
    const others = all.filter(({ level }) => !level).map(({ id }) => ` or “${id}”`);
    return `You can dance ${namesOf(levels)}${others.join("")}.${taught === undefined ? "" : ` I teach ${nameOf(taught)}.`}`;
  },
  /** @param stance "facing left, weight on both feet, standing" */
  start: (stance: string, groups: readonly string[]): string =>
    groups.length === 0 ? `You start ${stance}.` : `${list(groups)}: you start ${stance}.`,
  hits: (on: readonly number[]): string => `${capital(theCounts(on))} ${plural(on.length, "hits", "hit")}.`,
  pauses: (on: readonly number[]): string =>
    `On ${theCounts(on)} you do nothing: leave ${on.length > 1 ? "them" : "it"} empty.`,
  cautions: (risks: readonly string[], general: string): string => `Take care: ${list(risks)}. ${general}`,
  where: "The counts, a page to practise with and the handouts are linked under the video.",
  /** The name of a section before it is taught, and how it differs from what is around it. */
  part(
    name: string,
    { first, pickUp, improvised, again, phrase, seconds, tempo, half = false, double = false }: OpenedPart,
  ): string {
    const known = again === undefined ? "" : ` ${knownPart(name, again, phrase)}`;
    const own = improvised ? " It is yours: dance what you like." : "";
    const still = seconds === undefined ? "" : ` It has no counts and lasts ${counted(seconds, "second", "seconds")}.`;
    const speed = half
      ? " It is half-time."
      : double
        ? " It is double time."
        : tempo === undefined
          ? ""
          : ` It goes at ${tempo} counts a minute.`;
    return `${first ? "The first part" : "Next part"}. We call this ${pickUp === undefined ? name : `${pickUp}, which leads into ${name}`}.${known}${own}${still}${speed}`;
  },
};

/** What is said of a section that begins as another was danced; a tempo of its own is said anyway. */
function knownPart(name: string, { pace: _, ...again }: BeforeCue, phrase: number | undefined): string {
  if (again.phrases !== undefined)
    return `You know its beginning: it is ${plan.before(again, phrase === 8 ? "eight" : "phrase")}.`;
  const same = again.section === name ? "the same" : again.section;
  return `You know this: it is ${same}${again.otherSide ? " on the other side" : " again"}.`;
}

/** A breakdown video: what follows what in it, what is said and called. */
export const takes = {
  title: (title: string): string => `Recording the breakdown of ${title}`,
  summary(
    {
      style,
      takes,
      setups,
      again,
    }: { readonly style: RecordingStyle; readonly takes: number; readonly setups: number; readonly again: number },
    videoSeconds: number,
    daySeconds: number,
  ): readonly string[] {
    const video = `about ${minutes(videoSeconds)}`;
    if (style === "one-go")
      return [
        `One continuous recording of ${video}, in the order of teaching, with the counts aloud and no music.`,
        `With the time to place the camera, allow ${minutes(daySeconds)}; the camera stays, and you turn.`,
      ];
    return [
      `${takes} takes make a video of ${video}, with the counts aloud and no music.`,
      `With every take shot ${often(again)} and the camera placed ${often(setups)}, allow ${minutes(daySeconds)}.`,
    ];
  },
  framing:
    "All of you stays in the picture: raised hands, both feet and the floor around them. What stands in quotation marks is said aloud, once; the lines of counts are there to read off.",
  /** What each kind of take is called, and what to do in it. */
  kinds: {
    welcome: () => ({ label: "Welcome", instruction: "" }),
    show: ({ title, times }: Take) => ({
      label: `Show: ${title}`,
      instruction: `Dance all of it once${through(times)}, counting aloud.`,
    }),
    explain: ({ names }: Take) => ({
      label: `Explain: ${last(names)}`,
      instruction: "Show it, say and walk it move by move, then once in one go.",
    }),
    uncounted: ({ sections }: Take) => ({
      label: `Without counts: ${list(sections)}`,
      instruction: "Say what happens in it, and let it pass as long as it lasts.",
    }),
    own: ({ names }: Take) => ({
      label: `Theirs: ${last(names)}`,
      instruction: "Say what they may dance there, and count it through; it is not drilled.",
    }),
    known: ({ names, runs }: Take) => ({
      label: `You know this: ${last(names)}`,
      instruction: `Dance it ${often(runs)} on the counts.`,
    }),
    options: ({ names }: Take) => ({
      label: `Options: ${last(names)}`,
      instruction: "Show each on its own, the whole body in the picture.",
    }),
    hard: ({ names, runs }: Take) => ({
      label: `Hard moves: ${last(names)}`,
      instruction: `Each on its own, ${often(runs)}.`,
    }),
    follow: ({ names, runs }: Take) => ({
      label: `Follow: ${last(names)}`,
      instruction: `Dance it ${often(runs)} on the counts for the viewer to follow.`,
    }),
    link: ({ names, runs }: Take) => ({
      label: `Link: ${names.slice(0, 1).map(plan.danced).join("")} into ${last(names)}`,
      instruction: `Dance both ${often(runs)} without a stop, counting aloud.`,
    }),
    times: (_: Take) => ({
      label: "How it goes round",
      instruction: "Walk from the end of the dance into its beginning, and every tag and restart, as you say it.",
    }),
    "from-the-top": ({ title, runs, times }: Take) => ({
      label: `From the top: ${title}`,
      instruction: `Dance it ${often(runs)}${through(times)} on the counts for the viewer to follow.`,
    }),
    mirrored: ({ title }: Take) => ({
      label: `On the other side: ${title}`,
      instruction:
        "For the mirrored film: face the camera and dance it on the other side, so that the viewer follows as in a mirror.",
    }),
    goodbye: () => ({ label: "Goodbye", instruction: "" }),
  },
  aloud,
  /** What stands below a take. */
  line: (text: string): string => `   ${text}`,
  /** What is called in a phrase, to be read off. */
  call: (phrase: CalledPhrase): string => `${["Call", ...where(phrase)].join(", ")}: ${calls(phrase)}`,
  /** "Level 1 (Flood), eight 2: 5–6 Roll to the side", or that it is danced as a whole. */
  option(
    version: TakenVersion & { readonly groups: readonly string[] },
    phrases: readonly CalledPhrase[],
    cautions: readonly string[],
    ready: string | undefined,
  ): string {
    const whose = `${capital(nameOf(version))}${version.groups.length > 0 ? ` (${list(version.groups)})` : ""}`;
    const moves = phrases.map((one) => [...where(one), calls(one)].join(": ")).join("; ");
    const what = moves === "" ? "dance all of it once in this version, counting aloud" : moves;
    const care = cautions.length > 0 ? ` (take care: ${list(cautions)})` : "";
    return `${whose}: ${what}${care}${ready === undefined ? "" : `. ${takes.neverSlowed(ready)}`}`;
  },
  /** Of what is shown at full tempo or not at all. */
  neverSlowed: (ready: string): string =>
    `Never slowly: at full tempo, or only said.${ready === "" ? "" : ` Have ready: ${ready}.`}`,
  cameras: {
    front: "You face the camera",
    behind: "Your back to the camera",
  },
  speed: (percent: number): string => (percent === 100 ? ", full tempo" : `, ${percent} per cent`),
  finished: (length: string): string => `In the video (${length}):`,
  shooting: (length: string): string => `In the order of shooting (${length} in all):`,
  setup: (camera: string, numbers: readonly number[], length: string): string =>
    `${camera}: takes ${numbers.join(", ")} (${length})`,
};

export interface TakenVersion {
  readonly id: string;
  /** False of an adaptation. */
  readonly level: boolean;
}

export interface TakenSong {
  readonly title?: string;
  readonly artist?: string;
}

export interface Called {
  readonly on: string;
  /** In counts. */
  readonly length: number;
  readonly cue: string;
  /** What the author calls in place of the counts. */
  readonly say?: readonly string[];
  readonly improvised: boolean;
}

/** What is called in one phrase. */
export interface CalledPhrase {
  readonly phrase: number;
  /** The section before it that leads into it, where these are its moves. */
  readonly pickUp?: string;
  /** Counts in a phrase; absent where the section has no other phrase. */
  readonly of?: number;
  /** Who is called, where groups differ. */
  readonly group?: string;
  readonly moves: readonly Called[];
}

export interface OpenedPart {
  readonly first: boolean;
  /** The section before it that leads into it and is taught with it. */
  readonly pickUp?: string;
  readonly improvised: boolean;
  /** The section that it is danced like. */
  readonly again?: BeforeCue;
  /** Counts of a phrase. */
  readonly phrase?: number;
  /** Of time without counts. */
  readonly seconds?: number;
  readonly tempo?: string;
  readonly half?: boolean;
  readonly double?: boolean;
}

/** What is said of a take. */
export interface Take {
  readonly title: string;
  readonly names: readonly DancedName[];
  readonly sections: readonly string[];
  readonly runs: number;
  /** Times through that it dances, of a routine that has several. */
  readonly times?: number;
}

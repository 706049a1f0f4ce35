import type { Feel } from "../../routine/vocabulary.js";
import { capital, counted, list } from "./language.js";

/** A routine: what it is, what it takes and how it starts. */
export const routine = {
  description: (title: string, counts: number, choreographer: string): string =>
    `${title}, a routine of ${counts} counts by ${choreographer}.`,
  /** What it is learnt as. */
  kind: "dance routine",
  adultsOnly: "Adults only",
  teensAndAdults: "Teens and adults",

  choreography: <T>(choreographer: string, song: T | undefined, date: T | undefined) =>
    [
      `Choreography by ${choreographer}`,
      song === undefined ? [] : [", to ", song],
      date === undefined ? [] : [". ", date],
    ] as const,
  by: (choreographer: string): string => `by ${choreographer}`,
  song: <T>(title: T, artist: string) => [title, " by ", artist] as const,

  /* Its figures, in one line. */
  pulse: (tempo: string): string => `${tempo} a minute`,
  accentsOn: (numbers: readonly number[]): string => `accents ${numbers.join(", ")}`,

  /* Its figures, each with its name. */
  countsInAll: "Counts in all",
  counts: "Counts",
  /** @param number as it is set */
  numberOfCounts: <T>(number: T) => [number, " counts"] as const,
  run: "One run",
  tempo: "Tempo",
  /** After the figure of a tempo. */
  aMinute: " a minute",
  /** "1:03, 92 a minute" */
  pace: (run: string, tempo: string): string => `${run}, ${tempo} a minute`,
  phrases: "Phrases of",
  accents: { label: "Landing hardest", value: (numbers: readonly number[]): string => list(numbers.map(String)) },
  pauses: { label: "Pauses on", value: (numbers: readonly number[]): string => list(numbers.map(String)) },
  feel: { label: "Feel", value: (feel: Feel): string => feel },
  firstCountAt: (number: number): string => (number === 1 ? "Count one at" : `First count (${number}) at`),

  /** Shown to the author alone. */
  /** @param line what stands in the file */
  draft: <T>(line: (text: string) => T) =>
    [
      "A draft: it is seen here alone and not published until ",
      line("draft: yes"),
      " is taken out of its file.",
    ] as const,

  version: "Version",
  group: "Group",
  allGroups: "All groups",
  /** Asked of a routine in which groups dance different counts. */
  whose: "Whose counts do you dance?",
  side: "Side",
  mirrored: "Mirrored",

  onThisPage: "On this page",
  copyLink: "Copy the link to this view",

  needs: "What you need",
  needsNothing: "Nothing to bring.",
  need: <T>(item: T, required: boolean, why: string | undefined) =>
    [item, required ? "" : ", if you like", why === undefined ? "" : `: ${why}`] as const,

  takeCare: "Take care",
  /** Above the player. @param link leads to what to do about them, by the words given */
  careFor: <T>(labels: readonly string[], link: (words: string) => T) =>
    [labels.map(capital).join(" · "), ": ", link("take care")] as const,

  starts: "How it starts",
  /** How one of several groups starts. */
  groupStart: <T>(group: T, stance: string, otherSide: boolean) =>
    [group, `: ${stance}`, otherSide ? "; dances on the other side" : ""] as const,
  countIn: (counts: number, firstNumber: number, firstCount: string | undefined): string =>
    `${counts} counts in, then ${firstNumber === 1 ? "count one" : `the first count (${firstNumber})`}${firstCount === undefined ? "" : ` at ${firstCount} in the track`}.`,
  /** Either may be empty, where nothing is known of it. */
  room: (space: string, contacts: string): string =>
    [
      ...(space === "" ? [] : [`Room to travel: ${space}.`]),
      ...(contacts === "" ? [] : [`Weight or impact in one run: ${contacts}.`]),
    ].join(" "),
  /** In metres, across the room and front to back: "0 m × 2.4 m". */
  space: ({ width, depth }: { readonly width: number; readonly depth: number }): string =>
    width === 0 && depth === 0 ? "none, it stays on the spot" : `${metres(width)} × ${metres(depth)}`,
  /** "knees 6, hands 2" */
  contacts: (load: Readonly<Partial<Record<string, number>>>): string =>
    Object.entries(load)
      .map(([part, times]) => `${part} ${times}`)
      .join(", "),

  about: "About this dance",

  pictures: "At a glance",
  picturesLine: (withFloor: boolean): string =>
    `Sections, heights and facings${withFloor ? ", and the way over the floor" : ""}`,
  mapText: (version: string, mirrored: boolean, onTrack: boolean): string =>
    `Phrase map, ${version}${mirrored ? ", mirrored" : ""}: sections, height, facing and hits ${onTrack ? "on the track’s clock" : "over one run"}. The counts say the same in words.`,
  oneDancer: "one dancer",
  eachGroup: "each group",
  floorText: (version: string, mirrored: boolean, dancer: string, times: number): string =>
    `Floor plan, ${version}${mirrored ? ", mirrored" : ""}: the way ${dancer} travels${oneOf(times)}, seen from above. The counts say the same in words.`,
  floorCaption: (dancer: string, times: number): string =>
    `The floor from above: the way ${dancer} travels${oneOf(times)}.`,

  takeAway: "Print and take away",
  takeAwayLine: (files: number): string => `${counted(files, "file", "files")}: handouts, captions and more`,
  ifYouPost: "If you post it",
  videoText: "Text for the video’s description",
  copyText: "Copy the text",

  /** At an address that it had before. @param link to where it is now */
  moved: <T>(link: T) => ["This routine has another address now: ", link, "."] as const,
};

function metres(length: number): string {
  return `${Math.round(length * 10) / 10} m`;
}

function oneOf(times: number): string {
  return times > 1 ? `, one time through of ${times}` : "";
}

import type { Facing, Height } from "../../routine/vocabulary.js";
import { list, uncounted } from "./language.js";

/** A moment, and what changes there. */
export interface Change<To> {
  readonly at: string;
  readonly to: To;
}

export interface MapDancers {
  readonly names: readonly string[];
  readonly height: { readonly first: Height; readonly changes: readonly Change<Height>[] };
  readonly inverted: readonly string[];
  readonly facing: { readonly first: Facing; readonly changes: readonly Change<Facing>[] };
}

/** What a phrase map shows, in values. Moments are written as the track's clock shows them, or as counts of the run. */
export interface MapContent {
  readonly onTrack: boolean;
  readonly counts: number;
  readonly run: string;
  readonly sections: readonly {
    readonly at: string;
    readonly name: string;
    readonly mirrored: boolean;
    /** Which time through, in words, where there is more than one. */
    readonly time: string | undefined;
    /** Its counts, or how long it lasts where it has none. */
    readonly size: string;
  }[];
  /** Of all dancers, or of each group with its name where they differ. */
  readonly dancers: readonly MapDancers[];
  readonly hits: readonly string[];
}

/** A place on the floor, in metres from where the dancer begins: x to the right, y to the front. */
export interface Place {
  readonly x: number;
  readonly y: number;
}

/** What a floor plan shows, in values. */
export interface FloorContent {
  /** Whose way it is, where groups differ. */
  readonly names: readonly string[];
  readonly times: number;
  readonly facing: Facing;
  /** Metres. */
  readonly across: number;
  readonly depth: number;
  readonly places: readonly Place[];
}

/** What the pictures of a routine say, and what is said to those who can't see them. */
export const drawing = {
  map: {
    title: (routine: string, version: string): string => `Phrase map of ${routine}, ${version}`,
    section: (number: string, name: string): string => `${number} ${name}`,
    height: (height: Height): string => height,
    /** Over the lines of some groups, where groups differ. */
    dancers: (groups: readonly string[]): string => list(groups),
    facing: "facing",
    hits: "hits",
    track: "track",
    counts: (number: number): string => `${number} counts`,
    uncounted,
    /** A moment by its count in the run. */
    count: (number: number): string => `count ${number}`,
    description: mapText,
  },
  floor: {
    title: (routine: string, version: string, groups: readonly string[]): string =>
      `Floor plan of ${[routine, version, ...groups].join(", ")}`,
    /** Over the plan: where the audience is, and whose way it is where groups differ. */
    audience: (groups: readonly string[]): string => (groups.length === 0 ? "audience" : `${list(groups)} · audience`),
    /** What stands under the plan, the longest way of saying it first. */
    captions: (times: number): readonly string[] =>
      times > 1 ? ["one time through · a square is 1 m", "a square is 1 m"] : ["a square is 1 m"],
    /* Beside the marks. */
    start: "start",
    end: "end",
    startAndEnd: "start and end",
    description: floorText,
  },
};

function mapText({ onTrack, counts, run, sections, dancers, hits }: MapContent): string {
  const sentence = (label: string, items: readonly string[]) =>
    items.length === 0 ? [] : [`${label}: ${items.join("; ")}.`];
  const changes = ({ first, changes }: { first: string; changes: readonly Change<string>[] }) => [
    `${first} at first`,
    ...changes.map(({ at, to }) => `${at} ${to}`),
  ];
  return [
    `${counts} counts in ${run}, ${onTrack ? "on the track's clock" : "counted through from the first"}.`,
    ...sentence(
      "Sections",
      sections.map(({ at, name, mirrored, time, size }) =>
        [`${at} ${name}`, ...(mirrored ? ["other side"] : []), ...(time === undefined ? [] : [time]), size].join(", "),
      ),
    ),
    ...dancers.flatMap(({ names, height, inverted, facing }) => {
      const label = (name: string) => (names.length === 0 ? name : `${name} of ${list(names)}`);
      return [
        ...sentence(label("Height"), changes(height)),
        ...sentence(label("Upside down"), inverted),
        ...sentence(label("Facing"), changes(facing)),
      ];
    }),
    ...sentence("Hits", hits),
  ].join(" ");
}

function floorText({ names, times, facing, across, depth, places }: FloorContent): string {
  return [
    ...(names.length === 0 ? [] : [`${list(names)}.`]),
    `Seen from above, the audience at the top.${times > 1 ? ` One time through of ${times}.` : ""}`,
    `It begins facing ${facing} and covers ${metres(across)} across and ${metres(depth)} in depth.`,
    `From the start the way leads to: ${places.map(placeText).join("; ")}.`,
  ].join(" ");
}

/** A place seen from where the dancer begins; less than a hand's breadth is not worth a word. */
function placeText({ x, y }: Place): string {
  const across = Math.abs(x) < 0.05 ? [] : [`${metres(Math.abs(x))} ${x > 0 ? "right" : "left"}`];
  const deep = Math.abs(y) < 0.05 ? [] : [`${metres(Math.abs(y))} ${y > 0 ? "to the front" : "to the back"}`];
  const both = [...across, ...deep];
  return both.length === 0 ? "where it began" : both.join(" and ");
}

function metres(length: number): string {
  return `${(Math.round(length * 100) / 100).toFixed(1)} m`;
}

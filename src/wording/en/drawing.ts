import type { Facing, Height } from "../../routine/vocabulary.js";
import { capital, list, uncounted } from "./language.js";

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

/** More than so many changes are told by how many they are: the counts say each. */
const mostChanges = 8;

/**
 * What the map shows at a glance, in two sentences: how the run is divided, and where bodies sink, rise and turn in it and where it
 * hits.
 */
function mapText({ onTrack, counts, run, sections, dancers, hits }: MapContent): string {
  const told = sections.map((section) => ({
    ...section,
    same: JSON.stringify([section.name, section.mirrored, section.size]),
  }));
  const firsts = told.filter(({ same }, index) => told.findIndex((one) => one.same === same) === index);
  const parts = firsts.map(({ at, name, mirrored, time, size, same }) => {
    const times = told.filter((one) => one.same === same).length;
    const round = times > 1 ? [`${times} times in all`] : time === undefined ? [] : [time];
    return [`${at} ${name}`, ...(mirrored ? ["other side"] : []), size, ...round].join(", ");
  });
  const clock = onTrack ? "on the track's clock" : "counted through from the first";
  const bodies = dancers.map(bodyText).join("; ");
  const hit = hits.length === 0 ? "no hits" : moments("hits", hits);
  return `${counts} counts in ${run}, ${clock}: ${parts.join("; ")}. ${capital(bodies)}; ${hit}.`;
}

/** How high some dancers are, where they are upside down and which way they face. */
function bodyText({ names, height, inverted, facing }: MapDancers): string {
  const whose = names.length === 0 ? "" : `${list(names)} `;
  return [
    `${whose}${changesText("", height)}`,
    ...(inverted.length === 0 ? [] : [moments("upside down", inverted)]),
    changesText("facing ", facing),
  ].join(", ");
}

function changesText<To extends string>(
  label: string,
  { first, changes }: { readonly first: To; readonly changes: readonly Change<To>[] },
): string {
  if (changes.length === 0) return `${label}${first} throughout`;
  if (changes.length > mostChanges) {
    const all = [...new Set([first, ...changes.map(({ to }) => to)])];
    return `${label}${first} at first, then changing ${changes.length} times between ${list(all)}`;
  }
  return [`${label}${first} at first`, ...changes.map(({ at, to }) => `${to} from ${at}`)].join(", ");
}

const moments = (label: string, at: readonly string[]): string =>
  at.length > mostChanges ? `${label} ${at.length} times` : `${label} at ${list(at)}`;

/** How far the way goes and where it leads, in two sentences; of one group of several in one. */
function floorText({ names, times, facing, across, depth, places }: FloorContent): string {
  const from = `from a start facing ${facing}, ${metres(across)} across and ${metres(depth)} in depth`;
  const round = times > 1 ? `, one time through of ${times}` : "";
  const end = places.at(-1);
  const leads =
    places.length > mostChanges && end !== undefined
      ? `over ${places.length} places to ${placeText(end)}`
      : `to ${places.map(placeText).join("; ")}`;
  if (names.length > 0)
    return `${list(names)}, seen from above with the audience at the top, ${from}${round}: ${leads}.`;
  return `Seen from above with the audience at the top, ${from}${round}. The way leads ${leads}.`;
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

import { countLength, nearestCount, timeOfCount } from "../../../src/hearing/song/grid.js";
import { type Landing, type LandingSection, landingsOf } from "../../../src/hearing/song/landing.js";
import { median } from "../../../src/hearing/song/numbers.js";
import type { Grid } from "../../../src/hearing/song/types.js";
import { type Desk, fitFor } from "./state.js";

/** With the moment at which a section was heard to begin, or without its mark. What the hand added was meant for the one before. */
export function marked(desk: Desk, section: number, at?: number): Desk {
  const [marks, kept] = [new Map(desk.marks), new Map(desk.kept)];
  marks.delete(section);
  kept.delete(section);
  if (at !== undefined) marks.set(section, at);
  return { ...desk, marks, kept };
}

/** With a section where the hand has put it, whatever the counts say. */
export function put(desk: Desk, section: number, at: number): Desk {
  const place = Math.max(0, Math.round(at * 1000) / 1000);
  const marks = new Map([[section, place], ...desk.marks]);
  return { ...desk, marks, kept: new Map(desk.kept).set(section, place) };
}

/** Where a section begins that is not on a count of those before it. In seconds. */
export interface Place {
  readonly at: number;
  readonly by: "hand" | "taps";
}

/** By the index of a section as danced. */
export type Places = ReadonlyMap<number, Place>;

/** Seconds by which a hand is off that has tapped for a while: taps so near to the counts mean these (*common practice, no source*). */
export const near = 0.03;

/**
 * Where each section begins, with those that begin by the hand, or by taps: after a pause the counts begin anew, and a mark means one of those that
 * were tapped there.
 */
export function placed(
  desk: Desk,
  grid: Grid,
  sections: readonly LandingSection[],
): { readonly landings: readonly Landing[]; readonly places: Places } {
  const opening = sections.findIndex(({ counts }) => counts > 0);
  const places = new Map<number, Place>();
  const land = () => {
    const marks = [...desk.marks].flatMap(([section, at]) => (places.has(section) ? [] : [{ section, at }]));
    const at = (index: number) => places.get(index) ?? {};
    return landingsOf(
      sections.map((section, index) => ({ ...section, ...at(index) })),
      grid,
      marks,
    );
  };
  // In danced order: one section that begins later has all those after it begin later.
  for (const [section, heard] of [...desk.marks].sort(([a], [b]) => a - b)) {
    // The first section begins on the first count.
    if (section <= opening) continue;
    const by = desk.kept.get(section);
    if (by !== undefined) places.set(section, { at: by, by: "hand" });
    else {
      const at = tappedPlace(desk, sections[section], heard);
      const begins = land().find((landing) => landing.section === section)?.begins;
      if (at !== undefined && begins !== undefined && Math.abs(at - begins) > near)
        places.set(section, { at, by: "taps" });
    }
  }
  return { landings: withMarks(land(), desk, places), places };
}

/** Taps say where counts are as far as they go, and a few counts before them, since the first ones are easily missed. */
const before = 8;

/** The count that was tapped nearest to a moment, at the tempo that the section goes at, in seconds; none where nobody tapped about then. */
export function tappedPlace(desk: Desk, section: LandingSection | undefined, heard: number): number | undefined {
  if (section === undefined) return undefined;
  const fit = fitFor(desk, section.written);
  if (fit === undefined || "why" in fit) return undefined;
  const length = countLength(section);
  const on = fit.taps.filter(({ kind }) => kind === "on");
  const [first, last] = [on[0]?.at ?? 0, on.at(-1)?.at ?? 0];
  if (heard < first - before * length || heard > last) return undefined;
  const tapped = { ...section, firstCount: median(on.map(({ at, count }) => at - count * length)) };
  return Math.round(timeOfCount(tapped, nearestCount(tapped, heard).count) * 1000) / 1000;
}

/** Landings with what was marked in those whose place is said otherwise. */
function withMarks(landings: readonly Landing[], { marks }: Desk, places: Places): readonly Landing[] {
  return landings.map((landing) => {
    const at = marks.get(landing.section);
    const place = places.get(landing.section);
    if (at === undefined || place === undefined) return landing;
    return { ...landing, mark: { at, count: 0, off: at - landing.begins, snapped: place.by === "taps" } };
  });
}

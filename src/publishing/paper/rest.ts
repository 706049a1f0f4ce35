import type { Block } from "../../typesetting/block.js";
import { type Area, type Flowed, flow } from "../../typesetting/flow.js";
import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import type { Wording } from "../../wording/wording.js";
import { layoutOwnNotes, margin } from "./page.js";

/** What stands behind the counts, and on what paper. */
export interface RestContext {
  readonly wording: Wording;
  readonly width: number;
  /** Of the first page, and of further ones. */
  readonly top: number;
  readonly below: number;
  readonly bottom: number;
  readonly gutter: number;
  readonly map: Picture;
  /** Whom the cautions defer to, and the house's rules, as wide as the page. */
  readonly care: readonly Block[];
  /** The same as wide as a column. */
  readonly careNotes: readonly Block[];
  /** All the rest, as wide as a column. */
  readonly notes: readonly Block[];
}

/** The phrase map with what its own signs mean. */
export interface Picture {
  readonly height: number;
  readonly place: (position: Position) => {
    readonly elements: readonly StructureElement[];
    readonly decoration: readonly Mark[];
  };
}

/** What stands behind the counts, laid out. */
export interface Rest {
  readonly pages: number;
  /** How much of the last page is left. */
  readonly left: number;
  readonly draw: () => {
    readonly elements: readonly StructureElement[];
    readonly decoration: readonly Mark[];
  };
}

/** A heading and two lines for the dancer's own notes. */
const ownNotes = 62;
/** How much of a page is filled at least before something begins on the next one that could be parted. */
const filled = 2 / 3;

type Place = Pick<Position, "page" | "y">;

/**
 * What follows the counts: all of it on their page if it fits there; else what holds for the whole dance at their foot, and what is read at
 * home overleaf; else it goes on from page to page. The map stands where it takes no page of its own, and no room of the counts.
 */
export function placeRest(context: RestContext, { page, y }: Place): Rest {
  const { below, careNotes, notes, map } = context;
  const area = areaOf(context);
  const under = { page, y: y + 10 };
  const all = [...careNotes, ...notes];
  const on = flow(all, under, area);
  if (on.page === page) {
    const mapped = flow(all, { page, y: under.y + map.height + 8 }, area);
    return mapped.page === page
      ? restOf(context, { map: under, notes: mapped })
      : restOf(context, { notes: on, map: fitsUnder(on, context) });
  }
  const foot = placeFoot(context, under);
  const left = foot.flowed === undefined ? all : notes;
  const next = { page: page + 1, y: below };
  const apart = foot.full ? flow(left, next, area) : undefined;
  if (apart === undefined || apart.page > on.page) return restOf(context, { notes: on, map: fitsUnder(on, context) });
  const parts = { ...(foot.flowed && { foot: foot.flowed }), notes: apart };
  if (foot.map !== undefined) return restOf(context, { ...parts, map: foot.map });
  const mapped = flow(left, { ...next, y: next.y + map.height + 10 }, area);
  if (mapped.page === apart.page) return restOf(context, { ...parts, map: next, notes: mapped });
  return restOf(context, { ...parts, map: fitsUnder(apart, context) });
}

function areaOf({ width, gutter, below, bottom }: RestContext): Area {
  return { left: margin.side, width, columns: 2, gutter, top: below, bottom, tail: 0 };
}

/** At the foot of the counts, as far as there is room: whom the cautions defer to, then the map; and whether that fills the page. */
function placeFoot(context: RestContext, under: Place) {
  const { top, below, bottom, care, map } = context;
  const flowed = flow(care, under, { ...areaOf(context), columns: 1 });
  const fits = flowed.page === under.page;
  const end = fits && care.length > 0 ? flowed.y + 10 : under.y;
  const mapFits = end + map.height <= bottom;
  const pageTop = under.page === 0 ? top : below;
  const full = end + (mapFits ? map.height : 0) - pageTop >= filled * (bottom - pageTop);
  return { flowed: fits ? flowed : undefined, map: mapFits ? { page: under.page, y: end } : undefined, full };
}

/** The place of the map under the last of the notes, if there is room. */
function fitsUnder({ page, y }: Flowed, { map, bottom }: RestContext): Place | undefined {
  return y + 12 + map.height <= bottom ? { page, y: y + 12 } : undefined;
}

interface RestParts {
  readonly foot?: Flowed;
  readonly map: Place | undefined;
  readonly notes: Flowed;
}

function restOf({ width, bottom, wording, map }: RestContext, { foot, map: at, notes }: RestParts): Rest {
  const under = at !== undefined && at.page === notes.page && at.y >= notes.y;
  const last = under ? { page: at.page, y: at.y + map.height } : notes;
  return {
    pages: last.page + 1,
    left: bottom - last.y,
    draw: () => {
      const picture = at === undefined ? undefined : map.place({ ...at, x: margin.side });
      const end = { page: last.page, x: margin.side, y: last.y + 14 };
      const own = end.y + ownNotes <= bottom ? layoutOwnNotes(end, width, bottom, wording) : undefined;
      return {
        elements: [
          ...(foot?.draw() ?? []),
          ...(picture?.elements ?? []),
          ...notes.draw(),
          ...(own === undefined ? [] : [own.element]),
        ],
        decoration: [...(picture?.decoration ?? []), ...(own?.decoration ?? [])],
      };
    },
  };
}

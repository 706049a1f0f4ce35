import type { Library, Routine, Workshop } from "../../routine/routine.js";
import { clockText } from "../figures.js";
import { type RoutineFacts, routineFacts } from "./routine-facts.js";

/** The library page: a card a routine, newest first, and what can be chosen by. */
export interface LibraryView {
  readonly cards: readonly CardView[];
  readonly workshops: readonly WorkshopEntry[];
  /** Every style, level and adaptation that occurs, in alphabetical or given order. */
  readonly styles: readonly string[];
  readonly levels: readonly string[];
  readonly adaptations: readonly string[];
  readonly adultOnly: boolean;
}

export interface CardView {
  readonly facts: RoutineFacts;
  /** Time of one run, "1:03". */
  readonly run: string;
  /** What a search looks through, in lower case. */
  readonly words: string;
}

export interface WorkshopEntry {
  readonly slug: string;
  readonly title: string;
  readonly date?: string;
  readonly venue?: string;
  readonly minutes: number;
}

export interface SiteContent {
  readonly library: Library;
  readonly routines: readonly Routine[];
  readonly workshops: readonly Workshop[];
}

/** Newest first, those without a date last; of one day by title. Plain code-unit order, so that no locale changes it. */
export function newestFirst(a: { readonly date?: string; readonly title: string }, b: typeof a): number {
  const [one, two] = [a.date ?? "", b.date ?? ""];
  if (one !== two) return one < two ? 1 : -1;
  return a.title < b.title ? -1 : a.title > b.title ? 1 : 0;
}

/** The library page as data. */
export function libraryView({ routines, workshops }: SiteContent): LibraryView {
  const facts = routines.map(routineFacts).sort(newestFirst);
  return {
    cards: facts.map((each) => ({ facts: each, run: clockText(each.seconds), words: searchWords(each) })),
    workshops: [...workshops].sort(newestFirst).map(({ slug, title, date, venue, minutes }) => ({
      slug,
      title,
      minutes,
      ...(date === undefined ? {} : { date }),
      ...(venue === undefined ? {} : { venue }),
    })),
    styles: distinct(facts.flatMap(({ styles }) => styles)).sort(),
    levels: distinct(facts.flatMap(({ levels }) => levels)).sort(byNumber),
    adaptations: distinct(facts.flatMap(({ adaptations }) => adaptations)).sort(),
    adultOnly: facts.some(({ audience }) => audience === "adult"),
  };
}

function distinct(values: readonly string[]): string[] {
  return [...new Set(values)];
}

function byNumber(a: string, b: string): number {
  return Number(a) - Number(b) || (a < b ? -1 : 1);
}

function searchWords({ title, choreographer, song, styles, summary, sections, gear }: RoutineFacts): string {
  const all = [title, choreographer, song?.title, song?.artist, ...styles, summary, ...sections, ...gear];
  return all
    .filter((text) => text !== undefined)
    .join(" ")
    .toLowerCase();
}

import { definedOnly } from "../../routine/defined-only.js";
import type { Workshop } from "../../routine/routine.js";
import type { Wording } from "../../wording/wording.js";
import type { RoutineFacts } from "./routine-facts.js";

/** The library page: a card a routine, newest first, and what can be chosen by. */
export interface LibraryView {
  readonly cards: readonly CardView[];
  /** The same, with what is broken in its place among them. */
  readonly shelf: readonly (CardView | BrokenEntry)[];
  readonly workshops: readonly WorkshopEntry[];
  readonly workshopShelf: readonly (WorkshopEntry | BrokenEntry)[];
  /** Every style that occurs. */
  readonly styles: readonly string[];
  /** Every level and adaptation that occurs. */
  readonly versions: readonly { readonly id: string; readonly name: string }[];
  readonly adultOnly: boolean;
  /** By place, what its author alone is told: "Draft · 4 things to look at". */
  readonly told: Readonly<Record<string, string>>;
}

export interface CardView {
  readonly facts: RoutineFacts;
  /** What it is, in one line: "Level 1–2 · 0:50 · floor work". */
  readonly key: string;
  /** The counts of its phrase; empty where they are too many for a row. */
  readonly face: readonly { readonly number: number; readonly accent: boolean }[];
  /** Further lines of facts. */
  readonly lines: readonly string[];
  readonly filterFacts: FilterFacts;
}

/** What the filters of the page look at: of each card, in its `data-facts`. */
export interface FilterFacts {
  /** In lower case. */
  readonly words: string;
  readonly styles: readonly string[];
  readonly versions: readonly string[];
  /** Versions that go to the floor. */
  readonly floor: readonly string[];
  readonly adult: boolean;
  /** Counts a minute. */
  readonly tempo: number;
  readonly seconds: number;
  readonly gear: boolean;
}

/** On a served library alone: something that has to be mended before it has a page. */
export interface BrokenEntry {
  readonly kind: "routines" | "workshops";
  readonly slug: string;
  readonly title: string;
  readonly date?: string;
  /** In its own file. */
  readonly mistakes: number;
  /** Titles of the broken routines that a workshop dances. */
  readonly waitsFor: readonly string[];
}

export interface WorkshopEntry {
  readonly slug: string;
  readonly title: string;
  readonly date?: string;
  /** Of a course: how many lessons it has, and when they are, where that is known. */
  readonly lessons?: number;
  readonly dates?: readonly string[];
  readonly venue?: string;
  readonly minutes: number;
}

export interface WorkshopFacts extends WorkshopEntry {
  /** Titles. */
  readonly routines: readonly string[];
}

/** What the pages about the whole library are made from: plain and small, so that all of a large library can be held. */
export interface LibraryFacts {
  /** By slug. */
  readonly routines: readonly RoutineFacts[];
  readonly workshops: readonly WorkshopFacts[];
  readonly broken?: readonly BrokenEntry[];
  /** On a served library alone: by place, "routines/low-tide", how many things there are to look at. */
  readonly toLookAt?: Readonly<Record<string, number>>;
}

/** The facts of a workshop. */
export function workshopFacts(
  workshop: Omit<Workshop, "routines"> & { readonly routines: readonly { readonly title: string }[] },
): WorkshopFacts {
  const { slug, title, date, lessons, dates, venue, minutes, routines } = workshop;
  return {
    slug,
    title,
    minutes,
    ...definedOnly<Pick<WorkshopEntry, "date" | "lessons" | "dates" | "venue">>({ date, lessons, dates, venue }),
    routines: routines.map((routine) => routine.title),
  };
}

/** Newest first, those without a date last; of one day by title. Plain code-unit order, so that no locale changes it. */
export function newestFirst(a: { readonly date?: string; readonly title: string }, b: typeof a): number {
  const [one, two] = [a.date ?? "", b.date ?? ""];
  if (one !== two) return one < two ? 1 : -1;
  return a.title < b.title ? -1 : a.title > b.title ? 1 : 0;
}

type Dated = Parameters<typeof newestFirst>[0];

/** What is broken, where it would stand if it were whole. */
function inPlace<Whole extends object>(
  whole: readonly Whole[],
  broken: readonly BrokenEntry[],
  dated: (one: Whole) => Dated,
): readonly (Whole | BrokenEntry)[] {
  const of = (one: Whole | BrokenEntry): Dated => ("mistakes" in one ? (one as BrokenEntry) : dated(one));
  return [...whole, ...broken].sort((a, b) => newestFirst(of(a), of(b)));
}

/** The library page as data. */
export function libraryView(library: LibraryFacts, wording: Wording): LibraryView {
  const { routines, workshops, broken = [] } = library;
  const facts = [...routines].sort(newestFirst);
  const cards = facts.map((each) => cardView(each, wording));
  const brokenOf = (kind: BrokenEntry["kind"]) => broken.filter((one) => one.kind === kind);
  const entries = [...workshops].sort(newestFirst).map(({ routines: _, ...entry }) => entry);
  const levels = distinct(facts.flatMap((each) => each.levels)).sort(byNumber);
  const adaptations = distinct(facts.flatMap((each) => each.adaptations)).sort();
  return {
    cards,
    shelf: inPlace(cards, brokenOf("routines"), (card) => card.facts),
    workshops: entries,
    workshopShelf: inPlace(entries, brokenOf("workshops"), (entry) => entry),
    styles: distinct(facts.flatMap(({ styles }) => styles)).sort(),
    versions: distinct([...levels, ...adaptations]).map((id) => ({ id, name: wording.versions.name(id) })),
    adultOnly: facts.some(({ audience }) => audience === "adult"),
    told: toldIn(library, wording),
  };
}

/** Of what is a draft, or has something to look at: of what is published, nothing. */
function toldIn({ routines, toLookAt = {} }: LibraryFacts, { library }: Wording): LibraryView["told"] {
  const drafts = routines.filter(({ draft }) => draft).map(({ slug }) => `routines/${slug}`);
  return Object.fromEntries(
    distinct([...drafts, ...Object.keys(toLookAt)]).map((place) => {
      const number = toLookAt[place] ?? 0;
      const texts = [drafts.includes(place) ? library.draft : "", number > 0 ? library.toLookAt(number) : ""];
      return [place, library.factLine(texts)];
    }),
  );
}

function cardView(facts: RoutineFacts, wording: Wording): CardView {
  const { levels, adaptations, floorWork, taught, onChair } = facts;
  const { library } = wording;
  const versions = [...levels, ...adaptations];
  return {
    facts,
    key: library.factLine([
      [levelRange(levels, wording), ...adaptations].filter((text) => text !== "").join(", "),
      wording.time.run(facts),
      floorText(levels, versions, floorWork, wording),
      onChair.includes(taught) ? library.onChair : "",
    ]),
    face: faceOf(facts),
    lines: linesOf(facts, wording),
    filterFacts: {
      words: searchWords(facts),
      styles: facts.styles,
      versions,
      floor: floorWork,
      adult: facts.audience === "adult",
      tempo: facts.countsPerMinute,
      seconds: facts.seconds,
      gear: facts.gear.length > 0,
    },
  };
}

/** Numerals of more counts than these can't be read in a card's width. */
const widestFace = 16;

function faceOf({ phrase, accents }: RoutineFacts): CardView["face"] {
  if (phrase > widestFace) return [];
  const numbers = Array.from({ length: phrase }, (_, index) => index + 1);
  return numbers.map((number) => ({ number, accent: accents.includes(number) }));
}

function linesOf(facts: RoutineFacts, { library, run, time }: Wording): readonly string[] {
  const { counts, phrase, timesThrough, gear, styles } = facts;
  return [
    [
      timesThrough ? run.inShort(timesThrough) : library.counts(counts),
      library.tempoOf(time.tempo(facts)),
      phrase === 8 ? "" : library.phrases(phrase),
    ],
    [gear.length === 0 ? "" : library.bring(gear)],
    [styles.join(", ")],
  ]
    .map(library.factLine)
    .filter((line) => line !== "");
}

/** A single level is no choice, so it is not named. */
function levelRange(levels: readonly string[], { library }: Wording): string {
  return levels.length < 2 ? "" : library.levels(levels);
}

/** In which versions, where it is in some of them only; levels come as a range where they follow each other. */
function floorText(
  levels: readonly string[],
  all: readonly string[],
  floor: readonly string[],
  { library }: Wording,
): string {
  if (floor.length === 0) return "";
  if (floor.length === all.length) return library.floorWork;
  const some = levels.filter((id) => floor.includes(id));
  const first = levels.findIndex((id) => floor.includes(id));
  const inRow = some.length > 0 && some.every((id, index) => id === levels[first + index]);
  const named = inRow ? [library.levels(some)] : some.map((id) => library.levels([id]));
  return library.floorWorkIn([...named, ...floor.filter((id) => !levels.includes(id))]);
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

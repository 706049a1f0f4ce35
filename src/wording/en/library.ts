import { capital, counted, list } from "./language.js";
/** The library: what there is to choose from, and by what. */
export const library = {
  description: (name: string): string => `Dance routines by counts and cue words, from ${name}.`,
  routines: "Routines",
  workshops: "Classes and workshops",
  /** Those that are over. */
  pastWorkshops: "Past classes and workshops",

  search: "Search",
  searchHint: "title, song, style, section",
  any: "any",
  style: "Style",
  version: "Version",
  floor: { label: "Floor work", without: "without", with: "with" },
  tempo: { label: "Tempo", slow: "under 90 a minute", medium: "90 to 119", fast: "120 and more" },
  run: { label: "One run", short: "under a minute", middle: "one to three minutes", long: "three minutes and more" },
  gear: { label: "Gear", none: "nothing needed" },
  noAdultsOnly: "leave out adults only",
  showAll: "Show all",
  /** @param showAll what shows them all, by the words given */
  noneFits: <T>(showAll: (words: string) => T) =>
    ["No routine fits all of that. Take one wish back, or ", showAll("show them all")] as const,

  /* What is seen by its author alone, while the library is served. */
  draft: "draft",
  toLookAt: (number: number): string => counted(number, "thing to look at", "things to look at"),
  toMend: (number: number): string => counted(number, "thing to mend", "things to mend"),
  /** @param routines by their titles */
  waitsFor: (routines: readonly string[]): string => `waits for ${list(routines)} to be mended`,

  /* A card. */
  /** What stands on one line of a card, those that say nothing left out. */
  factLine: (texts: readonly string[]): string => capital(texts.filter(Boolean).join(" · ")),
  counts: (number: number): string => counted(number, "count", "counts"),
  /** Counts a minute. */
  tempoOf: (tempo: string): string => `${tempo} a minute`,
  songBy: (artist: string): string => `song by ${artist}`,
  /** "level 1–3" of levels that follow each other, or named ones in their order; it stays on one line */
  levels: (ids: readonly string[]): string => {
    const range = ids.length > 1 && ids.every((id) => /^\d+$/.test(id));
    return `level\u00a0${range ? `${ids[0]}–${ids.at(-1)}` : ids.join(", ")}`;
  },
  phrases: (counts: number): string => `phrases of ${counts}`,
  floorWork: "floor work",
  /** @param versions as they are named within a line */
  floorWorkIn: (versions: readonly string[]): string => `floor work in ${list(versions)}`,
  onChair: "on a chair",
  bring: (gear: readonly string[]): string => `bring ${gear.join(", ")}`,
};

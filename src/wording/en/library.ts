import { capital } from "./language.js";
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

  /* A card. */
  /** What stands on one line of a card, those that say nothing left out. */
  factLine: (texts: readonly string[]): string => capital(texts.filter(Boolean).join(" · ")),
  songBy: (artist: string): string => `song by ${artist}`,
  /** "levels 1 to 3", or named ones in their order */
  levels: (ids: readonly string[]): string =>
    ids.every((id) => /^\d+$/.test(id)) ? `levels ${ids[0]} to ${ids.at(-1)}` : `levels ${ids.join(", ")}`,
  phrases: (counts: number): string => `phrases of ${counts}`,
  noFloorWork: "no floor work",
  floorWork: "floor work",
  /** @param versions by their names */
  floorWorkButIn: (versions: readonly string[]): string =>
    `floor work, none in ${versions.map((name) => name.toLowerCase()).join(", ")}`,
  bring: (gear: readonly string[]): string => `bring ${gear.join(", ")}`,
};

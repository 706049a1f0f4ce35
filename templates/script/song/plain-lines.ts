import type { DeskRoutine } from "../../../src/build/live/desk-data.js";
import type { Grid } from "../../../src/hearing/song/types.js";
import type { SongFigures } from "../../../src/reading/song-lines.js";
import { writtenTempo, writtenTime, writtenTimes } from "../../../src/routine/written-figures.js";

/** Lines as they stand in a routine's file, for whoever puts them there by hand. */
export function plainLines({ countsPerMinute, firstCount, sections }: SongFigures, routine?: DeskRoutine): string {
  const music = [
    ...(countsPerMinute === undefined ? [] : [`  tempo: ${writtenTempo(countsPerMinute)}`]),
    ...(firstCount === undefined ? [] : [`  first-count: ${writtenTime(firstCount)}`]),
  ];
  const others = (sections ?? []).flatMap((section) => [
    `  - name: ${routine?.written[section.index]?.name ?? ""}`,
    ...(section.at === undefined ? [] : [`    at: ${writtenTimes(section.at)}`]),
    ...(section.countsPerMinute === undefined ? [] : [`    tempo: ${writtenTempo(section.countsPerMinute)}`]),
  ]);
  return [
    ...(music.length > 0 ? ["music:", ...music] : []),
    ...(others.length > 0 ? ["sections:", ...others] : []),
  ].join("\n");
}

/** Counts as they go along in an address from one desk to another. */
export function gridText({ countsPerMinute, firstCount }: Grid): string {
  return new URLSearchParams({ tempo: String(countsPerMinute), "first-count": String(firstCount) }).toString();
}

/** The counts that came along, where any did. */
export function gridIn(hash: string): Grid | undefined {
  const given = new URLSearchParams(hash.replace(/^#/, ""));
  const [countsPerMinute, firstCount] = ["tempo", "first-count"].map((name) => Number(given.get(name) ?? "none"));
  if (countsPerMinute === undefined || firstCount === undefined) return undefined;
  return countsPerMinute > 0 && countsPerMinute < 4000 && firstCount >= 0 && firstCount < 36_000
    ? { countsPerMinute, firstCount }
    : undefined;
}

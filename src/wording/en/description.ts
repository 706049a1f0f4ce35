import type { Audience, MirroredBy } from "../../routine/vocabulary.js";
import { capital, counted, list, plural, uncounted } from "./language.js";

/** The text for a video's description box. Authors' texts come in as they are to be printed. */
export const description = {
  /** First line: what it is and whose, the song and the styles where they are known. */
  title(title: string, choreographer: string, song: string, styles: readonly string[]): string {
    const kind = styles.length > 0 ? ` ${capital(styles.join(", "))}.` : "";
    return `${title}: a dance routine by ${choreographer}${song && ` to ${song}`}.${kind}`;
  },
  song: (title: string | undefined, artist: string | undefined): string =>
    [title && `“${title}”`, artist && `by ${artist}`].filter(Boolean).join(" "),
  size: (counts: number, tempo: string, run: string): string =>
    `${counted(counts, "count", "counts")} at ${tempo} a minute, one run in ${run}.`,
  headings: {
    need: "WHAT YOU NEED",
    versions: "LEVELS AND OPTIONS",
    options: "WHAT THE OPTIONS REPLACE",
    changes: "WHAT CHANGES ON THE WAY",
    chapters: "CHAPTERS",
    sections: "SECTIONS IN ORDER",
    speeds: "PRACTICE SPEEDS",
    links: "LINKS",
  },
  groups: (names: readonly string[]): string => `Dancers in ${names.length} groups: ${list(names)}`,
  /** An item with what is to be said of it: "Heels (optional, for level 2): a low heel is kinder". */
  gear(item: string, optional: boolean, only: string | undefined, why: string | undefined): string {
    const notes = [...(optional ? ["optional"] : []), ...(only === undefined ? [] : [`for ${only}`])].join(", ");
    return `${capital(item)}${notes && ` (${notes})`}${why ? `: ${why}` : ""}`;
  },
  /** "levels 1 and 2, seated" */
  versions(levels: readonly string[], adaptations: readonly string[]): string {
    const ladder = levels.length > 0 ? [`${levels.length === 1 ? "level" : "levels"} ${list(levels)}`] : [];
    return [...ladder, ...adaptations].join(", ");
  },
  taught: (name: string): string => `${capital(name)}: as taught here`,
  /**
   * @param own moves that this version dances another way
   * @param groups that do, where not all of them do
   */
  version(name: string, own: number, groups: readonly string[]): string {
    if (own === 0) return `${capital(name)}: the same moves`;
    const moves = counted(own, "move", "moves");
    if (groups.length === 0) return `${capital(name)}: ${moves} danced another way`;
    return `${capital(name)}: ${list(groups)} ${groups.length === 1 ? "dances" : "dance"} ${moves} another way`;
  },
  /** "Level 2 (Flood)" */
  whose: (version: string, groups: readonly string[]): string =>
    `${capital(version)}${groups.length > 0 ? ` (${list(groups)})` : ""}`,
  /** Where in a section. */
  parts: {
    all: (section: string): string => section,
    start: (section: string): string => `start of ${section}`,
    middle: (section: string): string => `middle of ${section}`,
    end: (section: string): string => `end of ${section}`,
  },
  /** "Level 1, end of Seal (5–6): Roll to the side in place of “Roll back” (take care: spin)" */
  option(
    whose: string,
    where: string,
    on: readonly string[],
    moves: readonly string[],
    { instead, cautions }: { readonly instead: readonly string[]; readonly cautions: readonly string[] },
  ): string {
    const replaced = instead.length > 0 ? `, in place of ${list(instead.map((cue) => `“${cue}”`))}` : "";
    const care = cautions.length > 0 ? ` (take care: ${list(cautions)})` : "";
    return `${whose}, ${where} (${[...new Set(on)].join(", ")}): ${moves.join(" · ")}${replaced}${care}`;
  },
  manyOptions: (whose: string, sections: readonly string[], moves: number): string =>
    `${whose}, all through ${list(sections)}: ${counted(moves, "move", "moves")} of its own`,
  /** How it starts: each way with whose it is, where not all start so. */
  starts: (stance: string, whose: readonly string[]): string =>
    `${stance}${whose.length > 0 ? ` (${whose.join(", ")})` : ""}`,
  start: (ways: readonly string[]): string => `START: ${ways.join("; ")}`,
  lands: (counts: readonly string[], phrase: number): string =>
    `LANDS HARDEST: ${plural(counts.length, "count", "counts")} ${list(counts)} of every ${phrase === 8 ? "eight" : phrase}`,
  pauses: (counts: readonly string[], phrase: number): string =>
    `LEFT EMPTY: ${plural(counts.length, "count", "counts")} ${list(counts)} of every ${phrase === 8 ? "eight" : phrase}`,
  change: (section: string, facts: readonly string[]): string => `${section}: ${facts.join("; ")}`,
  /** Of a section that the dancers improvise. */
  own: "yours, dance what you like",
  pace: {
    half: (tempo: string): string => `half-time, ${tempo} counts a minute`,
    double: (tempo: string): string => `double time, ${tempo} counts a minute`,
    other: (tempo: string): string => `${tempo} counts a minute`,
  },
  audience: { all: undefined, teen: "Made for teens.", adult: "Made for adults." } satisfies Record<
    Audience,
    string | undefined
  >,
  counts: (number: number): string => counted(number, "count", "counts"),
  uncounted,
  section(name: string, size: string, mirrored: boolean, times: number): string {
    const side = mirrored ? ", on the other side" : "";
    return `${name}: ${size}${side}${times > 1 ? `, ${times} times` : ""}`;
  },
  speed: (percent: number, tempo: string, run: string): string =>
    `${percent}%: ${tempo} counts a minute, one run in ${run}`,
  fullTempo: (tempo: string, run: string): string => `Full tempo: ${tempo} counts a minute, one run in ${run}`,
  links: {
    breakdown: "Breakdown",
    breakdownMirrored: {
      flipped: "Breakdown, flipped to follow as in a mirror (what is said keeps its sides)",
      danced: "Breakdown, on the other side",
    } satisfies Record<MirroredBy, string>,
    page: "Counts, practice page and handouts",
  },
  /** Under a mirrored film: what goes with it. */
  upload: {
    flipped:
      "THIS FILM IS FLIPPED, to follow as in a mirror. What is said in it keeps its sides: the counts as taught go with it, not the mirrored ones.",
    danced: "THIS FILM IS DANCED ON THE OTHER SIDE: the mirrored counts go with it.",
  } satisfies Record<MirroredBy, string>,
  link: (name: string, address: string): string => `${name}: ${address}`,
  cautions: (risks: readonly string[], generalCaution: string): string =>
    `TAKE CARE: ${risks.join(", ")}. ${generalCaution}`,
  /** That there is no music in the film, and where it is. */
  music(song: string, link: string | undefined, performance: string | undefined): string {
    const where = [song, link].filter(Boolean).join(", ");
    return [
      `MUSIC: there is none in this video.${where && ` The song: ${where}`}`,
      ...(performance === undefined ? [] : [`The performance, with the music: ${performance}`]),
    ].join("\n");
  },
  credit: (text: string): string => `CREDIT: ${text}`,
  choreographyBy: (name: string): string => `Choreography by ${name}.`,
};

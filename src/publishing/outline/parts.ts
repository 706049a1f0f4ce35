import type { GearItem, Library, Routine, Version } from "../../routine/routine.js";
import { sheetSections } from "../../routine/sheet.js";
import { risks } from "../../routine/words.js";
import { clockText, tempoText } from "../figures.js";
import { formText } from "../form.js";
import { cautionOf, deference } from "../safety.js";
import { capital, counted, listed, plain } from "./plain.js";

/** A part of the description: its lines, or an empty text where the routine has nothing to say there. */
export type Part = (routine: Routine, library: Library) => string;

/** First line: what it is and whose. */
export const title: Part = ({ title, choreographer, styles, music }) => {
  const song = songText(music.title, music.artist);
  const kind = styles.length > 0 ? ` ${capital(styles.map(plain).join(", "))}.` : "";
  return `${plain(title)}: a dance routine by ${plain(choreographer)}${song && ` to ${song}`}.${kind}`;
};

/** Second line: the author's summary, or the routine's size. */
export const summary: Part = (routine) => plain(routine.summary ?? sizeText(routine));

export const gear: Part = (routine) => {
  const items = gearItems(routine.versions);
  const { groups } = routine;
  const dancers = groups.length > 0 ? [`Dancers in ${groups.length} groups: ${listed(groups.map(plain))}`] : [];
  return block("WHAT YOU NEED", [...dancers, ...items.map((item) => gearLine(item, routine.versions.length))]);
};

export const levels: Part = ({ versions, taught, audience }) => {
  const ways = versions.length > 1 ? versions.map((version) => versionLine(version, taught)) : [];
  const who = { all: [], teen: ["Made for teens."], adult: ["Made for adults."] }[audience];
  return block("LEVELS AND OPTIONS", [...ways, ...who]);
};

/** The author's chapters; without times the sections in order, and no time is made up. */
/** How it is danced through, where that is more than once. */
export const form: Part = (routine) => formText(routine).join(" ");

export const contents: Part = (routine) => {
  const { chapters } = routine.video;
  if (chapters.length > 0)
    return block(
      "CHAPTERS",
      chapters.map(({ at, title }) => `${clockText(at)} ${plain(title)}`),
    );
  return block(
    "SECTIONS IN ORDER",
    sheetSections(routine).map(({ section, danced }) => sectionLine(routine, section, danced.length)),
  );
};

export const speeds: Part = ({ practice, music, seconds }) => {
  const slower = practice.filter(({ percent }) => percent !== 100);
  const full = `Full tempo: ${tempoText(music.countsPerMinute)} counts a minute, one run in ${clockText(seconds)}`;
  return block("PRACTICE SPEEDS", [
    ...slower.map(
      ({ percent, countsPerMinute, seconds }) =>
        `${percent}%: ${tempoText(countsPerMinute)} counts a minute, one run in ${clockText(seconds)}`,
    ),
    full,
  ]);
};

export const links: Part = ({ slug, video }, { url }) => {
  const line = (name: string, address: string | undefined) => (address ? [`${name}: ${plain(address)}`] : []);
  return block("LINKS", [
    ...line("Performance", video.performance),
    ...line("Breakdown", video.breakdown),
    ...line("Breakdown, mirrored", video.breakdownMirrored),
    ...line("Counts, practice page and handouts", url && `${url}/routines/${slug}/`),
  ]);
};

/** In one line: the risks, with the versions that meet them where not all do, and whose word comes first. */
export const cautions: Part = ({ versions }) => {
  const met = risks.flatMap((risk) => {
    const by = versions.filter((version) => version.cautions.includes(risk));
    const only = by.length < versions.length ? ` (${versionNames(by)})` : "";
    return by.length > 0 ? [`${cautionOf(risk).label}${only}`] : [];
  });
  return met.length > 0 ? `TAKE CARE: ${met.join(", ")}. ${deference}` : "";
};

export const music: Part = ({ music: { title, artist, link } }) => {
  const song = songText(title, artist);
  return song || link ? `MUSIC: ${[song, link && plain(link)].filter(Boolean).join(", ")}` : "";
};

export const credit: Part = (routine, library) =>
  `CREDIT: ${plain(routine.credit ?? library.credit ?? `Choreography by ${routine.choreographer}.`)}`;

/** A tag is one word of letters, digits and underscores. */
export const tags: Part = ({ styles }) =>
  styles
    .map((style) => style.replace(/[^\p{L}\p{M}\p{N}_]/gu, ""))
    .filter(Boolean)
    .map((style) => `#${style}`)
    .join(" ");

function block(heading: string, lines: readonly string[]): string {
  return lines.length > 0 ? [heading, ...lines].join("\n") : "";
}

function songText(title: string | undefined, artist: string | undefined): string {
  return [title && `“${plain(title)}”`, artist && `by ${plain(artist)}`].filter(Boolean).join(" ");
}

function sizeText({ counts, music, seconds }: Routine): string {
  return `${counted(counts, "count")} at ${tempoText(music.countsPerMinute)} a minute, one run in ${clockText(seconds)}.`;
}

interface Needed extends GearItem {
  readonly by: readonly Version[];
}

/** Each item once, with the versions that need it so. */
function gearItems(versions: readonly Version[]): readonly Needed[] {
  const items = new Map<string, Needed>();
  for (const version of versions) {
    for (const item of version.gear) {
      const key = `${item.need} ${item.item}`;
      items.set(key, { ...item, by: [...(items.get(key)?.by ?? []), version] });
    }
  }
  return [...items.values()];
}

function gearLine({ item, need, why, by }: Needed, versions: number): string {
  const only = by.length === versions ? [] : [`for ${versionNames(by)}`];
  const notes = [...(need === "optional" ? ["optional"] : []), ...only].join(", ");
  return `${capital(plain(item))}${notes && ` (${notes})`}${why ? `: ${plain(why)}` : ""}`;
}

/** "levels 1 and 2, seated" */
function versionNames(versions: readonly Version[]): string {
  const levels = versions.filter(({ kind }) => kind === "level").map(({ id }) => plain(id));
  const others = versions.filter(({ kind }) => kind === "adaptation").map(({ id }) => plain(id));
  const climbed = levels.length > 0 ? [`${levels.length === 1 ? "level" : "levels"} ${listed(levels)}`] : [];
  return [...climbed, ...others].join(", ");
}

function versionLine(version: Version, taught: string): string {
  const name = capital(versionNames([version]));
  if (version.id === taught) return `${name}: as taught here`;
  const own = new Set(version.moves.filter(({ option }) => option !== undefined).map(({ place }) => place)).size;
  return `${name}: ${own === 0 ? "the same moves" : `${counted(own, "move")} danced another way`}`;
}

function sectionLine(routine: Routine, index: number, times: number): string {
  const section = routine.sections[index];
  if (!section) return "";
  const side = section.mirrored ? ", on the other side" : "";
  const often = times > 1 ? `, ${times} times` : "";
  return `${plain(section.name)}: ${counted(section.counts, "count")}${side}${often}`;
}

import { dancersOf } from "../../routine/chart.js";
import { neededGear } from "../../routine/gear.js";
import type { Library, Routine, Version } from "../../routine/routine.js";
import { sheetSections } from "../../routine/sheet.js";
import { timesThrough } from "../../routine/times-through.js";
import type { MirroredBy } from "../../routine/vocabulary.js";
import { type Wording, wordingOf } from "../../wording/wording.js";
import { metCautions, versionNames } from "../met-cautions.js";
import { plain } from "../plain.js";

/** A paragraph of the description: its lines, or an empty text where the routine has nothing to say there. */
export type Paragraph = (routine: Routine, library: Library, upload: Upload) => string;

/** The film that a description stands under: the breakdown, or its mirrored one and how that came to be. */
export type Upload = "plain" | MirroredBy;

const saidIn = ({ language }: Library) => wordingOf(language).description;

/** First line: what it is and whose. */
export const title: Paragraph = ({ title, choreographer, styles, music }, library) => {
  const said = saidIn(library);
  return said.title(plain(title), plain(choreographer), songText(music, said), styles.map(plain));
};

/** Second line: the author's summary, or the routine's size. */
export const summary: Paragraph = (routine, library) => {
  const { summary, counts, music } = routine;
  const { description, time } = wordingOf(library.language);
  return plain(summary ?? description.size(counts, time.tempo(music), time.run(routine)));
};

/** Under a mirrored film: what is mirrored in it, and which counts go with it. */
export const side: Paragraph = (_, library, upload) => (upload === "plain" ? "" : saidIn(library).upload[upload]);

export const gear: Paragraph = ({ versions, groups }, library) => {
  const said = saidIn(library);
  const dancers = groups.length > 0 ? [said.groups(groups.map(plain))] : [];
  const items = neededGear(versions).map(({ item, need, why, by }) => {
    const only = by.length === versions.length ? undefined : versionNames(by, said);
    return said.gear(plain(item), need === "optional", only, why && plain(why));
  });
  return block(said.headings.need, [...dancers, ...items]);
};

export const versions: Paragraph = (routine, library) => {
  const { versions, audience } = routine;
  const said = saidIn(library);
  const ways = versions.length > 1 ? versions.map((version) => versionLine(routine, version, said)) : [];
  const who = said.audience[audience];
  return block(said.headings.versions, [...ways, ...(who === undefined ? [] : [who])]);
};

/** How it is danced through, where that is more than once. */
export const run: Paragraph = (routine, library) => {
  const built = timesThrough(routine);
  return built === undefined ? "" : wordingOf(library.language).run.timesThrough(built).join(" ");
};

/** The author's chapters; without times the sections in order, and no time is made up. */
export const contents: Paragraph = (routine, library, upload) => {
  const { description: said, time } = wordingOf(library.language);
  // A film that was danced anew has times of its own.
  const chapters = upload === "danced" ? [] : routine.video.chapters;
  if (chapters.length > 0)
    return block(
      said.headings.chapters,
      chapters.map(({ at, title }) => `${time.clock(at)} ${plain(title)}`),
    );
  return block(
    said.headings.sections,
    sheetSections(routine).flatMap(({ section: index, danced }) => {
      const section = routine.sections[index];
      if (section === undefined) return [];
      const size =
        section.seconds === undefined ? said.counts(section.counts) : said.uncounted(section.seconds.valueOf());
      return [said.section(plain(section.name), size, section.mirrored, danced.length)];
    }),
  );
};

export const speeds: Paragraph = (routine, library) => {
  const { practice, music } = routine;
  const { description: said, time } = wordingOf(library.language);
  const slower = practice.filter(({ percent }) => percent !== 100);
  return block(said.headings.speeds, [
    ...slower.map((speed) => said.speed(speed.percent, time.tempo(speed), time.run(speed))),
    said.fullTempo(time.tempo(music), time.run(routine)),
  ]);
};

/** Ways to the other films and to the page; from either film of the breakdown the other one comes first. */
export const links: Paragraph = ({ slug, video }, library, upload) => {
  const { links: names, link, headings } = saidIn(library);
  const line = (name: string, address: string | undefined) => (address ? [link(name, plain(address))] : []);
  const { performance, breakdown, mirrored } = video;
  const films = [
    ...line(names.breakdown, breakdown),
    ...(mirrored ? line(names.breakdownMirrored[mirrored.by], mirrored.address) : []),
  ];
  return block(headings.links, [
    ...line(names.performance, performance),
    ...(mirrored && upload === "plain" ? films.reverse() : films),
    ...line(names.page, library.url && `${library.url}/routines/${slug}/`),
  ]);
};

/** In one line: the risks, and whose word comes first. */
export const cautions: Paragraph = (routine, library) => {
  const { description: said, risks } = wordingOf(library.language);
  const met = metCautions(routine, library);
  return met.length > 0 ? said.cautions(met, risks.generalCaution) : "";
};

export const music: Paragraph = ({ music }, library) => {
  const said = saidIn(library);
  const song = songText(music, said);
  return song || music.link ? said.music(song, music.link && plain(music.link)) : "";
};

export const credit: Paragraph = (routine, library) => {
  const said = saidIn(library);
  return said.credit(plain(routine.credit ?? library.credit ?? said.choreographyBy(routine.choreographer)));
};

/** A tag is one word of letters, digits and underscores. */
export const tags: Paragraph = ({ styles }) =>
  styles
    .map((style) => style.replace(/[^\p{L}\p{M}\p{N}_]/gu, ""))
    .filter(Boolean)
    .map((style) => `#${style}`)
    .join(" ");

type Said = Wording["description"];

function block(heading: string, lines: readonly string[]): string {
  return lines.length > 0 ? [heading, ...lines].join("\n") : "";
}

function songText({ title, artist }: Routine["music"], said: Said): string {
  return said.song(title && plain(title), artist && plain(artist));
}

function versionLine(routine: Routine, version: Version, said: Said): string {
  const name = versionNames([version], said);
  if (version.id === routine.taught) return said.taught(name);
  const all = dancersOf(routine, version).map(({ group, moves }) => ({
    group,
    own: moves.filter(({ option }) => option !== undefined).map(({ place }) => place),
  }));
  const those = all.filter(({ own }) => own.length > 0);
  const groups = those.length < all.length ? those.flatMap(({ group }) => group ?? []) : [];
  return said.version(name, new Set(those.flatMap(({ own }) => own)).size, groups.map(plain));
}

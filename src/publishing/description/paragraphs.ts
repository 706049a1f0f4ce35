import { chart, countsBetween, type Dancers, dancersOf } from "../../routine/chart.js";
import { wholeRun } from "../../routine/clock.js";
import { neededGear } from "../../routine/gear.js";
import type { Library, Move, Routine, Stance, Version } from "../../routine/routine.js";
import { sheetSections } from "../../routine/sheet.js";
import { timesThrough } from "../../routine/times-through.js";
import type { MirroredBy } from "../../routine/vocabulary.js";
import { alike } from "../../routine/whose.js";
import { type Wording, wordingOf } from "../../wording/wording.js";
import { metCautions, versionNames } from "../met-cautions.js";
import { plain } from "../plain.js";
import { firstSentences } from "./first-sentences.js";
import { ownWays } from "./replaced.js";

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
  return plain(summary ?? description.size(counts, time.tempo(music), time.run(wholeRun(routine))));
};

/** Under a mirrored film: what is mirrored in it, and which counts go with it. */
export const side: Paragraph = (_, library, upload) => (upload === "plain" ? "" : saidIn(library).upload[upload]);

/** The author's introduction in its first sentences. On the other side its sides would be wrong: then it is left out. */
export const introduction: Paragraph = ({ prose, mirrored }, { language }) =>
  mirrored ? "" : plain(firstSentences(prose.introduction, language));

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

/** How it starts, each version that starts otherwise by name; the counts that land, and those on which nothing is danced. */
export const start: Paragraph = (routine, library) => {
  const { description: said, stance } = wordingOf(library.language);
  const { phrase, pauses } = routine.music;
  const from = starts(routine).map(({ start: how, groups, by }) =>
    said.starts(stance.whole(how), [...groups.map(plain), ...(by.length > 0 ? [versionNames(by, said)] : [])]),
  );
  const lands = landing(routine);
  return [
    said.start(from),
    ...(lands.length > 0 ? [said.lands(lands, phrase)] : []),
    ...(pauses.length > 0 ? [said.pauses(pauses.map(String), phrase)] : []),
  ].join("\n");
};

/** The counts that land hardest: as the author names them, or those of the taught version's hits where they are few. */
function landing(routine: Routine): readonly string[] {
  const { accents, phrase } = routine.music;
  if (accents.length > 0) return accents.map(String);
  const taught = routine.versions.find(({ id }) => id === routine.taught);
  const hits = (taught === undefined ? [] : dancersOf(routine, taught)).flatMap((dancers) =>
    chart(routine, dancers).flatMap((charted) =>
      charted.cells.flatMap(({ move, begins, from }) =>
        move?.hit === true && begins ? [countsBetween(routine, charted, from, from)] : [],
      ),
    ),
  );
  const counts = [...new Set(hits)].sort((a, b) => Number.parseInt(a, 10) - Number.parseInt(b, 10));
  return counts.length <= phrase / 2 ? counts : [];
}

interface Starting {
  readonly start: Stance;
  /** Those who start so, where not all do. */
  readonly groups: readonly string[];
  /** The versions that do, where the taught one does not. */
  readonly by: readonly Version[];
}

/** How the taught version starts, and the others that start otherwise. */
function starts(routine: Routine): readonly Starting[] {
  const look = ({ start }: Dancers) => JSON.stringify(start);
  const looks = (version: Version) => JSON.stringify(dancersOf(routine, version).map(look));
  const taught = routine.versions.filter(({ id }) => id === routine.taught);
  const others = routine.versions.filter((version) => taught.every((one) => looks(one) !== looks(version)));
  const kinds = new Set(others.map(looks));
  return [
    ...taught.map((version) => ({ version, by: [] as readonly Version[] })),
    ...[...kinds].flatMap((kind) => {
      const by = others.filter((version) => looks(version) === kind);
      return by.slice(0, 1).map((version) => ({ version, by }));
    }),
  ].flatMap(({ version, by }) =>
    alike(routine, version, look).map(({ dancers, names }) => ({ start: dancers.start, groups: names, by })),
  );
}

/** What each option stands in for, and where. */
export const options: Paragraph = (routine, library) => optionLines(routine, library, 8);

/** The same with more of it in figures. */
export const optionsInShort: Paragraph = (routine, library) => optionLines(routine, library, 3);

/** @param few a version with more places of its own in a section is told in figures there */
function optionLines(routine: Routine, library: Library, few: number): string {
  const { description: said, counts, risks } = wordingOf(library.language);
  const cues = (moves: readonly Move[]) =>
    moves.map(({ cue, improvised }) => (improvised ? counts.ownMove(plain(cue.text)) : plain(cue.text)));
  const ways = ownWays(routine).map((way) => ({
    ...way,
    who: said.whose(versionNames([way.version], said), way.groups.map(plain)),
    own: way.replacements.flatMap(({ moves }) => moves).length,
    isMany: way.replacements.length > few,
  }));
  const lines = [...new Set(ways.map(({ who }) => who))].flatMap((who) => {
    const own = ways.filter((way) => way.who === who);
    const many = own.filter(({ isMany }) => isMany);
    const names = many.map(({ section }) => plain(section.name));
    const moves = many.reduce((sum, way) => sum + way.own, 0);
    return [
      ...own.flatMap(({ section, replacements, isMany }) =>
        (isMany ? [] : replacements).map(({ part, moves, instead, risks: met }) =>
          said.option(
            who,
            said.parts[part](plain(section.name)),
            moves.map(({ on }) => counts.span(on)),
            cues(moves),
            {
              instead: cues(instead),
              cautions: met.map(risks.label),
            },
          ),
        ),
      ),
      ...(many.length > 0 ? [said.manyOptions(who, names, moves)] : []),
    ];
  });
  return block(said.headings.options, lines);
}

/** Where it does not go on as around it: another tempo, time without counts, and what is the dancers' own. */
export const changes: Paragraph = (routine, library, upload) => {
  const { description: said, time } = wordingOf(library.language);
  const listed = contentsOf(routine, upload).length === 0;
  const lines = sheetSections(routine).flatMap(({ section: index }) => {
    const section = routine.sections[index];
    if (section === undefined) return [];
    const { seconds, improvised, countsPerMinute } = section;
    const [tempo, whole] = [countsPerMinute, routine.music.countsPerMinute];
    const pace = tempo.mul(2).equals(whole) ? "half" : tempo.equals(whole.mul(2)) ? "double" : "other";
    const facts = [
      ...(seconds !== undefined && !listed ? [said.uncounted(seconds.valueOf())] : []),
      ...(seconds === undefined && !tempo.equals(whole) ? [said.pace[pace](time.tempo(section))] : []),
      ...(improvised ? [said.own] : []),
    ];
    return facts.length > 0 ? [said.change(plain(section.name), facts)] : [];
  });
  return block(said.headings.changes, [...new Set(lines)]);
};

/** How it is danced through, where that is more than once. */
export const run: Paragraph = (routine, library) => {
  const built = timesThrough(routine);
  return built === undefined ? "" : wordingOf(library.language).run.timesThrough(built).join(" ");
};

/** The author's chapters; without times the sections in order, and no time is made up. */
export const contents: Paragraph = (routine, library, upload) => {
  const { description: said, time } = wordingOf(library.language);
  const chapters = contentsOf(routine, upload);
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

/** A film that was danced anew has times of its own. */
function contentsOf({ video }: Routine, upload: Upload): Routine["video"]["chapters"] {
  return upload === "danced" ? [] : video.chapters;
}

export const speeds: Paragraph = (routine, library) => {
  const { practice, music } = routine;
  const { description: said, time } = wordingOf(library.language);
  const slower = practice.filter(({ percent }) => percent !== 100);
  return block(said.headings.speeds, [
    ...slower.map((speed) => said.speed(speed.percent, time.tempo(speed), time.run(wholeRun(routine, speed)))),
    said.fullTempo(time.tempo(music), time.run(wholeRun(routine))),
  ]);
};

/** Ways to the other films and to the page; from either film of the breakdown the other one comes first. */
export const links: Paragraph = ({ slug, video }, library, upload) => {
  const { links: names, link, headings } = saidIn(library);
  const line = (name: string, address: string | undefined) => (address ? [link(name, plain(address))] : []);
  const { breakdown, mirrored } = video;
  const films = [
    ...line(names.breakdown, breakdown),
    ...(mirrored ? line(names.breakdownMirrored[mirrored.by], mirrored.address) : []),
  ];
  return block(headings.links, [
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

/** That the film has no music, and where it is. */
export const music: Paragraph = ({ music, video }, library) => {
  const said = saidIn(library);
  return said.music(
    songText(music, said),
    music.link && plain(music.link),
    video.performance && plain(video.performance),
  );
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

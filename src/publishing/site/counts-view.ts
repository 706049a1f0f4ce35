import Fraction from "fraction.js";
import type { DancedPhrase, DancedSection, Move, Routine, Version } from "../../routine/routine.js";
import { sheetSections } from "../../routine/sheet.js";
import { momentLink, tempoText, trackText, trackTime } from "../figures.js";
import { safeAddress } from "./address.js";
import { bothSides } from "./cue-html.js";
import { type Html, html, raw } from "./html.js";
import { markdownHtml } from "./markdown.js";
import { type MoveView, moveView } from "./move-view.js";
import { classesFor } from "./version-choice.js";

/** A section as the page shows it: once, with every time that it is danced. */
export interface SectionView {
  /** The anchor of its heading. */
  readonly id: string;
  /** Which danced section is printed, from 0. */
  readonly danced: number;
  readonly name: string;
  readonly words?: string;
  readonly counts: number;
  /** True where it is danced on the other side. */
  readonly otherSide: boolean;
  /** Only where it differs from the routine's. */
  readonly countsPerMinute?: string;
  /** Track times of its first count, one a time danced, with which time that is where there are several. */
  readonly times: readonly { readonly clock: string; readonly wall?: number }[];
  /** Ways into the videos at its first count. */
  readonly videos: readonly Html[];
  readonly note: Html;
  readonly phrases: readonly PhraseView[];
}

export interface PhraseView {
  /** From 1 within the section. */
  readonly number: number;
  /** Its counts: "1–8". */
  readonly counts: string;
  /** Track time of its first count. */
  readonly clock: string;
  /** What is called in place of the numbers. */
  readonly say?: Html;
  readonly moves: readonly MoveView[];
}

/** The counts of all versions, each different row once. `mirrored` is the same routine reflected. */
export function countsView(routine: Routine, mirrored: Routine): readonly SectionView[] {
  const moves = byPhrase(routine, mirrored);
  return sheetSections(routine).map(({ section, danced }, index) => {
    const printed = routine.sections[section] as DancedSection;
    const other = mirrored.sections[section] as DancedSection;
    const several = routine.times > 1;
    return {
      id: `section-${index + 1}`,
      danced: section,
      name: printed.name,
      ...(printed.words === undefined ? {} : { words: printed.words }),
      counts: printed.counts,
      otherSide: printed.mirrored,
      ...(printed.countsPerMinute.equals(routine.music.countsPerMinute)
        ? {}
        : { countsPerMinute: tempoText(printed.countsPerMinute) }),
      times: danced.map((pass) => {
        const { start, wall } = routine.sections[pass] as DancedSection;
        return { clock: trackText(trackTime(routine, start)), ...(several ? { wall } : {}) };
      }),
      videos: videoLinks(routine, printed),
      note: noteOf(routine, printed),
      phrases: printed.phrases.map((phrase, at) =>
        phraseView(routine, printed, phrase, other.phrases[at] ?? phrase, moves(section, phrase.number)),
      ),
    };
  });
}

function noteOf(routine: Routine, { name, sameAs }: DancedSection): Html {
  const note = (of?: string) => routine.prose.notes.find(({ section }) => section === of);
  return markdownHtml((note(name) ?? note(sameAs))?.markdown ?? "");
}

/** A section's place in the videos: in the performance by the track's clock, in the breakdown by the chapter named after it. */
function videoLinks(routine: Routine, section: DancedSection): readonly Html[] {
  const { performance, breakdown, breakdownMirrored, chapters } = routine.video;
  const at = (address: string | undefined, seconds: Fraction) => {
    const safe = address === undefined ? undefined : safeAddress(address);
    return safe === undefined ? undefined : momentLink(safe, seconds);
  };
  const link = (href: string | undefined, text: string) =>
    href === undefined ? raw("") : html`<a href="${href}">${text}</a>`;
  const chapter = chapters.find(({ title }) => title.toLowerCase().includes(section.name.toLowerCase()));
  const taught = link(chapter && at(breakdown, chapter.at), "Breakdown");
  const other = link(chapter && at(breakdownMirrored, chapter.at), "Breakdown, mirrored");
  const danced = link(at(performance, trackTime(routine, section.start)), "Performance");
  return [bothSides(taught, other.html === "" ? taught : other), danced].filter((each) => each.html !== "");
}

interface Danced {
  readonly version: Version;
  readonly move: Move;
  readonly mirrored: Move;
}

/** Every version's moves by section and phrase, each beside itself on the other side. */
function byPhrase(routine: Routine, mirrored: Routine): (section: number, phrase: number) => readonly Danced[] {
  const phrases = new Map<string, Danced[]>();
  routine.versions.forEach((version, v) => {
    version.moves.forEach((move, m) => {
      const key = `${move.section} ${move.phrase}`;
      const danced = { version, move, mirrored: mirrored.versions[v]?.moves[m] ?? move };
      const list = phrases.get(key);
      if (list) list.push(danced);
      else phrases.set(key, [danced]);
    });
  });
  return (section, phrase) => phrases.get(`${section} ${phrase}`) ?? [];
}

function phraseView(
  routine: Routine,
  section: DancedSection,
  phrase: DancedPhrase,
  mirrored: DancedPhrase,
  danced: readonly Danced[],
): PhraseView {
  const start = section.start.add(new Fraction(60 * (phrase.at - section.at)).div(section.countsPerMinute));
  const [first, last] = [phrase.numbers[0], phrase.numbers.at(-1)];
  const say = (side: DancedPhrase) => html`${side.say?.join(" ")}`;
  return {
    number: phrase.number,
    counts: first === last ? `${first}` : `${first}–${last}`,
    clock: trackText(trackTime(routine, start)),
    ...(phrase.say === undefined ? {} : { say: bothSides(say(phrase), say(mirrored)) }),
    moves: rowsOf(routine, danced),
  };
}

/** What several versions dance alike is one row. Rows stand in the order of their counts, the taught level's before others. */
function rowsOf(routine: Routine, danced: readonly Danced[]): readonly MoveView[] {
  const rows = new Map<string, { readonly first: Danced; readonly versions: Set<string> }>();
  for (const one of danced) {
    const key = sameRow(one.move);
    const row = rows.get(key);
    if (row) row.versions.add(one.version.id);
    else rows.set(key, { first: one, versions: new Set([one.version.id]) });
  }
  const later = (versions: ReadonlySet<string>) => (versions.has(routine.taught) ? 0 : 1);
  return [...rows.values()]
    .sort((a, b) => a.first.move.at.compare(b.first.move.at) || later(a.versions) - later(b.versions))
    .map(({ first, versions }) => moveView(first.move, first.mirrored, classesFor(routine, versions)));
}

/** Two moves with the same key look the same on the page: one place in the file, danced from and to the same stance. */
function sameRow({ place, at, length, option, before, after, risks }: Move): string {
  const stances = [before, after].map(({ facing, weight, height }) => `${facing} ${weight} ${height}`);
  return [place, at.toFraction(), length.toFraction(), option ?? "", ...stances, ...risks].join("|");
}

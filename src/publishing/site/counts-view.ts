import type Fraction from "fraction.js";
import { chapterOf } from "../../routine/chapters.js";
import { countStart, shownTrackTime, trackTime } from "../../routine/clock.js";
import { mirrorCue } from "../../routine/mirror-cue.js";
import type { DancedPhrase, DancedSection, Routine } from "../../routine/routine.js";
import { sheetSections } from "../../routine/sheet.js";
import { oppositeGroups } from "../../routine/whose.js";
import type { Wording } from "../../wording/wording.js";
import { feelTexts } from "../feel-texts.js";
import { momentLink } from "../format.js";
import { safeAddress } from "./address.js";
import { anchorNames } from "./anchors.js";
import { bothSides } from "./cue-html.js";
import { type Html, html, raw } from "./html.js";
import { type LineView, linesView } from "./lines-view.js";
import { markdownHtml } from "./markdown.js";
import { entriesByPhrase, type PhraseEntry } from "./phrase-entries.js";
import { type Across, acrossAll, doubtAt, rowViews } from "./rows-view.js";

/** A section as the page shows it: once, with every time that it is danced. */
export interface SectionView {
  /** The anchor of its heading. */
  readonly id: string;
  /** Which danced section is printed, from 0. */
  readonly danced: number;
  readonly name: string;
  readonly words: string | undefined;
  readonly counts: number;
  /** Of time without counts: how long it lasts. */
  readonly seconds: number | undefined;
  /** True where all of it is the dancers' own. */
  readonly improvised: boolean;
  /** True where it is danced on the other side. */
  readonly otherSide: boolean;
  /** Only where it differs from the routine's. */
  readonly countsPerMinute: string | undefined;
  /**
   * Track times of its first count, where they are known, one a time danced, with which time that is where there are several:
   * "wall 2".
   */
  readonly times: readonly { readonly clock: string | undefined; readonly through: string | undefined }[];
  /** How its counts are divided, where that is not as around them. */
  readonly feel: readonly string[];
  /** Danced on those times through only. */
  readonly tag: boolean;
  /** How groups in canon follow: "Late: the same, 4 counts later". */
  readonly canon: readonly string[];
  /** Ways into the videos at its first count. */
  readonly videos: readonly Html[];
  readonly note: Html;
  /** What the author is not sure of yet. */
  readonly doubt: string | undefined;
  readonly phrases: readonly PhraseView[];
}

export interface PhraseView {
  /** From 1 within the section. */
  readonly number: number;
  /** Its address in the page: "harbour-wall-2". */
  readonly anchor: string;
  /** Its counts: "1–8". */
  readonly counts: string;
  /** Track time of its first count, where it is known. */
  readonly clock: string | undefined;
  /** What is called in place of the numbers. */
  readonly say: Html | undefined;
  /** Where every move that is some groups' own is danced by others on the other side: said of it once. */
  readonly across: Across | undefined;
  readonly lines: readonly LineView[];
}

/** The counts of all versions, each different row once. */
export function countsView(routine: Routine, wording: Wording): readonly SectionView[] {
  const sheet = sheetSections(routine);
  const entries = entriesByPhrase(routine, new Set(sheet.map(({ section }) => section)), wording);
  const printedAt = (section: number) => routine.sections[section] as DancedSection;
  const anchors = anchorNames(sheet.map(({ section }) => printedAt(section).name));
  return sheet.map(({ section, danced }, index) => {
    const printed = printedAt(section);
    const anchorOf = (phrase: DancedPhrase) => `${anchors[index]}-${phrase.number}`;
    const tempo = printed.countsPerMinute;
    return {
      id: `section-${index + 1}`,
      danced: section,
      name: printed.name,
      words: printed.words,
      counts: printed.counts,
      seconds: printed.seconds?.valueOf(),
      improvised: printed.improvised,
      otherSide: printed.mirrored,
      countsPerMinute: tempo.equals(routine.music.countsPerMinute) ? undefined : wording.time.tempo(printed),
      times: timeViews(routine, danced, wording),
      feel: feelTexts(routine, printed, wording),
      tag: printed.tag,
      canon: canonTexts(routine, printed, wording),
      videos: videoLinks(routine, printed, wording),
      note: noteOf(routine, printed),
      doubt: doubtAt(routine, printed.place),
      phrases: printed.phrases.map((phrase) =>
        phraseView({ routine, section: printed, wording }, phrase, entries(section, phrase.number), anchorOf(phrase)),
      ),
    };
  });
}

function timeViews(routine: Routine, danced: readonly number[], wording: Wording): SectionView["times"] {
  const times = danced.map((pass) => timeView(routine, routine.sections[pass] as DancedSection, wording));
  // Without its place in the track, a repeat has nothing to say that its time through has not said.
  return times.filter(
    ({ clock, through }, index) => clock !== undefined || times.findIndex((one) => one.through === through) === index,
  );
}

function timeView(routine: Routine, { start, wall }: DancedSection, wording: Wording): SectionView["times"][number] {
  const { sections } = wording;
  const through = routine.walls > 1 ? sections.wall(wall) : sections.time(wall);
  return { clock: clockOf(routine, start, wording), through: routine.times > 1 ? through : undefined };
}

function clockOf(routine: Routine, seconds: Fraction, { time }: Wording): string | undefined {
  const shown = shownTrackTime(routine, seconds);
  return shown && time.track(shown);
}

function canonTexts(routine: Routine, { canon }: DancedSection, { sections }: Wording): readonly string[] {
  if (canon.length === 0) return [];
  const across = oppositeGroups(routine);
  return canon.map(({ group, after }) => sections.canon(group, after, across.has(group)));
}

function noteOf(routine: Routine, { name, sameAs }: DancedSection): Html {
  const note = (of?: string) => routine.prose.notes.find(({ section }) => section === of);
  return markdownHtml((note(name) ?? note(sameAs))?.markdown ?? "");
}

/** A section's place in the videos: in the performance by the track's clock, in the breakdown by the chapter named after it. */
function videoLinks(routine: Routine, section: DancedSection, { videos }: Wording): readonly Html[] {
  const { performance, breakdown, mirrored } = routine.video;
  const at = (address: string | undefined, seconds: Fraction | undefined) => {
    const safe = address === undefined ? undefined : safeAddress(address);
    return safe === undefined || seconds === undefined ? undefined : momentLink(safe, seconds);
  };
  const link = (href: string | undefined, text: string) =>
    href === undefined ? raw("") : html`<a href="${href}">${text}</a>`;
  const chapter = chapterOf(routine, section.name);
  const taught = link(chapter && at(breakdown, chapter.at), videos.toBreakdown);
  // A film that was danced anew has times of its own.
  const flipped = link(
    chapter && at(mirrored?.by === "flipped" ? mirrored.address : undefined, chapter.at),
    videos.toFlipped,
  );
  const danced = link(at(performance, trackTime(routine, section.start)), videos.toPerformance);
  return [taught, flipped, danced].filter((each) => each.html !== "");
}

interface SectionContext {
  readonly routine: Routine;
  readonly section: DancedSection;
  readonly wording: Wording;
}

function phraseView(
  { routine, section, wording }: SectionContext,
  phrase: DancedPhrase,
  entries: readonly PhraseEntry[],
  anchor: string,
): PhraseView {
  const { number, at, numbers, say } = phrase;
  const { phrase: whole, accents } = routine.music;
  const rows = rowViews(routine, entries, wording);
  const start = countStart(section, at);
  const [first, last] = [numbers[0], numbers.at(-1)];
  const aloud = say?.filter((text) => text !== "") ?? [];
  const called = aloud.join(" ");
  const other = aloud.map((text) => mirrorCue({ text, marks: [] }, routine.mirrorWords).text).join(" ");
  return {
    number,
    anchor,
    counts: first === last ? `${first}` : `${first}–${last}`,
    clock: clockOf(routine, start, wording),
    say: called === "" ? undefined : bothSides(html`${called}`, html`${other}`),
    across: acrossAll(rows),
    lines: linesView(phrase, rows, { whole, accents, name: anchor }),
  };
}

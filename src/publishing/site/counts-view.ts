import type Fraction from "fraction.js";
import { chapterOf } from "../../routine/chapters.js";
import { countStart, shownTrackTime, trackTime } from "../../routine/clock.js";
import { mirrorCue } from "../../routine/mirror-cue.js";
import type { Place } from "../../routine/problem.js";
import type { DancedPhrase, DancedSection, Routine } from "../../routine/routine.js";
import { sheetSections } from "../../routine/sheet.js";
import type { Wording } from "../../wording/wording.js";
import { feelTexts } from "../feel-texts.js";
import { momentLink } from "../format.js";
import { safeAddress } from "./address.js";
import { bothSides } from "./cue-html.js";
import { type Html, html, raw } from "./html.js";
import { markdownHtml } from "./markdown.js";
import { holdView, type MoveView, moveView, type RowDancers } from "./move-view.js";
import { entriesByPhrase, looksAlike, oppositeGroups, type PhraseEntry } from "./phrase-entries.js";
import { classesFor, groupClasses } from "./version-choice.js";

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
  /** Its counts: "1–8". */
  readonly counts: string;
  /** Track time of its first count, where it is known. */
  readonly clock: string | undefined;
  /** What is called in place of the numbers. */
  readonly say: Html | undefined;
  readonly moves: readonly MoveView[];
}

/** The counts of all versions, each different row once. */
export function countsView(routine: Routine, wording: Wording): readonly SectionView[] {
  const sheet = sheetSections(routine);
  const entries = entriesByPhrase(routine, new Set(sheet.map(({ section }) => section)), wording);
  return sheet.map(({ section, danced }, index) => {
    const printed = routine.sections[section] as DancedSection;
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
        phraseView(routine, printed, phrase, entries(section, phrase.number), wording),
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

function doubtAt({ doubts }: Routine, place: Place): string | undefined {
  return doubts.find((one) => one.place === place)?.text;
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

function phraseView(
  routine: Routine,
  section: DancedSection,
  { number, at, numbers, say }: DancedPhrase,
  entries: readonly PhraseEntry[],
  wording: Wording,
): PhraseView {
  const start = countStart(section, at);
  const [first, last] = [numbers[0], numbers.at(-1)];
  const aloud = say?.filter((text) => text !== "") ?? [];
  const called = aloud.join(" ");
  const other = aloud.map((text) => mirrorCue({ text, marks: [] }, routine.mirrorWords).text).join(" ");
  return {
    number,
    counts: first === last ? `${first}` : `${first}–${last}`,
    clock: clockOf(routine, start, wording),
    say: called === "" ? undefined : bothSides(html`${called}`, html`${other}`),
    moves: rowsOf(routine, entries, wording),
  };
}

/** What several versions or groups dance alike. */
interface Row {
  readonly entry: PhraseEntry;
  readonly versions: ReadonlySet<string>;
  readonly groups: ReadonlySet<string>;
}

/**
 * What several versions and groups dance alike is one row. Rows stand in the order of their counts, what the first group
 * and the taught level dance before the rest.
 */
function rowsOf(routine: Routine, entries: readonly PhraseEntry[], wording: Wording): readonly MoveView[] {
  const rank = ({ groups, versions }: Row) =>
    (groups.has(routine.groups[0] ?? "") ? 0 : 2) + (versions.has(routine.taught) ? 0 : 1);
  return alike(byGroups(entries), (a, b) => looksAlike(a.entry, b.entry) && sameGroups(a.groups, b.groups))
    .map((same): Row => ({ ...same[0], versions: new Set(same.map(({ entry }) => entry.version)) }))
    .sort((a, b) => a.entry.at.compare(b.entry.at) || rank(a) - rank(b))
    .map((row) => rowView(routine, row, wording));
}

/** What the groups of each version do, each different thing once with the groups that do it. */
function byGroups(entries: readonly PhraseEntry[]): readonly Omit<Row, "versions">[] {
  return alike(entries, (a, b) => a.version === b.version && looksAlike(a, b)).map((same) => ({
    entry: same[0],
    groups: new Set(same.map(({ group }) => group)),
  }));
}

function sameGroups(a: ReadonlySet<string>, b: ReadonlySet<string>): boolean {
  return a.size === b.size && [...a].every((name) => b.has(name));
}

/** Values in lists of those that are alike, in the order of the first of each. */
function alike<Value>(
  values: readonly Value[],
  are: (a: Value, b: Value) => boolean,
): readonly (readonly [Value, ...Value[]])[] {
  const lists: [Value, ...Value[]][] = [];
  for (const value of values) {
    const list = lists.find(([first]) => are(first, value));
    if (list) list.push(value);
    else lists.push([value]);
  }
  return lists;
}

/** A move in canon stands on the room's counts, with the dancer's own beside the name. */
function rowView(routine: Routine, { entry, versions, groups }: Row, wording: Wording): MoveView {
  const { move, holdCounts, roomCounts } = entry;
  const someGroups = routine.groups.length > groups.size;
  const names = [...groups].join(", ");
  const dancers: RowDancers = {
    classes: `${classesFor(routine, versions)} ${someGroups ? groupClasses(routine, groups) : ""}`.trim(),
    groups: someGroups ? names : "",
  };
  if (!move) return holdView(holdCounts, dancers, wording);
  const doubt = doubtAt(routine, move.place);
  const plain = moveView(move, routine.mirrorWords, dancers, wording);
  const view = doubt === undefined ? plain : { ...plain, doubt };
  if (roomCounts === undefined || roomCounts === view.on) return view;
  return { ...view, on: roomCounts, groups: wording.sections.ownCounts(names, view.on) };
}

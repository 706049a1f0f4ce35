import Fraction from "fraction.js";
import type { DancedPhrase, DancedSection, Routine } from "../../routine/routine.js";
import { sheetSections } from "../../routine/sheet.js";
import { momentLink, tempoText, trackText, trackTime } from "../figures.js";
import { safeAddress } from "./address.js";
import { bothSides } from "./cue-html.js";
import { type Deed, deedsByPhrase } from "./dancers.js";
import { type Html, html, raw } from "./html.js";
import { markdownHtml } from "./markdown.js";
import { type Dancers, holdView, type MoveView, moveView } from "./move-view.js";
import { classesFor, groupClasses } from "./version-choice.js";

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
  const deeds = deedsByPhrase(routine, mirrored);
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
        phraseView(routine, printed, phrase, other.phrases[at] ?? phrase, deeds(section, phrase.number)),
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

function phraseView(
  routine: Routine,
  section: DancedSection,
  phrase: DancedPhrase,
  mirrored: DancedPhrase,
  deeds: readonly Deed[],
): PhraseView {
  const start = section.start.add(new Fraction(60 * (phrase.at - section.at)).div(section.countsPerMinute));
  const [first, last] = [phrase.numbers[0], phrase.numbers.at(-1)];
  const say = (side: DancedPhrase) => html`${side.say?.join(" ")}`;
  return {
    number: phrase.number,
    counts: first === last ? `${first}` : `${first}–${last}`,
    clock: trackText(trackTime(routine, start)),
    ...(phrase.say === undefined ? {} : { say: bothSides(say(phrase), say(mirrored)) }),
    moves: rowsOf(routine, deeds),
  };
}

interface Row {
  readonly deed: Deed;
  readonly versions: Set<string>;
  readonly groups: ReadonlySet<string>;
}

/**
 * What several versions and groups dance alike is one row. Rows stand in the order of their counts, what the first group
 * and the taught level dance before the rest.
 */
function rowsOf(routine: Routine, deeds: readonly Deed[]): readonly MoveView[] {
  const rows = new Map<string, Row>();
  for (const { id } of routine.versions)
    for (const { deed, groups } of byGroups(deeds.filter(({ version }) => version === id))) {
      const key = `${deed.key}|${[...groups].join("|")}`;
      const row = rows.get(key);
      if (row) row.versions.add(id);
      else rows.set(key, { deed, groups, versions: new Set([id]) });
    }
  const rank = ({ groups, versions }: Row) =>
    (groups.has(routine.groups[0] ?? "") ? 0 : 2) + (versions.has(routine.taught) ? 0 : 1);
  return [...rows.values()]
    .sort((a, b) => a.deed.at - b.deed.at || rank(a) - rank(b))
    .map((row) => rowView(routine, row));
}

/** What the groups of one version do, each different thing once with the groups that do it. */
function byGroups(deeds: readonly Deed[]): readonly { readonly deed: Deed; readonly groups: Set<string> }[] {
  const found = new Map<string, { readonly deed: Deed; readonly groups: Set<string> }>();
  for (const deed of deeds) {
    const same = found.get(deed.key);
    if (same) same.groups.add(deed.group);
    else found.set(deed.key, { deed, groups: new Set([deed.group]) });
  }
  return [...found.values()];
}

function rowView(routine: Routine, { deed: { does }, versions, groups }: Row): MoveView {
  const someGroups = routine.groups.length > groups.size;
  const who: Dancers = {
    classes: [classesFor(routine, versions), someGroups ? groupClasses(routine, groups) : ""].filter(Boolean).join(" "),
    ...(someGroups ? { groups: [...groups].join(", ") } : {}),
  };
  return "holds" in does ? holdView(does.holds, who) : moveView(does.move, does.mirrored, who);
}

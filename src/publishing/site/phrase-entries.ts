import type Fraction from "fraction.js";
import { type Cell, chart, countsBetween, dancersOf, moveEnd } from "../../routine/chart.js";
import type { Move, Routine } from "../../routine/routine.js";
import type { Wording } from "../../wording/wording.js";

/** What one version, and one group in it, does on some counts of a phrase: a move, or a hold that nobody wrote. */
export interface PhraseEntry {
  readonly version: string;
  /** Empty where all dance the same. */
  readonly group: string;
  /** Its start here, in counts from the routine's first. */
  readonly at: Fraction;
  /** The same and its end here, in counts from the phrase's first. */
  readonly from: number;
  readonly to: number;
  /** False where it goes on from the phrase before. */
  readonly begins: boolean;
  readonly move: Move | undefined;
  /** The counts of a hold that nobody wrote. */
  readonly holdCounts: string;
  /** Of a move in canon: the room's counts, where its own numbers are others. */
  readonly roomCounts: string | undefined;
}

/**
 * Looks up what everybody does in a phrase, given by its section (from 0) and its number in it. A move that runs on stands in
 * every phrase that it lasts over, and begins in one of them.
 *
 * @param wanted sections that will be asked for
 */
export function entriesByPhrase(
  routine: Routine,
  wanted: ReadonlySet<number>,
  { counts }: Wording,
): (section: number, phrase: number) => readonly PhraseEntry[] {
  const phrases = new Map<string, PhraseEntry[]>();
  for (const version of routine.versions)
    for (const { group = "", ...dancers } of dancersOf(routine, version))
      for (const charted of chart(routine, dancers)) {
        if (!wanted.has(charted.section)) continue;
        const inCanon = routine.sections[charted.section]?.canon.some((one) => one.group === group);
        const countsOf = ({ from }: Cell, to: Fraction) => counts.span(countsBetween(routine, charted, from, to));
        const within = (at: Fraction) => at.sub(charted.phrase.at).valueOf();
        const entries = charted.cells.map((cell): PhraseEntry => {
          const { move, from: at, to, begins } = cell;
          const holdCounts = move === undefined ? countsOf(cell, to) : "";
          const roomCounts = move !== undefined && inCanon ? countsOf(cell, moveEnd(move)) : undefined;
          const place = { at, from: within(at), to: within(to), begins };
          return { version: version.id, group, ...place, move, holdCounts, roomCounts };
        });
        const key = `${charted.section} ${charted.phrase.number}`;
        phrases.set(key, [...(phrases.get(key) ?? []), ...entries]);
      }
  return (section, phrase) => phrases.get(`${section} ${phrase}`) ?? [];
}

/** Whether two entries look the same: on the same count, from one place in the file, with the same told of the body. */
export function looksAlike(a: PhraseEntry, b: PhraseEntry): boolean {
  if (!a.at.equals(b.at) || a.begins !== b.begins) return false;
  const [one, other] = [a.move, b.move];
  if (one === undefined || other === undefined) return one === other && a.holdCounts === b.holdCounts;
  return (
    one.place === other.place &&
    one.option === other.option &&
    one.length.equals(other.length) &&
    one.cue.text === other.cue.text &&
    sameList(changesOf(one), changesOf(other)) &&
    sameList(one.risks, other.risks) &&
    sameList(one.cautions, other.cautions)
  );
}

/** Whether another entry is the same move at the same time, on the other side. */
export function isOtherSide({ at, begins, move: one }: PhraseEntry, { move: other, ...entry }: PhraseEntry): boolean {
  if (one === undefined || other === undefined || !at.equals(entry.at) || begins !== entry.begins) return false;
  return (
    one.place === other.place &&
    one.option === other.option &&
    one.length.equals(other.length) &&
    one.cue.text === other.mirroredCue.text &&
    sameList(one.risks, other.risks) &&
    sameList(one.cautions, other.cautions)
  );
}

/** Where a move ends, as far as it goes there: how somebody stands who goes nowhere is told of no row. */
function changesOf({ before, after }: Move): readonly string[] {
  const ways = ["facing", "weight", "height"] as const;
  return ways.map((way) => (before[way] === after[way] ? "" : `${after[way]}`));
}

function sameList(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((one, index) => one === b[index]);
}

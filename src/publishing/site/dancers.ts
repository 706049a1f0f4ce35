import type { DancedPhrase, Move, Routine, Stance } from "../../routine/routine.js";
import type { Feel } from "../../routine/vocabulary.js";

/** What one version, and one group in it, does on some counts of a phrase: a move, or a hold that nobody wrote. */
export interface PhraseEntry {
  readonly version: string;
  /** Empty where all dance the same. */
  readonly group: string;
  /** Its start, in counts from the routine's first. */
  readonly at: number;
  readonly move: Move | undefined;
  /** The counts of a hold that nobody wrote. */
  readonly holdCounts: string;
  /** Of a move in canon: the room's counts, where its own numbers are others. */
  readonly roomCounts: string | undefined;
}

/** Groups that dance as the first one does, on the other side. */
export function oppositeGroups({ versions }: Routine): ReadonlySet<string> {
  const opposite = versions.flatMap(({ moves, groups }) => {
    const first = new Map(moves.map((move) => [move.place, move]));
    return groups.filter((group) => {
      const pairs = group.moves.flatMap((move) => {
        const model = first.get(move.place);
        return model === undefined ? [] : [[move, model] as const];
      });
      const exchanged = ([move, model]: (typeof pairs)[number]) => move.cue.text === model.mirroredCue.text;
      const differs = ([move, model]: (typeof pairs)[number]) => move.cue.text !== model.cue.text;
      return pairs.every(exchanged) && pairs.some(differs);
    });
  });
  return new Set(opposite.map(({ name }) => name));
}

/** Counts closer than this are one; a third of a count is not exact as a number. */
const tolerance = 1e-6;

/**
 * Looks up what everybody does in a phrase, given by its section (from 0) and its number in it.
 *
 * @param wanted sections that will be asked for
 */
export function entriesByPhrase(
  routine: Routine,
  wanted: ReadonlySet<number>,
): (section: number, phrase: number) => readonly PhraseEntry[] {
  const phrases = new Map<string, PhraseEntry[]>();
  for (const { id, moves, groups } of routine.versions)
    for (const danced of [{ name: routine.groups[0] ?? "", moves }, ...groups])
      addEntries(phrases, routine, wanted, id, danced.name, danced.moves);
  return (section, phrase) => phrases.get(`${section} ${phrase}`) ?? [];
}

/**
 * Goes through the phrases as danced; where no move fills the counts there is a hold. A move may run on into later phrases, and
 * in a canon it stands in the phrase that the room counts as it begins.
 */
function addEntries(
  phrases: Map<string, PhraseEntry[]>,
  routine: Routine,
  wanted: ReadonlySet<number>,
  version: string,
  group: string,
  moves: readonly Move[],
): void {
  let [next, until] = [0, 0];
  routine.sections.forEach((section, index) => {
    for (const phrase of section.phrases) {
      const entries: PhraseEntry[] = [];
      const holdUntil = (to: number) => {
        if (to <= until + tolerance) return;
        const holdCounts = holdText(phrase, section.feel, until, to);
        entries.push({ version, group, at: until, move: undefined, holdCounts, roomCounts: undefined });
      };
      until = Math.max(until, phrase.at);
      const end = phrase.at + phrase.numbers.length;
      const inCanon = section.canon.some((one) => one.group === group);
      for (let move = moves[next]; move && move.at.valueOf() < end - tolerance; move = moves[next]) {
        const [at, length] = [move.at.valueOf(), move.length.valueOf()];
        holdUntil(at);
        const roomCounts = inCanon ? roomText(routine, phrase, section.feel, at, at + length) : undefined;
        entries.push({ version, group, at, move, holdCounts: "", roomCounts });
        until = at + length;
        next++;
      }
      holdUntil(end);
      until = Math.max(until, end);
      if (wanted.has(index)) add(phrases, `${index} ${phrase.number}`, entries);
    }
  });
}

function add(phrases: Map<string, PhraseEntry[]>, id: string, entries: readonly PhraseEntry[]): void {
  const there = phrases.get(id);
  if (there) there.push(...entries);
  else phrases.set(id, [...entries]);
}

/** Whether two entries look the same: on the same count, from one place in the file, from and to the same stance. */
export function looksAlike(a: PhraseEntry, b: PhraseEntry): boolean {
  if (Math.abs(a.at - b.at) > tolerance) return false;
  const [one, other] = [a.move, b.move];
  if (one === undefined || other === undefined) return one === other && a.holdCounts === b.holdCounts;
  return (
    one.place === other.place &&
    one.option === other.option &&
    one.length.equals(other.length) &&
    one.cue.text === other.cue.text &&
    sameStance(one.before, other.before) &&
    sameStance(one.after, other.after) &&
    sameList(one.risks, other.risks)
  );
}

function sameStance(a: Stance, b: Stance): boolean {
  return a.facing === b.facing && a.weight === b.weight && a.height === b.height;
}

function sameList(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((one, index) => one === b[index]);
}

/** The room's counts on which a move in canon is danced; it may run on into the next phrase. */
function roomText(routine: Routine, phrase: DancedPhrase, feel: Feel, from: number, to: number): string {
  const final = Math.ceil(to - tolerance) - 1;
  if (final < phrase.at + phrase.numbers.length) return holdText(phrase, feel, from, to);
  const phrases = routine.sections.flatMap((section) => section.phrases);
  const last = phrases.findLast(({ at }) => at <= final) ?? phrase;
  return `${countText(phrase, feel, from)}–${countText(last, feel, final)}`;
}

/** The counts of a hold, as an author would write them: "3&–4". */
function holdText(phrase: DancedPhrase, feel: Feel, from: number, to: number): string {
  const first = countText(phrase, feel, from);
  const last = countText(phrase, feel, Math.ceil(to - tolerance) - 1);
  return to - from <= 1 + tolerance ? first : `${first}–${last}`;
}

const partNames: Readonly<Record<Feel, readonly string[]>> = { straight: ["", "e", "&", "a"], triplet: ["", "&", "a"] };

function countText({ at, numbers }: DancedPhrase, feel: Feel, count: number): string {
  const whole = Math.floor(count - at + tolerance);
  const names = partNames[feel];
  return `${numbers[whole]}${names[Math.round((count - at - whole) * names.length)] ?? ""}`;
}

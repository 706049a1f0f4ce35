import type { DancedPhrase, Move, Routine } from "../../routine/routine.js";
import type { Feel } from "../../routine/words.js";

/** Something that one version, and one group in it, does in a phrase. */
export interface Deed {
  readonly version: string;
  /** Empty where all dance the same. */
  readonly group: string;
  /** Its start, in counts from the routine's first. */
  readonly at: number;
  /** A move, beside itself on the other side; or the counts of a hold that nobody wrote. */
  readonly does: { readonly move: Move; readonly mirrored: Move } | { readonly holds: string };
  /** Equal where two of them look the same. */
  readonly key: string;
}

/** Counts closer than this are one; triplets as numbers are a hair off. */
const hair = 1e-6;

/** Looks up what everybody does in a phrase, given by its section (from 0) and its number in it. */
export function deedsByPhrase(
  routine: Routine,
  mirrored: Routine,
): (section: number, phrase: number) => readonly Deed[] {
  const phrases = new Map<string, Deed[]>();
  routine.versions.forEach((version, v) => {
    const other = mirrored.versions[v];
    const first = { name: routine.groups[0] ?? "", moves: version.moves, other: other?.moves };
    const more = version.groups.map(({ name, moves }, g) => ({ name, moves, other: other?.groups[g]?.moves }));
    for (const { name, moves, other: others } of [first, ...more]) {
      const pairs = moves.map((move, m) => ({ move, mirrored: others?.[m] ?? move }));
      addDeeds(phrases, routine, version.id, name, pairs);
    }
  });
  return (section, phrase) => phrases.get(`${section} ${phrase}`) ?? [];
}

type Pair = Extract<Deed["does"], { move: Move }>;

/** Goes through the phrases as danced; where no move fills the counts there is a hold. A move may run on into later phrases. */
function addDeeds(
  phrases: Map<string, Deed[]>,
  routine: Routine,
  version: string,
  group: string,
  pairs: readonly Pair[],
): void {
  let [next, until] = [0, 0];
  routine.sections.forEach((section, index) => {
    for (const phrase of section.phrases) {
      const id = `${index} ${phrase.number}`;
      const deeds = phrases.get(id) ?? [];
      phrases.set(id, deeds);
      const holdUntil = (to: number) => {
        if (to <= until + hair) return;
        const holds = holdText(phrase, section.feel, until, to);
        deeds.push({ version, group, at: until, does: { holds }, key: `hold ${holds}` });
      };
      until = Math.max(until, phrase.at);
      for (
        let pair = pairs[next];
        pair?.move.section === index && pair.move.phrase === phrase.number;
        pair = pairs[next]
      ) {
        const at = pair.move.at.valueOf();
        holdUntil(at);
        deeds.push({ version, group, at, does: pair, key: sameRow(pair.move) });
        until = at + pair.move.length.valueOf();
        next++;
      }
      const end = phrase.at + phrase.numbers.length;
      holdUntil(end);
      until = Math.max(until, end);
    }
  });
}

/** Two moves with the same key look the same: one place in the file, the same words, danced from and to the same stance. */
function sameRow({ place, at, length, option, cue, before, after, risks }: Move): string {
  const stances = [before, after].map(({ facing, weight, height }) => `${facing} ${weight} ${height}`);
  return [place, at.toFraction(), length.toFraction(), option ?? "", cue.text, ...stances, ...risks].join("|");
}

/** The counts of a hold, as an author would write them: "3&–4". */
function holdText(phrase: DancedPhrase, feel: Feel, from: number, to: number): string {
  const first = countText(phrase, feel, from);
  const last = countText(phrase, feel, Math.ceil(to - hair) - 1);
  return to - from <= 1 + hair ? first : `${first}–${last}`;
}

const partNames: Readonly<Record<Feel, readonly string[]>> = { straight: ["", "e", "&", "a"], triplet: ["", "&", "a"] };

function countText({ at, numbers }: DancedPhrase, feel: Feel, count: number): string {
  const whole = Math.floor(count - at + hair);
  const names = partNames[feel];
  return `${numbers[whole]}${names[Math.round((count - at - whole) * names.length)] ?? ""}`;
}

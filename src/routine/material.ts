import type Fraction from "fraction.js";
import { definedOnly } from "./defined-only.js";
import { phraseNumbers } from "./phrases.js";
import type { Problems } from "./problems.js";
import type { Feel, TempoTime } from "./vocabulary.js";
import type {
  WrittenMove,
  WrittenMusic,
  WrittenOption,
  WrittenPhrase,
  WrittenRoutine,
  WrittenSection,
} from "./written.js";

/** What a section dances, `same-as` and `change` looked up. */
export interface Material {
  readonly words?: string;
  readonly feel: Feel;
  /** All of it is the dancers' own. */
  readonly improvised: boolean;
  /** Counts a minute; absent where it goes at the music's tempo. */
  readonly tempo?: Fraction;
  /** Given with `tempo`. */
  readonly tempoIsEstimate?: boolean;
  /** Of time without counts: how long it lasts. Then it has no phrases. */
  readonly seconds?: Fraction;
  /** What is done to its tempo. */
  readonly time?: TempoTime;
  readonly phrases: readonly MaterialPhrase[];
  /** Counts of their own, by group. */
  readonly parts: ReadonlyMap<string, readonly MaterialPhrase[]>;
  /** How many counts later a group begins. */
  readonly delays: ReadonlyMap<string, number>;
}

export interface MaterialPhrase {
  readonly written: WrittenPhrase;
  /**
   * The section that the phrase stands in, in the file, or a group's part in it: its facings are meant as on the first time
   * that this is danced.
   */
  readonly origin: string;
  /** A group's own counts, danced as they are written even by a group that is on the other side. */
  readonly own: boolean;
}

/* Nobody follows `same-as` to `same-as` further than this, and calls can't. */
const farthest = 100;
/* More names than these nobody reads in a message. */
const mostNames = 12;

/**
 * The material of each section of the file, in the file's order; undefined where it cannot be found, which is then an error.
 */
export function materials(routine: WrittenRoutine, problems: Problems): readonly (Material | undefined)[] {
  const done = new Map<number, Material | undefined>();
  const open = new Set<number>();
  const byName = new Map<string, number[]>();
  for (const [index, { name }] of routine.sections.entries()) {
    const same = byName.get(name);
    if (same === undefined) byName.set(name, [index]);
    else same.push(index);
  }

  function lookUp(index: number): Material | undefined {
    if (done.has(index)) return done.get(index);
    const section = routine.sections[index];
    if (section === undefined) return undefined;
    open.add(index);
    const found = section.sameAs === undefined ? own(section, index) : borrowed(section, section.sameAs, index);
    const material = section.improvised && found !== undefined ? improvised(section, found, routine.music) : found;
    open.delete(index);
    done.set(index, material);
    return material;
  }

  function own(section: WrittenSection, index: number): Material {
    return {
      ...definedOnly<Material>({
        words: section.words,
        tempo: section.tempo,
        tempoIsEstimate: section.tempoIsEstimate,
        time: section.time,
        seconds: section.seconds,
      }),
      feel: section.feel ?? routine.music.feel,
      improvised: false,
      phrases: (section.counts ?? []).map((written) => ({ written, origin: String(index), own: false })),
      parts: new Map(),
      delays: new Map(),
      ...ownGroups(section, index),
    };
  }

  function borrowed(section: WrittenSection, name: string, index: number): Material | undefined {
    const place = `${section.place}/same-as`;
    const candidates = (byName.get(name) ?? []).filter((at) => at !== index);
    const [source] = candidates;
    if (source === undefined) {
      const names = [...byName.keys()].filter((other) => other !== section.name).slice(0, mostNames + 1);
      const shown = names.map((other, at) => (at < mostNames ? `\`${other}\`` : "…")).join(", ");
      problems.error(
        "same-as",
        place,
        `no other section is called \`${name}\`; write the name of one of these: ${shown || "(there is none yet)"}`,
      );
      return undefined;
    }
    if (candidates.length > 1) {
      problems.error(
        "same-as",
        place,
        `${candidates.length} sections are called \`${name}\`; give each a name of its own`,
      );
      return undefined;
    }
    if (open.has(source)) {
      problems.error(
        "same-as",
        place,
        `\`${section.name}\` and \`${name}\` each point at the other; write the counts in one of them`,
      );
      return undefined;
    }
    if (open.size > farthest) {
      problems.error(
        "same-as",
        place,
        `\`same-as\` leads from section to section too far to follow here; write the name of the section that has the counts`,
      );
      return undefined;
    }
    const from = lookUp(source);
    if (from === undefined) return undefined;
    if (from.seconds !== undefined) {
      problems.error(
        "same-as",
        place,
        `\`${name}\` is time without counts, so there is nothing to dance again; write \`seconds: ${from.seconds.valueOf()}\` here too, or another section's name`,
      );
      return undefined;
    }
    const phrases = [...from.phrases];
    for (const change of section.change) {
      if (change.phrase > phrases.length)
        problems.error(
          "change",
          change.place,
          `\`${name}\` has ${phrases.length} phrases, so there is no phrase ${change.phrase} to change`,
        );
      else phrases[change.phrase - 1] = { written: change.by, origin: String(index), own: false };
    }
    return {
      ...from,
      ...definedOnly<Material>({
        words: section.words ?? from.words,
        tempo: section.tempo ?? from.tempo,
        tempoIsEstimate: section.tempo ? section.tempoIsEstimate : from.tempoIsEstimate,
        time: section.time ?? from.time,
        seconds: undefined,
      }),
      feel: section.feel ?? from.feel,
      phrases,
      ...ownGroups(section, index),
    };
  }

  return routine.sections.map((_, index) => lookUp(index));
}

/** What a section itself says of its groups; a part or canon that says nothing (`{}`) ends what `same-as` brings along. */
function ownGroups({ parts, canon }: WrittenSection, index: number): Partial<Pick<Material, "parts" | "delays">> {
  const phrases = (group: string, counts: readonly WrittenPhrase[]) =>
    counts.map((written) => ({ written, origin: `${index} ${group}`, own: true }));
  return {
    ...(parts === undefined
      ? {}
      : { parts: new Map(parts.map(({ group, counts }) => [group, phrases(group, counts)])) }),
    ...(canon === undefined ? {} : { delays: new Map(canon.map(({ group, after }) => [group, after])) }),
  };
}

/** A section's material as the dancers' own: each of its moves, and a move of the section's name where a phrase has none. */
function improvised(section: WrittenSection, material: Material, music: WrittenMusic): Material {
  const their = (move: WrittenMove): WrittenMove => ({ ...move, improvised: true, options: move.options.map(option) });
  const option = (one: WrittenOption): WrittenOption => ({ ...one, moves: one.moves.map(their) });
  const phrase = (one: MaterialPhrase): MaterialPhrase => {
    const { moves, options } = one.written;
    const some = moves.length > 0 ? moves : [wholePhrase(section, one.written, music)];
    return { ...one, written: { ...one.written, moves: some.map(their), options: options.map(option) } };
  };
  const parts = [...material.parts].map(([group, phrases]) => [group, phrases.map(phrase)] as const);
  return { ...material, improvised: true, phrases: material.phrases.map(phrase), parts: new Map(parts) };
}

/** What is danced where an improvised section gives no more than its counts. */
function wholePhrase({ name }: WrittenSection, phrase: WrittenPhrase, music: WrittenMusic): WrittenMove {
  const numbers = phraseNumbers(phrase, music.phrase);
  const [first = 1, last = 1] = [numbers[0], numbers.at(-1)];
  return {
    place: phrase.place,
    on: first === last ? `${first}` : `${first}-${last}`,
    cue: { text: name, marks: [] },
    ...{ hold: false, hit: false, improvised: true },
    ...{ steps: [], travel: [], contacts: [], gear: [], choose: [], options: [], allow: [] },
  };
}

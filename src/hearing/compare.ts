import type { Routine } from "../routine/routine.js";
import { type FileMove, type FilePhrase, filePhrases } from "./file-phrases.js";
import { matched } from "./match-phrases.js";
import { sharesWord, sidesIn } from "./shared-words.js";
import type { Draft, DraftMove, DraftPhrase } from "./types.js";

/** A phrase of the file, by its section and its number in it. */
export type PlaceInFile = Pick<FilePhrase, "section" | "number">;

/** Something that was said otherwise than the file has it. */
export interface Difference {
  readonly kind: "count" | "cue" | "side";
  readonly place: PlaceInFile;
  /** The file's counts and cue; absent where the file has nothing there. */
  readonly file?: { readonly on: string; readonly cue: string };
  readonly heard: { readonly on: string; readonly text: string };
  /** Runs that have it so, of those that dance the phrase; absent of what was told between them. */
  readonly runs?: { readonly have: number; readonly of: number };
  /** Where it can be heard. */
  readonly times: readonly number[];
}

/** One run through some of what the file has. */
export interface RunOfFile {
  readonly start: number;
  readonly end: number;
  readonly countsPerMinute?: number;
  readonly phrases: readonly PlaceInFile[];
}

export interface Comparison {
  /** Phrases of the file, a time through, and those of them that were recognised. */
  readonly phrases: number;
  readonly recognised: number;
  /** Where each section is taught, by time. */
  readonly chapters: readonly { readonly at: number; readonly section: string }[];
  readonly runs: readonly RunOfFile[];
  /** In the order of the file. */
  readonly differences: readonly Difference[];
}

/**
 * Holds what was heard against a routine that has a file: which of its phrases was called where, and what was said otherwise.
 *
 * @example compare(draft, routine).differences[0]?.kind // "count"
 */
export function compare(draft: Draft, routine: Routine): Comparison {
  const file = filePhrases(routine);
  const heard = draft.sections.flatMap(({ phrases }) => phrases);
  const pairs = matched(heard, file);
  const placeOf = (index: number): readonly PlaceInFile[] => {
    const phrase = file[pairs.get(index) ?? -1];
    return phrase ? [{ section: phrase.section, number: phrase.number }] : [];
  };
  return {
    phrases: file.length,
    recognised: new Set(pairs.values()).size,
    chapters: chaptersOf(draft, pairs, file),
    runs: draft.runs.map(({ phrases, ...run }) => ({ ...run, phrases: phrases.flatMap(placeOf) })),
    differences: [...pairs]
      .sort(([, a], [, b]) => a - b)
      .flatMap(([index, at]) => differencesIn(heard[index], file[at])),
  };
}

/** Where a section's first phrase that was recognised is taught: with the part of the draft that it begins, else when first called. */
function chaptersOf(
  { sections }: Draft,
  pairs: ReadonlyMap<number, number>,
  file: readonly FilePhrase[],
): Comparison["chapters"] {
  const taught = new Map<string, number>();
  let index = 0;
  for (const section of sections)
    for (const [place, phrase] of section.phrases.entries()) {
      const known = file[pairs.get(index++) ?? -1];
      const at = place === 0 ? section.taughtAt : Math.min(...phrase.calledAt);
      if (known && Number.isFinite(at)) taught.set(known.section, Math.min(at, taught.get(known.section) ?? at));
    }
  return [...taught].map(([section, at]) => ({ section, at })).sort((a, b) => a.at - b.at);
}

function differencesIn(heard: DraftPhrase | undefined, file: FilePhrase | undefined): readonly Difference[] {
  if (heard === undefined || file === undefined) return [];
  const place = { section: file.section, number: file.number };
  return [
    ...heard.moves.flatMap((move) => cueDifferences(move, heard, file).map((one) => ({ ...one, place }))),
    ...heard.told.flatMap(({ kind, on, said }) => {
      const move = kind === "side" && on !== undefined ? moveOn(file, on) : undefined;
      return move && otherSide(said.text, move)
        ? [{ kind: "side" as const, place, file: move, heard: { on: on ?? "", text: said.text }, times: [said.at] }]
        : [];
    }),
  ];
}

/** What a called cue says otherwise than the file: that the file has it on another count, on the other side, or not at all. */
function cueDifferences(move: DraftMove, phrase: DraftPhrase, file: FilePhrase): readonly Omit<Difference, "place">[] {
  const { on, cue, runs, of } = move;
  const same = file.moves.filter((one) => sharesWord(cue, one.words));
  const here = same.find((one) => covers(one, on));
  const heard = { on, text: cue };
  const have = { have: runs, of };
  if (here) {
    const side = otherSide(cue, here)
      ? [{ kind: "side" as const, file: here, heard, runs: have, times: timesOf(move, phrase) }]
      : [];
    return [...side, ...elsewhere(move, here)];
  }
  if (move.trust === "once") return [];
  const times = timesOf(move, phrase);
  const [other] = same;
  if (other) return [{ kind: "count", file: other, heard, runs: have, times }];
  if (runs < 2) return [];
  const there = moveOn(file, on);
  return [{ kind: "cue", ...(there && { file: there }), heard, runs: have, times }];
}

/** The counts beside those of the file that some runs have a cue on. */
function elsewhere({ cue, of, elsewhere: landings }: DraftMove, file: FileMove): readonly Omit<Difference, "place">[] {
  const counts = new Map<string, number[]>();
  for (const { on, at } of landings) if (!covers(file, on)) counts.set(on, [...(counts.get(on) ?? []), at]);
  return [...counts].map(([on, times]) => ({
    kind: "count",
    file,
    heard: { on, text: cue },
    runs: { have: times.length, of },
    times,
  }));
}

function moveOn({ moves }: FilePhrase, on: string): FileMove | undefined {
  return moves.find((move) => covers(move, on));
}

/** Whether a cue on these counts falls within a move of the file. */
function covers({ from, to }: FileMove, on: string): boolean {
  const [, count = "0", part = ""] = /^(\d+)([e&a]?)/.exec(on) ?? [];
  const position = Number(count) + ({ e: 0.25, "&": 0.5, a: 0.75 }[part] ?? 0);
  return position >= from && position < to;
}

/** One side was said, and the file has the other alone. */
function otherSide(text: string, { sides }: FileMove): boolean {
  const said = sidesIn(text);
  return said.length === 1 && sides.length === 1 && said[0] !== sides[0];
}

function timesOf({ on, cue }: DraftMove, { rows = [], calledAt }: DraftPhrase): readonly number[] {
  const called = rows.flatMap(({ cells }) => cells.filter((cell) => cell.on === on && cell.text === cue));
  return (called.length > 0 ? called.map(({ at }) => at) : calledAt).slice(0, 4);
}

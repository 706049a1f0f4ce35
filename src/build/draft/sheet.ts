import { placeMoves } from "../../hearing/place-moves.js";
import { plainWords } from "../../hearing/plain-words.js";
import type { Draft, DraftMove, DraftPhrase, DraftSection, Said } from "../../hearing/types.js";
import type { Wording } from "../../wording/wording.js";

/** A draft made fit for a file: what stands in it where, and what it asks. */
export interface Sheet {
  /** False of a draft of typed notes, which have no runs and no times. */
  readonly timed: boolean;
  readonly phrase: number;
  readonly tempo: number;
  /** Where the tempo was counted. */
  readonly tempoAt?: number;
  /** Of the routine as a whole. */
  readonly doubt: string;
  readonly sections: readonly SheetSection[];
  /** In the order of the file. */
  readonly questions: readonly Question[];
}

export interface SheetSection {
  /** No two sections have the same. */
  readonly name: string;
  readonly taughtAt: number;
  readonly phrases: readonly SheetPhrase[];
}

export interface SheetPhrase {
  /** From 0, across all sections. */
  readonly index: number;
  /** From 1, in its section. */
  readonly number: number;
  readonly counts: number;
  readonly heard: DraftPhrase;
  /** In the order of their counts, which do not meet. */
  readonly moves: readonly SheetMove[];
  /** Heard, but not so that it could stand in the file. */
  readonly left: readonly DraftMove[];
}

export interface SheetMove {
  readonly on: string;
  readonly cue: string;
  readonly say?: string;
  readonly doubt?: string;
  /** The dancers' own. */
  readonly improvised?: true;
  /** Absent where nothing was heard and something has to stand there. */
  readonly heard?: DraftMove;
}

export interface Question {
  readonly where: string;
  readonly text: string;
  /** Places of the recording to look at. */
  readonly times: readonly number[];
}

/** Longest tempo and phrase that a routine file may have, as its reader has them. */
const [slowest, fastest, longestPhrase] = [10, 1000, 64];

/** What a file of a draft will hold. The draft may hold anything: what can't stand in a file is left out here, or set right. */
export function sheetOf(draft: Draft, wording: Wording): Sheet {
  const phrase = wholeWithin(draft.phrase, 1, longestPhrase) ?? 8;
  const words = wording.draft;
  const heardTempo = wholeWithin(draft.tempo?.countsPerMinute, slowest, fastest);
  const tempoAt = heardTempo === undefined ? undefined : draft.tempo?.at;
  const doubt = [
    ...(draft.distrust === undefined ? [] : [words.distrust[draft.distrust]]),
    tempoAt === undefined ? words.noTempo : words.tempo(tempoAt),
  ].join(" ");
  const sections = sectionsOf(draft.sections, phrase, wording);
  return {
    timed: draft.length > 0,
    phrase,
    tempo: heardTempo ?? 100,
    ...(tempoAt !== undefined && { tempoAt }),
    doubt,
    sections,
    questions: [
      { where: words.wholeRoutine, text: doubt, times: tempoAt === undefined ? [] : [tempoAt] },
      ...sections.flatMap((section) => questionsOf(section, wording)),
    ],
  };
}

/** The nearest whole number, where it lies within bounds. */
export function wholeWithin(value: number | undefined, least: number, most: number): number | undefined {
  const whole = Math.round(value ?? Number.NaN);
  return whole >= least && whole <= most ? whole : undefined;
}

function sectionsOf(heard: readonly DraftSection[], counts: number, wording: Wording): readonly SheetSection[] {
  const nothing: DraftPhrase = { calledAt: [], moves: [], told: [] };
  const whole = heard.filter(({ phrases }) => phrases.length > 0);
  const sections = whole.length > 0 ? whole : [{ taughtAt: 0, phrases: [nothing] }];
  const names = namesOf(sections, wording);
  let index = 0;
  return sections.map((section, place) => ({
    name: names[place] ?? "",
    taughtAt: section.taughtAt,
    phrases: section.phrases.map((phrase, within) => phraseOf(phrase, index++, within + 1, counts, wording)),
  }));
}

/** A name for each: hers, plain ones where she gives none, and two of one name told apart. */
function namesOf(sections: readonly DraftSection[], { draft }: Wording): readonly string[] {
  const taken = new Set<string>();
  return sections.map(({ name = "" }, index) => {
    const own = plainWords(name, 60) || draft.part(index + 1);
    let free = own;
    for (let number = 2; taken.has(free.toLowerCase()); number++) free = draft.again(own, number);
    taken.add(free.toLowerCase());
    return free;
  });
}

function phraseOf(heard: DraftPhrase, index: number, number: number, usual: number, { draft }: Wording): SheetPhrase {
  const counts = wholeWithin(heard.length, 1, longestPhrase) ?? usual;
  const cued = heard.moves.flatMap((move): readonly DraftMove[] => {
    const cue = plainWords(move.cue);
    return cue === "" ? [] : [{ ...move, cue }];
  });
  const whole = counts === 1 ? "1" : `1-${counts}`;
  if (heard.improvised) {
    const own: SheetMove = { on: whole, cue: draft.improvised, improvised: true };
    return { index, number, counts, heard, moves: [own], left: cued };
  }
  const { placed, left } = placeMoves(cued, counts);
  const moves = placed.map((move) => moveOf(move, draft));
  const filler = { on: whole, cue: draft.unheard, doubt: draft.unheardDoubt };
  return { index, number, counts, heard, moves: moves.length > 0 ? moves : [filler], left };
}

function moveOf(move: DraftMove, draft: Wording["draft"]): SheetMove {
  const say = plainWords(move.say ?? "");
  // One sentence may doubt a move more than once.
  const unsure = move.unsure
    .filter((one, index, all) => all.findIndex(({ at }) => at === one.at) === index)
    .map(quoteOf);
  return {
    on: move.on,
    cue: move.cue,
    // "none" is a word of the file's own.
    ...(say !== "" && say.toLowerCase() !== "none" && say !== move.cue && { say }),
    ...(move.trust !== "sure" && {
      doubt: draft.doubt(move.runs, move.of, move.on, elsewhereOf(move), unsure),
    }),
    heard: move,
  };
}

/** What she said, short and as words alone. */
export function quoteOf({ at, text }: Said): Said {
  return { at, text: plainWords(text) };
}

/** The other counts that a cue was heard on, each with its times. */
export function elsewhereOf({ elsewhere }: DraftMove) {
  const counts = new Map<string, number[]>();
  for (const { on, at } of elsewhere) {
    const key = plainWords(on, 12);
    counts.set(key, [...(counts.get(key) ?? []), at]);
  }
  return [...counts].map(([on, times]) => ({ on, times }));
}

function questionsOf({ name, phrases }: SheetSection, { draft }: Wording): readonly Question[] {
  return phrases.flatMap(({ number, moves, heard }) =>
    moves.flatMap((move): readonly Question[] => {
      if (move.doubt === undefined) return [];
      const said = move.heard === undefined ? [] : [...move.heard.elsewhere, ...move.heard.unsure];
      const times = said.length > 0 ? said.map(({ at }) => at) : heard.calledAt.slice(0, 1);
      const distinct = [...new Set(times)].slice(0, 6);
      return [{ where: draft.where(name, number, move.on), text: move.doubt, times: distinct }];
    }),
  );
}

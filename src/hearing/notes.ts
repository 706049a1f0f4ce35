import { placeIn } from "./captions.js";
import { countOf } from "./tokens.js";
import type { Draft, DraftMove, DraftPhrase, DraftSection, NotHeard, Told } from "./types.js";

/** Most characters of a file of notes. */
const mostCharacters = 20 * 1024 * 1024;
/** Longest that one line may be to be a move, in characters. */
const longestCue = 200;

/** A count and what is on it, as one line says. */
interface Noted {
  readonly from: number;
  readonly to: number;
  /** The end lies half a count later: "7&". */
  readonly half: boolean;
  readonly cue: string;
}

interface Block {
  readonly moves: Noted[];
  readonly told: string[];
}

interface Part {
  readonly name?: string;
  readonly blocks: Block[];
}

/**
 * Reads typed notes, a text without times: a line that begins with counts is a move ("1-2 step right"), an empty line or a count that
 * goes back begins a phrase, a heading begins a section. All other lines are kept as told.
 *
 * @example readNotes("Chorus:\n1-2 step right\n3 clap\n5 6 7 8 hold") // one section, one phrase, three moves
 */
export function readNotes(text: string): Draft | NotHeard {
  if (text.length > mostCharacters) return { why: "too-big", line: 1, column: 1 };
  const nothing = text.indexOf("\0");
  if (nothing >= 0) return { why: "binary", ...placeIn(text, nothing) };
  if (!/\S/.test(text)) return { why: "empty", line: 1, column: 1 };
  const { parts, before } = partsOf(text.replace(/^\uFEFF/, "").split(/\r\n?|\n/));
  const counts = parts.flatMap(({ blocks }) => blocks.flatMap(({ moves }) => moves.map(({ to }) => to)));
  if (counts.length === 0) return { why: "no-counts", line: lineOfFirst(text), column: 1 };
  const phrase = phraseOf(counts.reduce((most, count) => Math.max(most, count), 0));
  return {
    phrase,
    start: {},
    gear: [],
    accents: { counts: [] },
    sections: parts.map((part) => sectionOf(part, phrase)).filter(({ phrases }) => phrases.length > 0),
    runs: [],
    told: before.map(toldOf),
    length: 0,
  };
}

const lineOfFirst = (text: string): number => placeIn(text, text.search(/\S/)).line;

/** The highest count tells the phrase; counts beyond twelve are those of several eights. */
function phraseOf(highest: number): number {
  if (highest === 6) return 6;
  return highest > 8 && highest <= 12 ? 12 : 8;
}

function partsOf(lines: readonly string[]): { readonly parts: readonly Part[]; readonly before: readonly string[] } {
  const parts: Part[] = [];
  const before: string[] = [];
  let block: Block | undefined;
  for (const written of lines) {
    const line = written.replace(/[\p{Cc}\p{Cf}\s]+/gu, " ").trim();
    const name = headingOf(line);
    const noted = notedIn(line);
    if (line === "") block = undefined;
    else if (name !== undefined) {
      parts.push({ name, blocks: [] });
      block = undefined;
    } else if (noted.length > 0) {
      const last = block?.moves.at(-1);
      const goesBack = last !== undefined && (noted[0]?.from ?? 0) < last.from;
      if (!block || goesBack) block = openedIn(parts);
      block.moves.push(...noted);
    } else if (block) block.told.push(line);
    else toldBetween(parts, before).push(line);
  }
  return { parts, before };
}

function openedIn(parts: Part[]): Block {
  const block: Block = { moves: [], told: [] };
  if (parts.length === 0) parts.push({ blocks: [] });
  parts.at(-1)?.blocks.push(block);
  return block;
}

/** A line between phrases is of the one before it, or of the whole where there is none. */
const toldBetween = (parts: readonly Part[], before: string[]): string[] => parts.at(-1)?.blocks.at(-1)?.told ?? before;

function headingOf(line: string): string | undefined {
  const marked = /^#{1,6}\s+(.{1,80}?)\s*#*$/.exec(line)?.[1] ?? /^([^\d:]{1,60}):$/.exec(line)?.[1];
  return marked?.replace(/[*_`]/g, "").trim() || undefined;
}

const lead = /^(?:[-*•]\s+)?(?:counts?\s+)?/i;
const point = /^(\d{1,2}|[a-z]{3,6})(\s?&(?!\d))?/i;

/** The moves of a line; none where it does not begin with counts, or says nothing of them. */
function notedIn(line: string): readonly Noted[] {
  let rest = line.replace(lead, "");
  const points: { count: number; half: boolean; runsOn: boolean }[] = [];
  let runsOn = false;
  for (;;) {
    const digits = /^\d{3,12}(?=\W|$)/.exec(rest)?.[0];
    const split =
      digits &&
      /^(?:12345678|1234567|123456|12345|1234|123|2345678|345678|45678|5678|567|678|234|345|456)$/.test(digits);
    const found = point.exec(rest);
    const count = countOf((found?.[1] ?? "").toLowerCase());
    if (digits && split) {
      for (const digit of digits) points.push({ count: Number(digit), half: false, runsOn });
      rest = rest.slice(digits.length);
    } else if (found && (count?.price === 0 || isHigh(found[1])) && !/^\w/.test(rest.slice(found[0].length))) {
      points.push({ count: count?.value ?? Number(found[1]), half: found[2] !== undefined, runsOn });
      rest = rest.slice(found[0].length);
    } else break;
    const joint =
      /^\s*(-|–|—|to\s|&|,|and\s|\s)\s*(?=\d|(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)\b)/i.exec(
        rest,
      );
    if (!joint) break;
    runsOn = /[-–—&t]/i.test(joint[1] ?? "");
    rest = rest.slice(joint[0].length);
  }
  const cue = rest.replace(/^[\s.:)=\-–—]+/, "").trim();
  return cue === "" || cue.length > longestCue ? [] : spansOf(points).map((span) => ({ ...span, cue }));
}

const isHigh = (written: string | undefined): boolean =>
  /^\d\d$/.test(written ?? "") && Number(written) > 12 && Number(written) <= 64;

/** Counts that follow each other are one move: "5 6 7 8" is 5-8; "1, 3" are two. */
function spansOf(points: readonly { count: number; half: boolean; runsOn: boolean }[]): readonly Omit<Noted, "cue">[] {
  const spans: { from: number; to: number; half: boolean }[] = [];
  for (const { count, half, runsOn } of points) {
    const open = spans.at(-1);
    if (open && count > open.to && (runsOn || count === open.to + 1)) {
      open.to = count;
      open.half = half;
    } else spans.push({ from: count, to: count, half });
  }
  return spans.filter(({ from }) => from > 0);
}

function sectionOf({ name, blocks }: Part, phrase: number): DraftSection {
  return { ...(name && { name }), taughtAt: 0, phrases: blocks.flatMap((block) => phrasesOf(block, phrase)) };
}

/** A block whose counts go on beyond a phrase ("9-16") fills several. */
function phrasesOf({ moves, told }: Block, phrase: number): readonly DraftPhrase[] {
  const last = moves.reduce((most, { to }) => Math.max(most, to), 0);
  return Array.from({ length: Math.max(1, Math.ceil(last / phrase)) }, (_, number) => {
    const own: Noted[] = [];
    const over: string[] = [];
    for (const move of moves) {
      if (Math.ceil(move.from / phrase) - 1 !== number) continue;
      const from = move.from - number * phrase;
      const to = Math.min(phrase, move.to - number * phrase);
      const before = own.at(-1);
      // Two lines for one count can't both be danced.
      if (
        before &&
        from < (before.half ? before.to + 0.5 : before.to + 1) &&
        !(move.half && from === before.to && !before.half)
      )
        over.push(`${from} ${move.cue}`);
      else own.push({ ...move, from, to });
    }
    const also = number === 0 ? [...told, ...over] : over;
    return { calledAt: [], moves: own.map(moveOf), told: also.map(toldOf) };
  });
}

function moveOf({ from, to, half, cue }: Noted): DraftMove {
  const end = `${to}${half ? "&" : ""}`;
  return {
    on: from === to ? end : `${from}-${end}`,
    cue,
    trust: "sure",
    runs: 1,
    of: 1,
    elsewhere: [],
    unsure: [],
  };
}

const toldOf = (text: string): Told => ({ kind: "other", said: { at: 0, text: text.slice(0, 500) } });

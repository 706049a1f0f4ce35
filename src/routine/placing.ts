import Fraction from "fraction.js";
import { keptRisks, optionFor, type VersionName } from "./ladder.js";
import type { Pass, PassPhrase } from "./order.js";
import { collectProblems, type Problems } from "./problems.js";
import { type Point, parseSpans, partOfCount, pointText, type Span, wrongPart } from "./spans.js";
import type { Risk } from "./vocabulary.js";
import type { WrittenMove, WrittenOption, WrittenRoutine } from "./written.js";

/** A move of a version, put on the counts of the run. */
export interface PlacedMove {
  readonly written: WrittenMove;
  /** The plain move whose counts it fills: itself where it is one; absent in a version's whole other phrase. */
  readonly plain?: WrittenMove;
  readonly option?: WrittenOption;
  readonly phrase: PassPhrase;
  /** Risks that the plain move on its counts names and that the option keeps, where it names none itself. */
  readonly kept: readonly Risk[];
  /** The first piece of its option: it carries the landing words. */
  readonly leads: boolean;
  readonly on: string;
  readonly at: Fraction;
  readonly length: Fraction;
  /** Start of the last point that its counts name; with a length of its own, of the last count that it reaches. */
  readonly lastPoint: Fraction;
  /** A restart breaks it off. */
  readonly cut: boolean;
}

interface Extent {
  readonly on: string;
  readonly from: Fraction;
  /** Start of the last part of a count that it names: what starts after it within that count trims it. */
  readonly lastPoint: Fraction;
  readonly to: Fraction;
  /** Its length was given, so that nothing trims it. */
  readonly fixed: boolean;
  /** A restart breaks it off. */
  readonly cut?: true;
}

interface Draft extends Extent {
  readonly move: Omit<PlacedMove, "at" | "length" | "on" | "lastPoint" | "cut">;
}

/** The whole run as the placing sees it. */
export interface Run {
  readonly routine: WrittenRoutine;
  readonly passes: readonly Pass[];
  /** All passes' phrases in danced order. */
  readonly phrases: readonly PassPhrase[];
  /** Counts in the run. */
  readonly counts: number;
}

const one = new Fraction(1);

/**
 * Puts a version's moves on the counts of the run, in order. Options are chosen, spans that run on reach into the next
 * phrase danced, parts of a count trim what was there; any other meeting of two moves is an error, as is a count outside
 * its phrase.
 */
export function placeMoves(run: Run, version: VersionName, problems: Problems): readonly PlacedMove[] {
  const drafts: Draft[] = [];
  for (const [index, phrase] of run.phrases.entries()) {
    const other = optionFor(phrase.written.options, version, run.routine);
    if (other === undefined)
      for (const plain of phrase.written.moves) draftPlain(run, index, plain, version, problems, drafts);
    else draftOtherPhrase(run, index, other, problems, drafts);
  }
  drafts.sort((a, b) => a.from.compare(b.from));
  return trimmed(drafts, problems);
}

function draftPlain(
  run: Run,
  index: number,
  plain: WrittenMove,
  version: VersionName,
  problems: Problems,
  drafts: Draft[],
): void {
  const phrase = run.phrases[index];
  if (phrase === undefined) return;
  const option = optionFor(plain.options, version, run.routine);
  for (const extent of extentsOf(run, index, plain, problems)) {
    if (option === undefined)
      drafts.push({ ...extent, move: { written: plain, plain, phrase, kept: [], leads: true } });
    else if (option.moves.every((move) => move.on === undefined))
      for (const move of option.moves)
        drafts.push({
          ...(move.lasts === undefined ? extent : within(extent, move, problems)),
          move: { written: move, plain, option, phrase, kept: keptRisks(run.routine, option, plain), leads: true },
        });
    else draftPieces(run, index, extent, plain, option, problems, drafts);
  }
}

/** An option that divides the plain move's counts: each piece must stay within them. */
function draftPieces(
  run: Run,
  index: number,
  whole: Extent,
  plain: WrittenMove,
  option: WrittenOption,
  problems: Problems,
  drafts: Draft[],
): void {
  const phrase = run.phrases[index];
  if (phrase === undefined) return;
  const pieces = option.moves.flatMap((move) =>
    spansOf(run, index, move, problems).flatMap((span) => {
      const from = firstAtOrAfter(run, index, span.first, whole.from, whole.to);
      const last = from && firstAtOrAfter(run, index, span.last, from, whole.to);
      const to = last && endOf(move, from, last);
      if (from === undefined || last === undefined || to === undefined || to.gt(whole.to)) {
        // A restart may have broken the plain move off before the piece is reached.
        if (!phrase.broken)
          problems.error(
            "outside",
            move.place,
            `\`${span.text}\` is outside the counts \`${whole.on}\`${lengthText(whole)} that this option fills; keep within them`,
          );
        return [];
      }
      return [{ move, extent: { on: span.text, from, lastPoint: last, to, fixed: move.lasts !== undefined } }];
    }),
  );
  pieces.sort((a, b) => a.extent.from.compare(b.extent.from));
  const kept = keptRisks(run.routine, option, plain);
  for (const [place, { move, extent }] of pieces.entries())
    drafts.push({ ...extent, move: { written: move, plain, option, phrase, kept, leads: place === 0 } });
}

function draftOtherPhrase(run: Run, index: number, option: WrittenOption, problems: Problems, drafts: Draft[]): void {
  const phrase = run.phrases[index];
  if (phrase === undefined) return;
  const kept = keptInPhrase(run, index, option, problems);
  for (const move of option.moves)
    for (const extent of extentsOf(run, index, move, problems))
      drafts.push({ ...extent, move: { written: move, option, phrase, kept: kept.get(move) ?? [], leads: true } });
}

/**
 * The risks of plain moves that the moves of a whole other phrase keep: of those on the same counts. What danger nobody has
 * there may have moved to any others.
 */
export function keptInPhrase(
  run: Run,
  index: number,
  option: WrittenOption,
  problems: Problems,
): ReadonlyMap<WrittenMove, readonly Risk[]> {
  const plain = (run.phrases[index]?.written.moves ?? []).flatMap((move) => {
    const risks = keptRisks(run.routine, option, move);
    return risks.length === 0 ? [] : [{ risks, on: extentsOf(run, index, move, problems) }];
  });
  if (plain.length === 0) return new Map();
  const others = option.moves.map((move) => ({ move, on: extentsOf(run, index, move, problems) }));
  const meet = (one: (typeof others)[number], on: readonly Extent[]) =>
    !one.move.hold && on.some(({ from, to }) => one.on.some((other) => other.from.lt(to) && other.to.gt(from)));
  return new Map(
    others.map((one) => [
      one.move,
      plain.flatMap(({ risks, on }) => (meet(one, on) || !others.some((other) => meet(other, on)) ? risks : [])),
    ]),
  );
}

/** An option with a length of its own, which must not be longer than the counts it fills. */
function within(whole: Extent, move: WrittenMove, problems: Problems): Extent {
  const to = whole.from.add(move.lasts ?? one);
  if (to.gt(whole.to))
    problems.error(
      "outside",
      `${move.place}/lasts`,
      `this option lasts longer than the counts \`${whole.on}\`${lengthText(whole)} that it fills; write a smaller \`lasts\` or leave it out`,
    );
  return { ...whole, to, fixed: true };
}

/** How long a move is whose counts do not tell. */
function lengthText({ fixed, from, to }: Extent): string {
  return fixed ? ` (${to.sub(from).toFraction()} counts long)` : "";
}

/** Where a move's spans lie on the counts of the run, cut where a restart breaks the phrase off. */
function extentsOf(run: Run, index: number, move: WrittenMove, problems: Problems): readonly Extent[] {
  const phrase = run.phrases[index];
  if (phrase === undefined) return [];
  return spansOf(run, index, move, problems).flatMap((span) => {
    const extent = extentOf(run, index, span, move, problems);
    return extent === undefined ? [] : [extent];
  });
}

function extentOf(run: Run, index: number, span: Span, move: WrittenMove, problems: Problems): Extent | undefined {
  const phrase = run.phrases[index];
  if (phrase === undefined) return undefined;
  const from = positionIn(phrase, span.first);
  if (from === undefined) {
    if (!phrase.broken) outside(phrase, span, span.first, move, problems);
    return undefined;
  }
  const last = lastPointOf(run, index, span, from, move, problems);
  if (last === undefined) return undefined;
  const to = endOf(move, from, last);
  const extent = { on: span.text, from, lastPoint: last, to, fixed: move.lasts !== undefined };
  const stop = breakBefore(run, index, to);
  if (stop !== undefined) return { ...extent, to: new Fraction(stop), fixed: true, cut: true };
  const silence = silenceAfter(run, phrase);
  if (silence !== undefined && to.gt(silence.at)) {
    problems.error(
      "runs-across",
      move.place,
      `\`${span.text}\` runs on into ${silence.name}, which is time without counts, and no move can; end it on the last count before that`,
    );
    return undefined;
  }
  if (to.lte(run.counts)) return extent;
  problems.error(
    "runs-past-end",
    move.place,
    `this lasts ${to.sub(from).toFraction()} counts, but the routine ends ${to.sub(run.counts).toFraction()} counts earlier; write a smaller \`lasts\``,
  );
  return undefined;
}

/** The first time without counts after a phrase: its place in the run, and its name. */
function silenceAfter(
  { passes, routine }: Run,
  phrase: PassPhrase,
): { readonly at: number; readonly name: string } | undefined {
  for (let index = phrase.section + 1; index < passes.length; index++) {
    const pass = passes[index];
    if (pass?.material.seconds !== undefined) return { at: pass.at, name: routine.sections[pass.written]?.name ?? "" };
  }
  return undefined;
}

/** Where a restart breaks the dance off before a count position that lies after the phrase's start, if it does. */
function breakBefore(run: Run, index: number, to: Fraction): number | undefined {
  for (let at = index; at < run.phrases.length; at++) {
    const phrase = run.phrases[at];
    if (phrase === undefined || to.lte(phrase.at)) return undefined;
    const end = phrase.at + phrase.numbers.length;
    if (phrase.broken) return to.gt(end) ? end : undefined;
  }
  return undefined;
}

/** The last point that a span names, which lies in the next phrase danced where its end is before its start. */
function lastPointOf(
  run: Run,
  index: number,
  span: Span,
  from: Fraction,
  move: WrittenMove,
  problems: Problems,
): Fraction | undefined {
  const phrase = run.phrases[index];
  if (phrase === undefined || move.lasts !== undefined) return from;
  const here = positionIn(phrase, span.last);
  if (here !== undefined && !here.lt(from)) return here;
  const isWritten = span.last.count > span.first.count;
  if (here === undefined && isWritten) {
    // Only a restart leaves a written count out; the move then ends where the phrase breaks off.
    if (phrase.broken) return new Fraction(phrase.at + phrase.numbers.length);
    outside(phrase, span, span.last, move, problems, run.phrases[index + 1] !== undefined);
    return undefined;
  }
  if (phrase.broken) return new Fraction(phrase.at + phrase.numbers.length);
  const next = run.phrases[index + 1];
  if (next === undefined) {
    problems.error(
      "runs-past-end",
      move.place,
      `\`${span.text}\` ends before it starts, so it runs on into the next phrase, but this is the last one danced; write the counts in order, or end it on this phrase's last count`,
    );
    return undefined;
  }
  const there = positionIn(next, span.last);
  if (there === undefined)
    problems.error(
      "outside",
      move.place,
      `\`${span.text}\` runs on into the next phrase, which has the counts ${numbersText(next.numbers)}; end it on one of those`,
    );
  return there;
}

/** @param more whether a phrase follows, into which the span could run on */
function outside(
  phrase: PassPhrase,
  span: Span,
  point: Point,
  move: WrittenMove,
  problems: Problems,
  more = false,
): void {
  problems.error(
    "outside",
    move.place,
    `${span.text === String(point.count) ? `count ${point.count}` : `count ${point.count} of \`${span.text}\``} is outside this phrase, which has the counts ${numbersText(phrase.numbers)}; ${pastEnd(phrase, span, point, more) ?? past(phrase, point)}`,
  );
}

/** Counts go on from phrase to phrase for some who write them down, and begin anew for those who dance them. */
function past({ numbers }: PassPhrase, { count }: Point): string {
  const again = count - (numbers.at(-1) ?? 0);
  const next = numbers[0] === 1 && again >= 1 && again <= numbers.length;
  return `write one of those${next ? `, begin the next phrase with a dash (\`- ${again}: …\`)` : ""}, or give the phrase a \`length\``;
}

/** A span that ends past its phrase: a miscount, or meant to run on. */
function pastEnd({ numbers }: PassPhrase, { first, last }: Span, point: Point, more: boolean): string | undefined {
  const end = numbers.at(-1) ?? 0;
  if (point !== last || first.count > end || last.count <= end) return undefined;
  const on = last.count - end;
  return `end it on ${end} (\`${first.count === end ? end : `${first.count}-${end}`}\`)${more && on < first.count ? `, or let it run on into the next phrase: \`${first.count}-${on}\`` : ""}`;
}

function numbersText(numbers: readonly number[]): string {
  const rising = numbers.every((number, index) => index === 0 || number === (numbers[index - 1] ?? 0) + 1);
  if (!rising || numbers.length < 3) return numbers.join(", ");
  return `${numbers[0]} to ${numbers.at(-1)}`;
}

function endOf(move: WrittenMove, from: Fraction, last: Fraction): Fraction {
  return move.lasts === undefined ? last.floor().add(one) : from.add(move.lasts);
}

function positionIn(phrase: PassPhrase, point: Point): Fraction | undefined {
  const index = phrase.numbers.indexOf(point.count);
  const part = partOfCount(point.part, phrase.feel);
  return index < 0 ? undefined : part?.add(phrase.at + index);
}

/** The first time that a point is counted at or after a position, in this phrase or those that follow it. */
function firstAtOrAfter(run: Run, index: number, point: Point, from: Fraction, to: Fraction): Fraction | undefined {
  for (let at = index; at < run.phrases.length; at++) {
    const phrase = run.phrases[at];
    if (phrase === undefined || to.lte(phrase.at)) return undefined;
    const position = positionIn(phrase, point);
    if (position?.gte(from) === true && position.lt(to)) return position;
  }
  return undefined;
}

/**
 * The moves of an option in the order of their counts, whatever order they are written in: a YAML map of counts has the plain numbers
 * first.
 *
 * @param from where the counts that they fill begin
 */
export function inCountOrder(
  run: Run,
  index: number,
  moves: readonly WrittenMove[],
  from: Fraction,
): readonly WrittenMove[] {
  if (moves.length < 2) return moves;
  const end = new Fraction(run.counts);
  const unheard = collectProblems();
  const begins = moves.map((move) => {
    const [span] = spansOf(run, index, move, unheard);
    const begin = span && firstAtOrAfter(run, index, span.first, from, end);
    return { move, at: begin ?? from };
  });
  return begins.sort((a, b) => a.at.compare(b.at)).map(({ move }) => move);
}

const spansRead = new WeakMap<WrittenMove, readonly Span[] | string>();

/** A move's spans as far as they can be danced in a phrase; read once, however often the routine dances over it. */
function spansOf(run: Run, index: number, move: WrittenMove, problems: Problems): readonly Span[] {
  let spans = spansRead.get(move);
  if (spans === undefined) {
    const parsed = parseSpans(move.on ?? "");
    spans = "wrong" in parsed ? parsed.wrong : parsed.spans;
    spansRead.set(move, spans);
  }
  const wrong = typeof spans === "string" ? spans : spans.map((span) => wrongParts(run, index, span)).find(Boolean);
  if (wrong !== undefined) problems.error("count", move.place, wrong);
  if (wrong !== undefined || typeof spans === "string") return [];
  for (const span of spans) checkSteps(span, move, problems);
  return spans;
}

/** A part of a count that the feel has none of: of this phrase, or of the next where a span has run on into that. */
function wrongParts(run: Run, index: number, { points }: Span): string | undefined {
  let [at, reached] = [index, 0];
  for (const point of points) {
    const here = run.phrases[at]?.numbers.indexOf(point.count) ?? -1;
    if (here < reached && run.phrases[at + 1] !== undefined && point !== points[0]) at++;
    reached = Math.max(run.phrases[at]?.numbers.indexOf(point.count) ?? 0, 0);
    const wrong = wrongPart(point, run.phrases[at]?.feel ?? "straight");
    if (wrong !== undefined) return wrong;
  }
  return undefined;
}

/** Where counts are written as they are called, each step of a list lands on one of them. */
function checkSteps({ called, points, text }: Span, { steps, place }: WrittenMove, problems: Problems): void {
  if (!called || steps.length < 2 || steps.length === points.length) return;
  problems.error(
    "steps",
    `${place}/step`,
    `\`${text}\` names ${points.length} points (${points.map(pointText).join(", ")}) and \`step\` has ${steps.length} feet; write a foot for each point, or take the points out that have none`,
  );
}

/** Trims what the next move cuts within a count, and reports every other meeting. */
function trimmed(drafts: readonly Draft[], problems: Problems): readonly PlacedMove[] {
  let reach: Draft | undefined;
  return drafts.map((draft, index) => {
    if (reach !== undefined && draft.from.lt(reach.to) && !trims(draft, reach)) overlap(reach, draft, problems);
    if (reach === undefined || draft.to.gt(reach.to) || trims(draft, reach)) reach = draft;
    const next = drafts[index + 1];
    const to = next?.from.lt(draft.to) === true && trims(next, draft) ? next.from : draft.to;
    const lastPoint = draft.fixed ? lastWithin(draft.from, draft.to) : draft.lastPoint;
    return {
      ...draft.move,
      on: draft.on,
      at: draft.from,
      length: to.sub(draft.from),
      lastPoint,
      cut: draft.cut === true,
    };
  });
}

/** The last whole count that begins before an end, or the beginning itself. */
function lastWithin(from: Fraction, to: Fraction): Fraction {
  const last = to.ceil().sub(1);
  return last.gt(from) ? last : from;
}

function trims(later: Draft, earlier: Draft): boolean {
  return !earlier.fixed && later.from.gt(earlier.lastPoint) && later.from.floor().equals(earlier.lastPoint.floor());
}

function overlap(earlier: Draft, later: Draft, problems: Problems): void {
  const same = earlier.move.phrase === later.move.phrase;
  const where = same ? `\`${earlier.on}\`` : `\`${earlier.on}\` of the phrase before, which runs on to here,`;
  problems.error(
    "overlap",
    later.move.written.place,
    `\`${later.on}\` and ${where} meet on the same counts; change one of them so that each count has one move`,
  );
}

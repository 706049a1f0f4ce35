import type { Sentence } from "./talk.js";
import { textOf } from "./talk.js";

/** Where a part begins to be taught, and the first phrase that it brings. */
export interface Part {
  readonly phrase: number;
  readonly taughtAt: number;
  readonly name?: string;
}

/** A run as far as the order of teaching goes. */
interface Taught {
  readonly start: number;
  readonly end: number;
  readonly phrases: readonly number[];
}

const turns =
  / (?:moving on|next (?:part|bit|section|thing|one)|new (?:part|bit|section)|(?:second|third|fourth|last|final) (?:part|bit|section)|the (?:tag|ending)|from here|on to the|carry on|then we have) /;
const starts =
  / (?:okay so|so we start|we start|you start|let's start|starts? (?:with|facing)|we face|you face|weight|first|begins?) /;
/** Seconds of silence that part one lesson of a section from the next. */
const rest = 14;

/** A part is what one run dances first, where she goes on to something new before it. */
export function partsOf(runs: readonly Taught[], sentences: readonly Sentence[], size: number): readonly Part[] {
  const parts: Part[] = [];
  let reached = -1;
  let before = 0;
  for (const run of runs) {
    const fresh = run.phrases.filter((phrase) => phrase > reached);
    const first = fresh.reduce((least, phrase) => Math.min(least, phrase), size);
    if (fresh.length > 0) {
      const talk = sentences.filter(({ start }) => start >= before && start < run.start);
      const at = parts.length === 0 ? opening(talk) : turning(talk, runs);
      if (parts.length === 0 || at !== undefined) {
        const name = nameIn(talk.filter(({ start }) => start >= (at ?? run.start) - 0.1));
        parts.push({ phrase: parts.length === 0 ? 0 : first, taughtAt: at ?? run.start, ...(name && { name }) });
      }
      reached = fresh.reduce((most, phrase) => Math.max(most, phrase), reached);
      before = run.end;
    }
  }
  const named = parts.filter(({ phrase }, index) => phrase < size && phrase !== parts[index - 1]?.phrase);
  return named.sort((a, b) => a.phrase - b.phrase);
}

/** The first part begins where its start is told, after a silence; else after the last long silence before its run. */
function opening(talk: readonly Sentence[]): number | undefined {
  const silence = (sentence: Sentence) => sentence.start - (talk[talk.indexOf(sentence) - 1]?.end ?? 0);
  const told = talk.filter(
    (sentence) => starts.test(textOf(sentence)) && !/ welcome | before you start /.test(textOf(sentence)),
  );
  const rested = told.find((sentence) => silence(sentence) > 3);
  return (rested ?? talk.findLast((sentence) => silence(sentence) > 3.4) ?? told[0] ?? talk[0])?.start;
}

/** Where she goes on to something new; none where she just goes on. */
function turning(talk: readonly Sentence[], runs: readonly Taught[]): number | undefined {
  const told = talk.filter((sentence) => turns.test(textOf(sentence).slice(0, 80)));
  if (told.length > 0) return told.at(-1)?.start;
  const quiet = ({ start }: Sentence, before: number) =>
    start - Math.max(before, runs.findLast((run) => run.end <= start)?.end ?? 0) > rest;
  return talk.find((sentence, index) => quiet(sentence, talk[index - 1]?.end ?? 0))?.start;
}

const names = [
  / (?:i|we) call (?:it|this)(?: (?:part|bit|one|section))? (?:the )?((?:\S+ ){1,2}?)(?:because|part|bit|section|you|and|$)/,
  / (?:this|part|bit|one|section) (?:i|we) call (?:the )?((?:\S+ ){1,2}?)(?:because|part|bit|section|you|and|$)/,
  / (?:this|that|it|here) (?:is|comes) the ((?:\S+ ){1,2}?)(?:part|bit|section) /,
  / (?:this|that)'s the ((?:\S+ ){1,2}?)(?:part|bit|section) /,
];

const noNames =
  /^(?:first|second|third|fourth|last|next|final|new|other|same|hard|easy|best|fun|only|whole|tricky|a|an|my|your)\b/;

function nameIn(talk: readonly Sentence[]): string | undefined {
  for (const sentence of talk)
    for (const form of names) {
      const name = form.exec(textOf(sentence))?.[1]?.trim();
      if (name && !noNames.test(name)) return name;
    }
  return undefined;
}

import { counted, list } from "./language.js";
import { time } from "./time.js";

const { clock } = time;

/** Most times or places that one sentence names. */
const most = 4;

function clocks(times: readonly number[], named = most): string {
  const shown = times.slice(0, named).map(clock);
  return list(times.length > named ? [...shown, `${times.length - named} more`] : shown);
}

/** What was said, and when. */
export interface Quote {
  readonly at: number;
  readonly text: string;
}

const quoted = ({ at, text }: Quote): string => `“${text}” at ${clock(at)}`;

/** A cue on another count than most runs have it. */
export interface Other {
  readonly on: string;
  readonly times: readonly number[];
}

const others = (elsewhere: readonly Other[]): string =>
  elsewhere
    .slice(0, most)
    .map(({ on, times }) => `on ${on} at ${clocks(times)}`)
    .join(", ");

function inRuns(runs: number, of: number): string {
  if (runs !== of || of === 0) return `${runs} of ${counted(of, "run", "runs")}`;
  return of > 2 ? `all ${of} runs` : of === 2 ? "both runs" : "the only run";
}

const kinds = {
  easier: "An easier way",
  harder: "A harder way",
  side: "A side",
  turn: "A turn",
  risk: "A risk",
  facing: "A facing",
  weight: "The weight",
  styling: "Styling",
  hit: "A hit",
  unsure: "Not sure",
  other: "Told",
} as const;

/** A draft that was listened out of a recording: remarks in its file, its questions, and the report beside it. */
export const draft = {
  clock,

  /** Remarks at the top of the file. */
  head: (length: number): readonly string[] => [
    length > 0
      ? `Drafted from ${clock(length)} of recording. A time is a place in the recording; behind a cue stands in how many runs it was called there.`
      : "Drafted from notes.",
    "A `doubt` is a question: answer it, and take its line out. When none is left, take `draft: yes` out.",
  ],

  /** The chapter before the first part that is taught. */
  beginning: "Beginning",
  part: (number: number): string => `Part ${number}`,
  again: (name: string, number: number): string => `${name} ${number}`,

  tempo: (at: number): string => `The tempo is counted from the run at ${clock(at)}: measure it against the song.`,
  noTempo: "No run tells the tempo: measure it against the song.",
  tempoRemark: (at: number): string => `counted from the run at ${clock(at)}`,
  distrust: {
    "few-counts": "Few counts were called, so nothing here is sure: hold every count against the recording.",
    "no-word-times":
      "The captions do not say when each word was said, so nothing here is sure: hold every count against the recording.",
  },

  said: quoted,
  /** @param number of the phrase in its section */
  called: (number: number, times: readonly number[]): string =>
    times.length === 0 ? `phrase ${number}` : `phrase ${number}, called at ${clocks(times, 12)}`,
  agreed: (runs: number, of: number, elsewhere: readonly Other[]): string =>
    [inRuns(runs, of), ...(elsewhere.length > 0 ? [others(elsewhere)] : [])].join("; "),

  /** The question behind a cue that is likely and no more. */
  doubt(runs: number, of: number, on: string, elsewhere: readonly Other[], unsure: readonly Quote[]): string {
    const heard = of > 1 ? `On ${on} in ${inRuns(runs, of)}` : `On ${on}, and no other run to hold it against`;
    const counts = elsewhere.length > 0 ? `, ${others(elsewhere)}` : "";
    const doubts = unsure.length > 0 ? `; you said ${unsure.slice(0, 2).map(quoted).join(" and ")}` : "";
    return `${heard}${counts}${doubts}. ${elsewhere.length > 0 ? "Which count is it?" : "Is it so?"}`;
  },
  /** What is done where numbers alone were called, and the question. */
  unheard: "Not heard",
  unheardDoubt: "Only numbers were called here. What is danced?",
  improvised: "Your own way",

  once: (cue: string, on: string, at: number | undefined): string =>
    `Heard once, on ${on}${at === undefined ? "" : ` at ${clock(at)}`}: ${cue}`,
  /** @param quote what was said, with its time or without */
  told: (kind: keyof typeof kinds, on: string | undefined, risks: readonly string[], quote: string): string =>
    `${kinds[kind]}${risks.length > 0 ? ` (${list(risks)})` : ""}${on === undefined ? "" : `, on ${on}`}: ${quote}`,
  quote: (text: string): string => `“${text}”`,

  where: (section: string, phrase: number, on: string): string => `${section}, phrase ${phrase}, on ${on}`,
  wholeRoutine: "The whole routine",

  report: {
    title: (routine: string): string => `What was heard of ${routine}`,
    summary: (runs: number, phrases: number, questions: number): string =>
      `${counted(runs, "run", "runs")} through ${counted(phrases, "phrase", "phrases")}. ${questions === 0 ? "No question is left." : `${counted(questions, "question is", "questions are")} left.`}`,
    film: "Your film",
    choose: "Choose the film on this computer, and every time below plays it from there. It stays on this computer.",
    questions: "Questions",
    questionsWhy: "In the order of the file, where each stands behind the word “doubt”.",
    noQuestions: "There is none: all runs agree, as far as they were heard.",
    counts: "The counts",
    countsWhy:
      "A row is a run, a column a count; the last row is the draft. A cue in a frame, with ≠ before it, is not what the draft has there.",
    phrase: (section: string, number: number): string => `${section}, phrase ${number}`,
    run: (number: number): string => `Run ${number}`,
    runs: "Run",
    draft: "Draft",
    differs: "other than the draft",
    question: "a question",
    taught: "taught from",
    told: "What you said about it",
    toldElsewhere: "Said, and tied to no phrase",
    play: (at: number): string => `Play from ${clock(at)}`,
  },
};

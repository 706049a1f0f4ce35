import { writtenTempo, writtenTime } from "../../routine/written-figures.js";
import { capital, counted } from "./language.js";

const relations = {
  first: "the likeliest",
  half: "the same, counted half as fast",
  double: "the same, counted twice as fast",
  third: "one count for three of the likeliest",
  triple: "three counts for one of the likeliest",
  "two-thirds": "two counts for three of the likeliest",
  "three-halves": "three counts for two of the likeliest",
  "three-quarters": "three counts for four of the likeliest",
  "four-thirds": "four counts for three of the likeliest",
  other: "another beat in the song",
};

const reasons = {
  "music-begins": "the music begins",
  "first-strong": "it gets strong",
  "bar-begins": "the first heavy count of a bar",
};

const noGuesses = {
  "too-short": "It is shorter than six seconds: too little to guess from.",
  silent: "It is silent from beginning to end. Is it the right file?",
  "no-beat": "No beat could be told from the sound alone. Tap along instead.",
};

const noFits = {
  "too-few": "",
  "no-beat": "These taps follow no even beat yet.",
};

const certainties = {
  sure: "You can rely on it.",
  likely: "Likely; more taps make it surer.",
  unsure: "Not sure yet; go on tapping.",
};

/** A place in a track to the millisecond: "0:14.203". */
function place(seconds: number): string {
  const thousandths = Math.round(Math.max(0, seconds) * 1000);
  const [minutes, rest] = [Math.floor(thousandths / 60_000), thousandths % 60_000];
  return `${minutes}:${(rest / 1000).toFixed(3).padStart(6, "0")}`;
}

/** The same to the tenth, for a clock that runs. */
function clock(seconds: number): string {
  const tenths = Math.floor(Math.max(0, seconds) * 10);
  return `${Math.floor(tenths / 600)}:${((tenths % 600) / 10).toFixed(1).padStart(4, "0")}`;
}

const tempo = (countsPerMinute: number): string => String(Math.round(countsPerMinute * 100) / 100);
const milliseconds = (seconds: number): string => `${Math.round(Math.abs(seconds) * 1000)} ms`;
const shortly = (seconds: number): string =>
  Math.abs(seconds) < 0.1 ? milliseconds(seconds) : `${Math.round(Math.abs(seconds) * 100) / 100} s`;
/** From the slowest to the fastest, in counts a minute. */
export interface TempoRange {
  readonly slowest: number;
  readonly fastest: number;
}
const range = ({ slowest, fastest }: TempoRange): string =>
  `${Math.round(slowest * 10) / 10} to ${Math.round(fastest * 10) / 10}`;

/** What is counted when a song was opened: a guess, what was known before, or that where the sound speaks against it. */
type OpenedCounts = "guess" | "known" | { readonly sounds: number; readonly has: number };

/** The desk on which the counts of a song are found. */
export const song = {
  place,
  clock,
  tempo,
  /** Leads there from a routine that is served, and from the library. */
  link: "Find this song’s counts",
  libraryLink: "Find a song’s counts",
  linkForYou: "(only you see this link)",
  title: "Find the song’s counts",
  summary:
    "Choose the song, tap along, listen to the clicks over it. Out come the counts a minute, the first count, and where each section begins.",
  /* Choosing it. */
  theSong: "The song",
  choose: "Choose the song",
  drop: "or drop it here. It stays on this computer: nothing of it is sent anywhere.",
  opening: (name: string): string => `Opening ${name} …`,
  listening: "Listening to it …",
  ready: (name: string, seconds: number, counts: OpenedCounts): string => {
    const open = `The song is open: ${name}, ${clock(seconds)} long.`;
    if (counts === "guess") return `${open} At first its counts are a guess from the sound: play it, and tap along.`;
    if (counts === "known") return `${open} Play it, and tap along.`;
    return `${open} It sounds like ${tempo(counts.sounds)} counts a minute, and not like ${tempo(counts.has)}: play it, and hear which is right.`;
  },
  unreadable: "This browser can’t play that file. Save the song as MP3 or WAV, and choose that.",
  /* What was found. */
  countsAMinute: "counts a minute",
  firstCountAt: "first count at",
  none: "–",
  found: (of: { readonly countsPerMinute: number; readonly firstCount: number }): string =>
    `${tempo(of.countsPerMinute)} counts a minute, first count at ${place(of.firstCount)}`,
  /** Where a browser lets no clicks sound, or nothing at all any more. */
  trouble: {
    "no-clicks": "This browser lets no clicks sound: the song plays without them.",
    silent: "This browser lets nothing sound here any more. Copy your lines, and open this page again.",
  },
  /* Where it is heard. */
  shape: "The sound around where you are, standing on its counts. A click goes there.",
  whole: "The whole song. A click goes there.",
  position: "Place in the song",
  positionOf: (at: number, length: number): string => `${clock(at)} of ${clock(length)}`,
  play: "Play",
  pause: "Pause",
  speed: "Speed",
  percent: (percent: number): string => `${percent} %`,
  clicks: "Loudness of the clicks",
  closer: "Zoom in",
  wider: "Zoom out",
  keys: "Keys, while you are in this part:",
  keyNames: { play: "play or pause", tap: "tap", first: "the first count is here", mark: "a section begins here" },
  arrows: ["Left", "Right"],
  arrowKeys: "five seconds back or on",
  /* The counts. */
  theCounts: "The counts",
  from: "Take the counts from",
  fromFile: "the file as it is",
  fromGiven: "what you brought along",
  fromTaps: "your taps",
  /** Beside what was found: where it comes from. */
  whence: (from: string, byHand: boolean): string => (byHand ? `${from}, and a little by hand` : from),
  guesses: "Guesses from the sound alone",
  guessesWhy: "They may be wrong: listen to the clicks before you believe one.",
  noGuess: (why: keyof typeof noGuesses): string => noGuesses[why],
  /** What a guessed tempo is to the first one. */
  relation: (relation: keyof typeof relations): string => relations[relation],
  aGuess: (relation: keyof typeof relations): string => `a guess: ${relations[relation]}`,
  first: "The first count",
  /** @param between whether it falls between the counts that the likeliest one begins */
  reason: (why: keyof typeof reasons, between: boolean): string =>
    between ? `${reasons[why]}, between the counts` : reasons[why],
  unsteady: (of: TempoRange): string =>
    `The song does not keep one tempo: it goes from ${range(of)} counts a minute. Tap along in each section by itself, and mark where sections begin.`,
  /* Tapping. */
  tapFor: "Tap along for",
  tapForAll: "the whole song",
  tap: "Tap on every count",
  tapToPlay: "Play, and tap on every count",
  tapWhy:
    "Begin on the count that is danced first. The clicks fall silent while you tap. Eight taps give a figure, a minute of them a good one.",
  again: "Start again",
  tapsSoFar: (taps: number, needed: number): string =>
    taps < needed
      ? `${counted(taps, "tap", "taps")}; ${needed - taps} more give a figure.`
      : counted(taps, "tap", "taps"),
  noFit: (why: keyof typeof noFits): string => noFits[why],
  /** @param first how far the first count may be off, in seconds; absent where it is not asked for */
  fit: (of: { readonly countsPerMinute: number; readonly spread: number }, first: number | undefined): string =>
    `${tempo(of.countsPerMinute)} counts a minute, give or take ${Math.max(0.01, Math.round(of.spread * 100) / 100)}${first === undefined ? "" : `; the first count give or take ${shortly(first)}`}.`,
  sure: (certainty: keyof typeof certainties): string => certainties[certainty],
  unsteadyTaps: (of: TempoRange): string => `Your taps keep no one tempo: they go from ${range(of)} counts a minute.`,
  astray: (off: number, others: number): string => {
    const parts = [
      ...(off > 0 ? [`${counted(off, "tap", "taps")} off the beat`] : []),
      ...(others > 0 ? [`${others} late or doubled`] : []),
    ];
    return parts.length === 0 ? "" : `Passed over: ${parts.join(", ")}.`;
  },
  /* By hand. */
  byHand: "A little more by hand",
  nudges: {
    "first-back": "5 ms earlier",
    "first-on": "5 ms later",
    "count-back": "a count earlier",
    "count-on": "a count later",
    here: "where it plays now",
    "tempo-down": "0.05 slower",
    "tempo-up": "0.05 faster",
    half: "half as fast",
    double: "twice as fast",
  },
  nudgeGroups: { first: "The first count", tempo: "The tempo" },
  /* Landing places. */
  sections: "Where sections begin",
  sectionsWhy:
    "While it plays, mark the moment where a section begins. The mark goes to the nearest count. After a pause the counts begin anew: tap along for that section too, and its mark goes to the nearest of those. Where the counts alone arrive, nothing needs to be written.",
  markFor: "Mark next",
  mark: "It begins here",
  begins: "begins at",
  begun: (section: string, at: number): string => `${section} begins at ${place(at)}`,
  /** Of a place that is pressed: it leads there. */
  goTo: (section: string, at: number): string => `${place(at)}: go to ${section} in the song`,
  through: (wall: number, pass: number): string =>
    [...(wall > 1 ? [`time ${wall}`] : []), ...(pass > 1 ? [`repeat ${pass}`] : [])].join(", "),
  onMark: (
    { at, off, snapped }: { readonly at: number; readonly off: number; readonly snapped: boolean },
    by: "hand" | "taps" | "counts",
  ): string => {
    if (by === "hand") return "put there by hand";
    if (!snapped) return `marked at ${place(at)}, where no count is near: it stays there`;
    const count = by === "taps" ? "the count that you tapped" : "the count";
    if (Math.abs(off) < 0.0005) return `marked at ${place(at)}, on ${count}`;
    return `marked at ${place(at)}, ${milliseconds(off)} ${off < 0 ? "before" : "after"} ${count}`;
  },
  asInFile: "as the file has it",
  arrives: "the counts arrive there by themselves",
  tapThere: "the counts may begin anew there: tap along for this section, and it begins by your taps",
  tapsBeside: (off: number): string =>
    `your taps there lie ${milliseconds(off)} ${off < 0 ? "before" : "after"} the counts: mark where it begins, and it goes by them`,
  sameTempo: "your taps there fit the tempo that it has",
  wait: (seconds: number, counts: number): string => {
    const whole = counted(Math.round(counts), "count", "counts");
    const about = Math.abs(counts - Math.round(counts)) > 0.05 ? `about ${whole}` : whole;
    return `a wait of ${shortly(seconds)} before it${counts >= 0.95 ? `, ${about}` : ""}`;
  },
  cut: (seconds: number): string => `the last move before it is cut by ${shortly(seconds)}`,
  tooEarly: (seconds: number): string =>
    `${shortly(seconds)} before the counts arrive, more than half a count: this can’t be danced. Mark it anew, or correct the counts`,
  unwritable: "a repeat has no place of its own in the file: mark the first one",
  /** What is said of a section, in one sentence. */
  facts: (said: readonly string[]): string => `${capital(said.join("; "))}.`,
  remove: "Take the mark away",
  /** Where the counts before it arrive; then the file need not say a place. */
  arrive: (at: number): string => `Let the counts arrive, at ${place(at)}`,
  /** Where it was heard, and not on a count. */
  keep: (at: number): string => `Put it at ${place(at)}`,
  /** For those who listen: what a button is about. */
  ofSection: (text: string, section: string): string => `${text}: ${section}`,
  /* Into the file. */
  tempoLine: (countsPerMinute: number): string => `tempo: ${writtenTempo(countsPerMinute)}`,
  firstCountLine: (seconds: number): string => `first-count: ${writtenTime(seconds)}`,
  toFile: "Into the file",
  lines: "The lines for your file",
  stands: "Stands there now",
  willStand: "Will stand there",
  newLine: "nothing yet",
  noLine: "nothing any more",
  line: (number: number): string => `Line ${number}`,
  nothing: "Nothing to change: the file stands as it is.",
  notYet: "Nothing found yet.",
  copy: "Copy the lines",
  copied: "The lines are copied.",
  copyYourself: (text: string): string => `This browser copies nothing by itself: ${text}`,
  write: (file: string): string => `Write them into ${file}`,
  takeBack: "Take that back",
  written: "Written. What stood there before is kept, until you take it back or write again.",
  takenBack: "Taken back: the file is as it was.",
  toRoutine: (title: string): string => `See ${title}`,
  finding: (line: number, message: string): string => `Line ${line}: ${message}`,
  unanswered: "The library does not answer. Is `countleaf serve` still running?",
  /** Where other computers are served too. */
  copyOnly:
    "Nothing can be written from here, because the library is served to other computers: copy the lines into the file. Started without `--host`, `countleaf serve` can write them.",
  takeAlong: "Take them along to a routine",
  aRoutine: "Routine",
  go: "Take them there",
  noRoutines: "There is no routine in the library yet that they could go to.",
};

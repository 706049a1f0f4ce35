import { dates } from "./dates.js";
import { capital, counted, list, plural } from "./language.js";
import { print } from "./print.js";

/** Some sections of a routine. */
export interface KnownSections {
  readonly title: string;
  readonly sections: readonly string[];
  /** True of all that the course has of the routine. */
  readonly whole: boolean;
  /** The last of them, where they are the dance without a gap from its beginning. */
  readonly upTo?: string;
}

const named = (sections: readonly string[]): string => list(sections.map((section) => `“${section}”`));
const allOf = (title: string): string => `${title}, all of it`;
const lessons = (number: number): string => counted(number, "lesson", "lessons");
const sheet = (number: number): string => `Lesson ${number}, for dancers to take home`;

/** A course: its lessons, a line each, and the sheet that goes home after each. */
export const course = {
  title: "The course",
  /** Of `lessons`. */
  lesson: (number: number): string => `Lesson ${number}`,
  /** "Lesson 2 · Saturday 23 January 2027" */
  lessonOn: (number: number, date: string | undefined): string =>
    [`Lesson ${number}`, ...(date === undefined ? [] : [dates.weekday(date)])].join(" · "),
  /** What is brought: "mat; knee pads". */
  items: (items: readonly string[]): string => items.join("; "),
  /** Behind the course's title. */
  ofLesson: (number: number): string => `, lesson ${number}`,
  inDetail: (number: number): string => `Lesson ${number} in detail`,
  columns: {
    lesson: "Lesson",
    fresh: "New",
    recalled: "Recalled",
    run: "Run at the end",
    hard: "Likely to be hard",
    bring: "Bring",
  },
  /** "“Harbour wall” and “Tag” in Low Tide" */
  sections: ({ title, sections, whole }: KnownSections): string =>
    whole ? allOf(title) : `${named(sections)} in ${title}`,
  run: ({ title, sections, whole, upTo }: KnownSections): string =>
    whole ? allOf(title) : `${title}${upTo === undefined ? `: ${named(sections)}` : ` as far as the end of “${upTo}”`}`,
  /** A part of a routine by its name: "Low Tide: Harbour wall, eights 1–2". */
  hard: (title: string, part: string): string => `${title}: ${part}`,
  nothingNew: "Nothing: time for whole runs, and for what you find hard",
  /** Behind what is recalled: what was due too. */
  inRun: (what: string): string => `${what} in the run alone`,
  fits: (number: number, minutes: number): string =>
    `${capital(lessons(number))} of ${minutes} minutes, and everything fits.`,
  recalls:
    "What is new comes again in the next lesson, then after longer and longer pauses; each lesson ends in a run of all that is known.",
  /** Lessons that have more to recall than they have time for, by their numbers. */
  inRunAlone: (numbers: readonly number[]): string =>
    `${capital(plural(numbers.length, "lesson", "lessons"))} ${list(numbers.map(String))} ${plural(numbers.length, "has", "have")} no time to go through all that is due on its own, so some of it is danced in the run alone: longer lessons, or one more, would have it.`,
  tooLong: (number: number, minutes: number, first: string): string =>
    `Not everything fits into ${lessons(number)} of ${minutes} minutes: ${first} and what comes after it is left out.`,
  needed: (number: number): string => `All of it would take ${lessons(number)}.`,
  neverFits: (minutes: number): string =>
    `It is too long for any lesson of ${minutes} minutes: make the lessons longer, or write that section as two.`,
  runningOrder: "The running order",
  sheet,
  around: { last: "Last time", next: "Next time" },
  /** What goes home. */
  home: {
    title: (workshop: string, number: number): string => `${workshop}, lesson ${number}`,
    of: (number: number, all: number): string => `Lesson ${number} of ${all}`,
    soFar: "Danced so far",
    known: ({ sections, whole }: KnownSections): string =>
      whole ? `${named(sections)}, which is all of it` : named(sections),
    /** After a routine's title: " (Level 1, mark K7Q3)". */
    state: (version: string, mark: string | undefined): string =>
      ` (${version}${mark === undefined ? "" : `, ${print.mark(mark)}`})`,
    freshIs: (sections: readonly string[]): string => `new today: ${named(sections)}`,
    practise: "Practise until next time",
    practiseUntil: (date: string): string => `Practise until ${dates.weekday(date)}`,
    /** After the last lesson. */
    afterwards: "Keep it",
    new: (what: string): string => `${what}: a little every day. Walk it on the counts, dance it, then with the song.`,
    again: (what: string): string => `${what}: once or twice, since it comes again next time.`,
    rest: (what: string): string => `${what}: once with the song.`,
    careful:
      "A move with a caution needs what its caution asks for. Where you have not got that at home, dance an easier option or leave it out.",
    /** Before what the next lesson needs. */
    bring: "Bring next time: ",
    page: (title: string): string => `${title}, to practise with the counts: `,
  },
};

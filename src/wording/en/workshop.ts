import { counted } from "./language.js";

/** A class or workshop: who dances what, and what it takes. */
export const workshop = {
  description: (title: string, minutes: number, routines: readonly string[]): string =>
    `${title}: ${minutes} minutes with ${routines.join(", ")}.`,
  minutes: "Minutes",
  numberOfMinutes: (minutes: number): string => `${minutes} minutes`,
  /** Of a course. */
  numberOfLessons: (lessons: number): string => counted(lessons, "lesson", "lessons"),
  /** Its first and its last day. */
  days: <T>(first: T, last: T) => [first, " to ", last] as const,
  startsAt: (clock: string): string => `Starts at ${clock}`,
  level: "Taught at",
  routines: "Routines",
  danced: "What is danced",
  bring: "What to bring",
  need: <T>(item: T, required: boolean, routines: readonly string[]) =>
    [item, required ? "" : ", if you like", `, for ${routines.join(", ")}`] as const,
  runningOrder: "The running order",
  takeAway: "Print and take away",
};

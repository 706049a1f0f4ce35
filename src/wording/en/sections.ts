import type { Feel } from "../../routine/vocabulary.js";
import { counted, plural, uncounted } from "./language.js";

const feels: Readonly<Record<Feel, string>> = { straight: "straight", triplet: "in triplets", swing: "swung" };

/** Sections, phrases and moves as they are danced. */
export const sections = {
  title: "The counts",
  /** Under the counts. */
  asked: "Somebody asks about a moment? Tap its count: it has an address of its own, and an answer to copy.",
  /** @param mark of four letters, as at the foot of a sheet of these very counts */
  mark: <T>(mark: T) =>
    [
      "Mark of these counts: ",
      mark,
      ". A sheet whose foot has other letters after “mark” shows other counts.",
    ] as const,
  besideEveryMove: "show the other versions beside every move",
  /** After a heading, where it speaks of the other side. */
  mirrored: "mirrored",
  /** What the mirrored counts are for. */
  mirroredFor: "To dance it on the other side, or to follow somebody who faces you.",

  counts: (number: number): string => counted(number, "count", "counts"),
  /** Of time without counts, in seconds. */
  uncounted,
  tempoHere: (tempo: string): string => `${tempo} a minute here`,
  /** How counts are divided, where that is not as in the rest of the routine. */
  feelHere: (feel: Feel): string => feels[feel],
  /** @param phrase its number in the section, from 1 */
  phraseFeel: (phrase: number, feel: Feel): string => `phrase ${phrase} ${feels[feel]}`,
  otherSide: "on the other side",
  /** Of a section that the dancers improvise. */
  own: "yours: dance what you like",
  tag: "on these times only",
  wall: (number: number): string => `wall ${number}`,
  time: (number: number): string => `time ${number}`,
  canon: (group: string, after: number, otherSide: boolean): string =>
    `${group}: the same${otherSide ? " on the other side" : ""}, ${counted(after, "count", "counts")} later`,

  /** Behind a number that the music lands on, to those who can't see its disc. */
  accent: "accent",
  /** Over what the rows of the table are. */
  phrases: "Phrase",
  phrase: (number: number): string => `Phrase ${number}`,
  /** Of the second line that a long phrase takes. */
  phraseOn: (number: number): string => `Phrase ${number}, continued`,
  /** On the counts of a phrase that a move runs into. */
  goesOn: "goes on",
  called: <T>(words: T) => ["called ", words] as const,

  /** Of groups in canon: the numbers that are their own, "5" or "5–8", beside those of the room. */
  ownCounts: (groups: string, on: string): string =>
    `${groups}, own ${plural(/[–,]/.test(on) ? 2 : 1, "count", "counts")} ${on}`,
  /** After the name of a group: others dance the same at the same time. */
  across: (groups: string): string => `, and ${groups} on the other side`,
  /** The same of a whole phrase. */
  groupsAcross: (groups: string, others: string): string => `${groups}, and ${others} on the other side`,
  hit: "hit",
  /** What the author is not sure of yet; shown to the author alone. */
  doubt: <T>(text: T) => ["Not sure yet: ", text] as const,
  steps: (feet: readonly string[]): string =>
    feet.length === 1 ? `onto the ${feet[0]} foot` : `feet: ${feet.join(", ")}`,
  withGear: (gear: readonly string[]): string => `With ${gear.join(", ")}`,
  choose: <T>(ways: readonly T[]) =>
    ["Your choice: ", ways.map((way, index) => (index > 0 ? [", or ", way] : [way]))] as const,
  /** @param link leads to the cautions, by the words given */
  takeCare: <T>(cautions: readonly string[], link: (words: string) => T) =>
    [`Take care: ${cautions.join(", ")}. `, link("Read the cautions")] as const,
  takeCareShort: (cautions: readonly string[]): string => `(take care: ${cautions.join(", ")})`,
};

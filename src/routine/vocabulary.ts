/**
 * The closed vocabularies of a dance: each list is in the order in which the trade (or this tool's tables) names them.
 * Types come from the lists, so that a schema, a message and a page can never know different words.
 */

/** Directions as the dancer who faces the audience names them, clockwise from above: index × 45°. */
export const facings = [
  "front",
  "front-right",
  "right",
  "back-right",
  "back",
  "back-left",
  "left",
  "front-left",
] as const;
export type Facing = (typeof facings)[number];

/** Where the weight can be. */
export const weights = [
  "left",
  "right",
  "both",
  "knees",
  "hands",
  "forearms",
  "shoulders",
  "head",
  "seat",
  "side",
  "belly",
  "spine",
] as const;
export type Weight = (typeof weights)[number];

/** Heights from standing down to the floor, then upside down. */
export const heights = ["standing", "chair", "crouching", "kneeling", "seated", "lying", "inverted"] as const;
export type Height = (typeof heights)[number];

/** Parts of the body that take weight or impact. */
export const contacts = ["knees", "hands", "forearms", "elbows", "shoulders", "hips", "head", "seat", "spine"] as const;
export type Contact = (typeof contacts)[number];

/** Risks that a class counts by the move. Being upside down has a word of its own; weight on the knees is a contact, and heels are worn throughout. */
export const countedRisks = [
  "floor-drop",
  "backbend",
  "split",
  "jump",
  "spin",
  "lift",
  "climb",
  "throw",
  "neck",
] as const;

export const bodyParts = [...contacts, "inversions"] as const;
/** A part of the body that takes weight or impact, or being upside down. */
export type BodyPart = (typeof bodyParts)[number];

export const loadParts = [...bodyParts, ...countedRisks] as const;
/** What a class's load is counted in: contacts by part of the body, times upside down, and moves with a risk. */
export type LoadPart = (typeof loadParts)[number];

/** Risks that ask for a caution, in the order in which cautions are listed. */
export const risks = [
  "floor-drop",
  "inversion",
  "backbend",
  "split",
  "jump",
  "spin",
  "lift",
  "kneework",
  "heels",
  "climb",
  "throw",
  "neck",
] as const;
export type Risk = (typeof risks)[number];

/**
 * Risks of moves that are never danced below full tempo: in slow motion there is no flight and no momentum, and the weight
 * hangs longer on whoever holds it (common practice, no source).
 */
export const neverSlowed: readonly Risk[] = ["floor-drop", "inversion", "jump", "lift", "climb", "throw"];

/** Risks that ask for somebody who spots or holds (common practice, no source). */
export const spotted: readonly Risk[] = ["inversion", "lift", "climb"];

/** What a section may do to the tempo that it has: halve it, double it, or take back what `same-as` brought. */
export const tempoTimes = ["half", "double", "full"] as const;
export type TempoTime = (typeof tempoTimes)[number];

export const feels = ["straight", "triplet", "swing"] as const;
/** How a count is divided: in halves and quarters, or in thirds. */
export type Feel = (typeof feels)[number];

export const audiences = ["all", "teen", "adult"] as const;
export type Audience = (typeof audiences)[number];

export const handoutKinds = ["versions", "mirrored", "large", "card"] as const;
/** What is printed of a routine: every version, and each in large print; the taught one mirrored, and as a cue card. */
export type HandoutKind = (typeof handoutKinds)[number];

/** How the breakdown's mirrored film came to be: the same film with its picture flipped, or danced anew on the other side. */
export const mirroredBy = ["flipped", "danced"] as const;
export type MirroredBy = (typeof mirroredBy)[number];

/** How a breakdown is recorded: one continuous recording, or take by take. */
export const recordingStyles = ["one-go", "takes"] as const;
export type RecordingStyle = (typeof recordingStyles)[number];

export const travelWays = ["forward", "back", "left", "right"] as const;
/** A direction of travel, seen from the dancer's own facing. */
export type TravelWay = (typeof travelWays)[number];

/** The dancing that a class is made of, in the order in which a part of a routine goes through it. */
export const dancedKinds = [
  "show-all",
  "recap",
  "show",
  "mark",
  "options",
  "detail",
  "drill",
  "again",
  "explain",
  "link",
  "from-the-top",
  "run-through",
  "away-from-mirror",
  "mirrored",
  "groups",
] as const;
export type DancedKind = (typeof dancedKinds)[number];

export type Foot = "left" | "right";

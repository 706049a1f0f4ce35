import * as z from "zod";
import { contacts, facings, feels, heights, risks, travelWays, weights } from "../../routine/vocabulary.js";
import { rest } from "../place.js";
import {
  countLength,
  key,
  line,
  listOf,
  name,
  number,
  paragraphs,
  truth,
  turn,
  versionName,
  whole,
  word,
} from "./values.js";

const feet = word(["left", "right"]);
const facing = word(facings, {
  audience: "front",
  mirror: "front",
  forward: "front",
  downstage: "front",
  upstage: "back",
  "stage-left": "left",
  "stage-right": "right",
});
const weight = word(weights, { even: "both", centre: "both", center: "both", "both-feet": "both", bottom: "seat" });
const height = word(heights, {
  up: "standing",
  squat: "crouching",
  squatting: "crouching",
  knees: "kneeling",
  sitting: "seated",
  floor: "lying",
  "upside-down": "inverted",
});
const risk = word([...risks, "none"], {
  drop: "floor-drop",
  fall: "floor-drop",
  handstand: "inversion",
  headstand: "inversion",
  cartwheel: "inversion",
  bridge: "backbend",
  leap: "jump",
  turn: "spin",
  pirouette: "spin",
  knees: "kneework",
  "knee-work": "kneework",
  climbing: "climb",
  throwing: "throw",
  toss: "throw",
  headroll: "neck",
  "head-roll": "neck",
});

/** Facing, weight and height; what is missing stays as it was. */
export const stanceKeys = {
  facing: key(
    facing,
    "the way the dancer faces, named as the one who faces the audience names the sides",
    "left",
  ).optional(),
  weight: key(weight, "where the weight is", "both").optional(),
  height: key(height, "how high the dancer is", "standing").optional(),
};

export const stance = z.strictObject(stanceKeys);

/* Not a mapping of fixed keys, which would forget their order. */
const travel = z
  .partialRecord(word(travelWays), number(0, 200, " steps"))
  .meta({ wants: "a way (forward, back, left, right) and a number of steps", example: "{ forward: 4 }" });

/* Silence is an empty call. */
const call = line.transform((text) => (text.toLowerCase() === "none" ? "" : text));
/* A list has one call a point of the counts, a text is called once. */
const say = z
  .union([
    z
      .array(call)
      .min(1)
      .transform((calls) => ({ calls, each: true })),
    call.transform((text) => ({ calls: text === "" ? [] : [text], each: false })),
  ])
  .meta({ wants: "a text, a list with a text for each count, or none" });

const moveKeys = {
  do: key(line, "what to do, in plain words; `hold` alone is a hold", "Push off onto the left foot"),
  say: key(
    say,
    "what you call, if not the counts; a list: one call a count; `none`, also in a list: nothing",
    "push",
  ).optional(),
  doubt: key(line, "what you are not sure of yet; never published", '"6 or 7?"').optional(),
  improvised: key(
    truth,
    "yes where it is the dancers' own: counted and shown, never drilled or mirrored, and where the weight ends is open",
    "yes",
  ).default(false),
  step: key(
    listOf(feet).meta({
      wants: "left or right, or a list of them in order",
      instead: { both: "For both feet at once, write `weight: both` in place of `step: both`." },
    }),
    "the foot that takes the weight, or several in order",
    "left",
  ).default([]),
  weight: key(weight, "where the weight is at the end", "both").optional(),
  turn: key(turn, "how far and which way, in eighths of a turn or more").optional(),
  facing: key(facing, "the way the dancer faces at the end", "front-left").optional(),
  height: key(height, "how high the dancer is at the end", "kneeling").optional(),
  through: key(height, "a height that the move passes through", "inverted").optional(),
  travel: key(travel, "steps, seen from where the dancer faces before the move").default({}),
  hit: key(truth, "yes where the move lands hard on its first count").default(false),
  contacts: key(
    listOf(word(contacts)).meta({ ownWords: true }),
    "parts of the body that take weight or impact",
    "[hands, knees]",
  ).default([]),
  risk: key(
    listOf(risk).refine(
      (list) => list.length === 1 || !list.includes("none"),
      "`none` stands alone: `risk: none`. Write it, or the risks.",
    ),
    "risks that ask for a caution; `none` in an option that has none of the plain move's",
    "[jump]",
  ).optional(),
  gear: key(listOf(line), "items that this move needs", "[mat]").default([]),
  words: key(line, "the words of the song that it lands on, short", "down by the wall").optional(),
  choose: key(listOf(line), "styling choices open to everybody", "[soft arms, sharp arms]").default([]),
  note: key(paragraphs, "a teaching tip", "Look up before you push").optional(),
  lasts: key(countLength, "a length in counts, in place of the end of the counts").optional(),
  allow: key(
    listOf(name.refine((text) => /^[a-z]+(-[a-z]+)*$/.test(text), "Write the rule's name as the message shows it.")),
    "rules that shall not warn about this move",
    "[same-foot]",
  ).default([]),
};

const moveWants = { wants: "a text, or `do` with its keys", example: "Push off onto the left foot" };
const moveMapping = z.strictObject(moveKeys);
export type MoveKeys = z.output<typeof moveMapping>;
/* A text alone is a move with nothing but its words. */
const text = line.transform((text) => ({ do: text }));
const optionMove = z.union([text.pipe(moveMapping), moveMapping]).meta({ ...moveWants, id: "option-move" });

/* Keys that begin with a digit are counts. */
const counts = z.string().regex(/^\d/).meta({ wants: "counts, such as `1-4`" });
const isCounts = (name: string) => /^\d/.test(name);

/** Puts the entries of a mapping that are no fixed keys into a mapping of their own, under `rest`. */
export function gatherRest(isRest: (name: string, value: unknown) => boolean) {
  return (value: unknown): unknown => {
    if (typeof value !== "object" || value === null || Array.isArray(value)) return value;
    const entries = Object.entries(value);
    return {
      ...Object.fromEntries(entries.filter(([name, inner]) => !isRest(name, inner))),
      [rest]: Object.fromEntries(entries.filter(([name, inner]) => isRest(name, inner))),
    };
  };
}

const optionCounts = z.record(counts, optionMove);
const option = z.union([text.pipe(moveMapping), moveMapping, optionCounts.transform((moves) => ({ moves }))]).meta({
  wants: "a text, `do` with its keys, or counts and their moves",
  example: "Slide both hands down the shins",
});

const plainMapping = moveMapping.extend({
  options: key(
    z.record(versionName, option),
    "other ways to fill the same counts, by level or adaptation",
    "{ seated: Nod twice }",
  ).optional(),
});
export const moveSchema = z.union([text.pipe(plainMapping), plainMapping]).meta({ ...moveWants, id: "move" });

/** A phrase: counts and their moves, and a few keys of its own. */
export const phrase = z
  .preprocess(
    gatherRest(isCounts),
    z.strictObject({
      length: key(whole(1, 64), "how many counts this phrase has", "4").optional(),
      from: key(whole(1, 64), "the number of its first count, for a pick-up", "7").optional(),
      feel: key(word(feels), "how a count is divided in this phrase", "swing").optional(),
      say: key(listOf(call), "what is called on its counts; `none` on one: nothing", "[4, 3, 2, 1]").optional(),
      options: key(
        z.record(versionName, optionCounts),
        "a version's whole other phrase, from counts to moves",
        "{ seated: { 1-8: Breathe } }",
      ).default({}),
      [rest]: z.record(counts, moveSchema),
    }),
  )
  .meta({ id: "phrase", wants: "counts and their moves", example: "1-4: Four slow steps" });

export type StanceKeys = z.output<typeof stance>;
export type PhraseKeys = z.output<typeof phrase>;
export type PlainMoveKeys = z.output<typeof moveSchema>;
export type OptionKeys = z.output<typeof option>;

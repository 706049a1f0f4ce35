import type { Cue } from "../../routine/cue.js";
import type { WordPairs } from "../../routine/cue-language.js";
import { mirrorCue } from "../../routine/mirror-cue.js";
import { type Body, reflectBody } from "../../routine/reflect.js";
import type { Move, OtherWay } from "../../routine/routine.js";
import type { Facing, Height, TravelWay, Weight } from "../../routine/words.js";
import { lastsText, versionName } from "../figures.js";
import { cautionOf } from "../safety.js";
import { bothSides, cueHtml } from "./cue-html.js";
import { type Html, html, raw } from "./html.js";

/** Who dances a row. */
export interface Dancers {
  /** Classes of the versions and groups that dance it; empty where all do. */
  readonly classes: string;
  /** Their names, where not all groups dance it. */
  readonly groups: string;
}

/** A row of the counts: one move, or a hold that nobody wrote. */
export interface MoveView extends Dancers {
  /** The counts: "1–3". */
  readonly on: string;
  /** Where the counts do not tell how long it lasts: "10 counts". */
  readonly lasts: string | undefined;
  readonly hold: boolean;
  readonly hit: boolean;
  readonly cue: Html;
  readonly say: Html | undefined;
  /** The landing words in the song. */
  readonly words: string | undefined;
  /** What the body does beside the cue: steps, turn, new facing, travel, height, weight. */
  readonly body: readonly Html[];
  /** Short names of its risks. */
  readonly cautions: readonly string[];
  readonly gear: readonly string[];
  readonly choose: readonly Html[];
  readonly note: Html | undefined;
  readonly others: readonly OtherView[];
}

/** What another version dances on the same counts. */
export interface OtherView {
  /** Of the version. */
  readonly name: string;
  readonly moves: readonly { readonly on: string; readonly cue: Html; readonly cautions: readonly string[] }[];
}

/** A span as it is printed, with a dash between its ends. */
export function spanText(on: string): string {
  return on.replace("-", "–");
}

/** A move on both sides, as a row. */
export function moveView(move: Move, pairs: WordPairs, { classes, groups }: Dancers): MoveView {
  const both = (cue: Cue) => bothSides(cueHtml(cue), cueHtml(mirrorCue(cue, pairs)));
  return {
    classes,
    groups,
    on: spanText(move.on),
    lasts: lastsText(move),
    hold: move.hold,
    hit: move.hit,
    cue: bothSides(cueHtml(move.cue), cueHtml(move.mirroredCue)),
    say: move.say && both(move.say),
    words: move.words,
    body: bodyView(move),
    cautions: move.risks.map((risk) => cautionOf(risk).label),
    gear: move.gear,
    choose: move.choose.map(both),
    note: move.note && both(move.note),
    others: move.others.map((other) => otherView(other, both)),
  };
}

/** A hold that nobody wrote. */
export function holdView(on: string, { classes, groups }: Dancers): MoveView {
  const nothing = {
    lasts: undefined,
    say: undefined,
    words: undefined,
    body: [],
    cautions: [],
    gear: [],
    choose: [],
    note: undefined,
    others: [],
  };
  return { classes, groups, on, hold: true, hit: false, cue: html`hold`, ...nothing };
}

function otherView(other: OtherWay, both: (cue: Cue) => Html): OtherView {
  const moves = other.moves.map(({ on, cue, risks }) => ({
    on: spanText(on),
    cautions: risks.map((risk) => cautionOf(risk).label),
    cue: both(cue),
  }));
  return { name: versionName(other.version), moves };
}

/** A facing with its dart, seen from above, as markup. */
function facingText(facing: Facing): string {
  return `<span class="facing facing-${facing}">facing ${facing}</span>`;
}

/** What the body does beside the cue. A move has the same parts on both sides. */
function bodyView(move: Move): readonly Html[] {
  const mirrored = bodyTexts(reflectBody(move), move.through);
  return bodyTexts(move, move.through).map((text, index) => bothSides(raw(text), raw(mirrored[index] ?? text)));
}

/** As markup; nothing in it is an author's text. */
function bodyTexts({ steps, turn, travel, before, after }: Body, through: Height | undefined): readonly string[] {
  const texts: string[] = [];
  if (steps.length > 0) texts.push(steps.length === 1 ? `onto the ${steps[0]} foot` : `feet: ${steps.join(", ")}`);
  if (turn !== 0) texts.push(`${turnText(Math.abs(turn))} ${turn > 0 ? "right" : "left"}`);
  if (before.facing !== after.facing) texts.push(facingText(after.facing));
  if (travel.length > 0)
    texts.push(
      travel.map((part) => `${part.steps} ${part.steps === 1 ? "step" : "steps"} ${ways[part.way]}`).join(", "),
    );
  if (through !== undefined) texts.push(`through ${heightTexts[through]}`);
  if (before.height !== after.height) texts.push(`to ${heightTexts[after.height]}`);
  if (before.weight !== after.weight && steps.at(-1) !== after.weight) texts.push(weightText(after.weight));
  return texts;
}

const ways: Readonly<Record<TravelWay, string>> = {
  forward: "forward",
  back: "back",
  left: "to the left",
  right: "to the right",
};

const heightTexts: Readonly<Record<Height, string>> = {
  standing: "standing",
  chair: "the chair",
  crouching: "a crouch",
  kneeling: "the knees",
  seated: "sitting on the floor",
  lying: "lying down",
  inverted: "upside down",
};

function weightText(weight: Weight): string {
  if (weight === "both") return "weight on both feet";
  return weight === "left" || weight === "right" ? `weight on the ${weight} foot` : `weight on the ${weight}`;
}

const parts = ["", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"];

/** Eighths of a turn in words: 10 is "1¼ turns". */
function turnText(eighths: number): string {
  const whole = Math.floor(eighths / 8);
  return `${whole > 0 ? whole : ""}${parts[eighths % 8]} ${eighths > 8 ? "turns" : "turn"}`;
}

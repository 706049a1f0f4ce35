import type { Move, OtherWay } from "../../routine/routine.js";
import type { Facing, Height, TravelWay } from "../../routine/words.js";
import { versionName } from "../figures.js";
import { cautionOf } from "../safety.js";
import { bothSides, cueHtml } from "./cue-html.js";
import { type Html, html } from "./html.js";

/** Who dances a row. */
export interface Dancers {
  /** Classes of the versions and groups that dance it; empty where all do. */
  readonly classes: string;
  /** Their names, where not all groups dance it. */
  readonly groups?: string;
}

/** A row of the counts: one move, or a hold that nobody wrote. */
export interface MoveView extends Dancers {
  /** The counts: "1–3". */
  readonly on: string;
  readonly hold: boolean;
  readonly hit: boolean;
  readonly cue: Html;
  readonly say?: Html;
  /** The landing words in the song. */
  readonly words?: string;
  /** Whose option it is: "Level 1". */
  readonly option?: string;
  /** What the body does beside the cue: steps, turn, new facing, travel, height, weight. */
  readonly body: readonly Html[];
  /** Short names of its risks. */
  readonly cautions: readonly string[];
  readonly gear: readonly string[];
  readonly choose: readonly Html[];
  readonly note?: Html;
  readonly others: readonly { readonly name: string; readonly moves: readonly OtherMoveView[] }[];
}

export interface OtherMoveView {
  readonly on: string;
  readonly cue: Html;
}

/** A span as it is printed, with a dash between its ends. */
export function spanText(on: string): string {
  return on.replace("-", "–");
}

/** A move and the same move on the other side, as a row. */
export function moveView(move: Move, mirrored: Move, dancers: Dancers): MoveView {
  return {
    ...dancers,
    on: spanText(move.on),
    hold: move.hold,
    hit: move.hit,
    cue: bothSides(cueHtml(move.cue), cueHtml(mirrored.cue)),
    ...(move.say && mirrored.say ? { say: bothSides(cueHtml(move.say), cueHtml(mirrored.say)) } : {}),
    ...(move.words === undefined ? {} : { words: move.words }),
    ...(move.option === undefined ? {} : { option: versionName(move.option) }),
    body: bodyParts.flatMap((part) => bothParts(part(move), part(mirrored))),
    cautions: move.risks.map((risk) => cautionOf(risk).label),
    gear: move.gear,
    choose: move.choose.map((choice, index) => bothSides(cueHtml(choice), cueHtml(mirrored.choose[index] ?? choice))),
    ...(move.note && mirrored.note ? { note: bothSides(cueHtml(move.note), cueHtml(mirrored.note)) } : {}),
    others: move.others.map((other, index) =>
      otherView(versionName(other.version), other, mirrored.others[index] ?? other),
    ),
  };
}

/** A hold that nobody wrote. */
export function holdView(on: string, dancers: Dancers): MoveView {
  const nothing = { body: [], cautions: [], gear: [], choose: [], others: [] };
  return { ...dancers, on, hold: true, hit: false, cue: html`hold`, ...nothing };
}

function otherView(name: string, other: OtherWay, mirrored: OtherWay): MoveView["others"][number] {
  const moves = other.moves.map(({ on, cue }, index) => ({
    on: spanText(on),
    cue: bothSides(cueHtml(cue), cueHtml(mirrored.moves[index]?.cue ?? cue)),
  }));
  return { name, moves };
}

/** A part that a move has, it has on both sides. */
function bothParts(taught: Html | undefined, mirrored: Html | undefined): readonly Html[] {
  return taught && mirrored ? [bothSides(taught, mirrored)] : [];
}

const bodyParts: readonly ((move: Move) => Html | undefined)[] = [
  ({ steps }) =>
    steps.length === 0
      ? undefined
      : html`${steps.length === 1 ? `onto the ${steps[0]} foot` : `feet: ${steps.join(", ")}`}`,
  ({ turn }) => (turn === 0 ? undefined : html`${turnText(Math.abs(turn))} ${turn > 0 ? "right" : "left"}`),
  ({ before, after }) => (before.facing === after.facing ? undefined : facingHtml(after.facing)),
  ({ travel }) =>
    travel.length === 0
      ? undefined
      : html`${travel.map(({ way, steps }) => `${steps} ${steps === 1 ? "step" : "steps"} ${ways[way]}`).join(", ")}`,
  ({ through }) => (through === undefined ? undefined : html`through ${heightTexts[through]}`),
  ({ before, after }) => (before.height === after.height ? undefined : html`to ${heightTexts[after.height]}`),
  ({ before, after, steps }) =>
    before.weight === after.weight || steps.at(-1) === after.weight ? undefined : html`${weightText(after.weight)}`,
];

/** A facing with its dart, seen from above. */
export function facingHtml(facing: Facing): Html {
  return html`<span class="facing facing-${facing}">facing ${facing}</span>`;
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

function weightText(weight: Move["after"]["weight"]): string {
  if (weight === "both") return "weight on both feet";
  return weight === "left" || weight === "right" ? `weight on the ${weight} foot` : `weight on the ${weight}`;
}

const parts = ["", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"];

/** Eighths of a turn in words: 10 is "1¼ turns". */
function turnText(eighths: number): string {
  const whole = Math.floor(eighths / 8);
  return `${whole > 0 ? whole : ""}${parts[eighths % 8]} ${eighths > 8 ? "turns" : "turn"}`;
}

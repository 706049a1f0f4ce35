import { aloud } from "../../routine/calls.js";
import type { Cue } from "../../routine/cue.js";
import type { WordPairs } from "../../routine/cue-language.js";
import { type Body, mirrorBody } from "../../routine/mirror.js";
import { otherWords } from "../../routine/mirror-cue.js";
import type { Alternative, Move } from "../../routine/routine.js";
import type { Facing, Height, Risk } from "../../routine/vocabulary.js";
import type { Wording } from "../../wording/wording.js";
import { bothSides, cueHtml } from "./cue-html.js";
import { type Html, html } from "./html.js";

/** Who dances a row. */
export interface RowDancers {
  /** Classes of the versions and groups that dance it; empty where all do. */
  readonly classes: string;
  /** Their names, where not all groups dance it. */
  readonly groups: string;
  /** True where another row tells it while all groups are shown. */
  readonly told: boolean;
}

/** A row of the counts: one move, or a hold that nobody wrote. */
export interface MoveView extends RowDancers {
  /** The counts: "1–3". */
  readonly on: string;
  /** Where the counts do not tell how long it lasts: "10 counts". */
  readonly lasts: string | undefined;
  readonly hold: boolean;
  readonly hit: boolean;
  /** The dancers' own. */
  readonly improvised: boolean;
  readonly cue: Html;
  /** What is called in place of the counts, in order. */
  readonly say: readonly Html[];
  /** The landing words in the song. */
  readonly words: string | undefined;
  /** What the body does beside the cue: steps, turn, new facing, travel, height, weight. */
  readonly body: readonly Html[];
  /** Short names of its risks. */
  readonly cautions: readonly string[];
  readonly gear: readonly string[];
  readonly choose: readonly Html[];
  readonly note: Html | undefined;
  readonly otherVersions: readonly OtherVersionView[];
  /** What the author is not sure of yet. */
  readonly doubt?: string;
  /** Groups that dance the same on the other side, and are told of here while all groups are shown. */
  readonly across?: string;
}

/** What another version dances on the same counts. */
export interface OtherVersionView {
  /** Of the version. */
  readonly name: string;
  readonly moves: readonly {
    readonly on: string;
    readonly cue: Html;
    readonly cautions: readonly string[];
    readonly improvised: boolean;
  }[];
}

/** A move on both sides, as a row. */
export function moveView(move: Move, pairs: WordPairs, dancers: RowDancers, wording: Wording): MoveView {
  const bothOf = (of: Pick<Move, "improvised">) => (cue: Cue) =>
    bothSides(cueHtml(cue), cueHtml(otherWords(of, pairs)(cue)));
  const both = bothOf(move);
  return {
    ...dancers,
    on: wording.counts.span(move.on),
    lasts: wording.counts.lasts(move),
    hold: move.hold,
    hit: move.hit,
    improvised: move.improvised,
    cue: bothSides(cueHtml(move.cue), cueHtml(move.mirroredCue)),
    say: aloud(move.say).map(({ cue }) => both(cue)),
    words: move.words,
    body: bodyView(move, wording),
    cautions: labelsOf(move.cautions, wording),
    gear: move.gear,
    choose: move.choose.map(both),
    note: move.note && both(move.note),
    otherVersions: move.alternatives.map((other) => otherVersionView(other, bothOf, wording)),
  };
}

/** A hold that nobody wrote. */
export function holdView(on: string, dancers: RowDancers, wording: Wording): MoveView {
  const nothing = {
    improvised: false,
    lasts: undefined,
    say: [],
    words: undefined,
    body: [],
    cautions: [],
    gear: [],
    choose: [],
    note: undefined,
    otherVersions: [],
  };
  return { ...dancers, on, hold: true, hit: false, cue: html`${wording.counts.hold}`, ...nothing };
}

function otherVersionView(
  other: Alternative,
  both: (of: Pick<Move, "improvised">) => (cue: Cue) => Html,
  wording: Wording,
): OtherVersionView {
  const moves = other.moves.map((move) => ({
    on: wording.counts.span(move.on),
    cautions: labelsOf(move.risks, wording),
    cue: both(move)(move.cue),
    improvised: move.improvised,
  }));
  return { name: wording.versions.name(other.version), moves };
}

function labelsOf(risks: readonly Risk[], wording: Wording): readonly string[] {
  return risks.map(wording.risks.label);
}

/** A facing with its sign, seen from above. */
function facingView(facing: Facing, { stance }: Wording): Html {
  return html`<span class="facing facing-${facing}">${stance.facing(facing)}</span>`;
}

/** What the body does beside the cue. A move has the same parts on both sides. */
function bodyView(move: Move, wording: Wording): readonly Html[] {
  const mirrored = bodyParts(mirrorBody(move), move.through, wording);
  return bodyParts(move, move.through, wording).map((part, index) => bothSides(part, mirrored[index] ?? part));
}

function bodyParts(body: Body, through: Height | undefined, wording: Wording): readonly Html[] {
  const { steps, turn, travel, before, after } = body;
  const { stance, sections } = wording;
  const weighs = before.weight !== after.weight && steps.at(-1) !== after.weight;
  const parts = [
    steps.length > 0 && sections.steps(steps),
    turn !== 0 && stance.turn(turn),
    before.facing !== after.facing && facingView(after.facing, wording),
    travel.length > 0 && travel.map((part) => stance.travel(part.steps, part.way)).join(", "),
    through !== undefined && stance.through(through),
    before.height !== after.height && stance.to(after.height),
    weighs && after.weight !== undefined && stance.weight(after.weight),
  ];
  return parts.filter((part) => part !== false).map((part) => html`${part}`);
}

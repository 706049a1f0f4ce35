import type { WordPairs } from "./cue-language.js";
import { mirrorCue, otherWords } from "./mirror-cue.js";
import type { Alternative, DancedSection, Group, Move, Routine, Version } from "./routine.js";
import { otherFoot, otherTravel, reflectedStance } from "./stance.js";

/**
 * The whole routine on the other side: reflected about the room's front-back line, its start included.
 *
 * @example
 * mirror(routine).versions[0].moves[1].cue.text // "Stamp right"
 * mirror(mirror(routine)).versions[0].moves[1].cue.text // "Stamp left"
 */
export function mirror(routine: Routine): Routine {
  const flip = (text: string) => mirrorCue({ text, marks: [] }, routine.mirrorWords).text;
  return {
    ...routine,
    mirrored: !routine.mirrored,
    sections: routine.sections.map((section) => mirrorSection(section, flip)),
    versions: routine.versions.map((version) => mirrorVersion(version, routine.mirrorWords)),
  };
}

function mirrorSection(section: DancedSection, flip: (text: string) => string): DancedSection {
  const phrases = section.phrases.map((phrase) =>
    phrase.say === undefined ? phrase : { ...phrase, say: phrase.say.map(flip) },
  );
  return { ...section, phrases };
}

function mirrorVersion(version: Version, pairs: WordPairs): Version {
  return {
    ...version,
    ...mirrorDance(version, pairs),
    groups: version.groups.map((group) => mirrorGroup(group, pairs)),
  };
}

function mirrorGroup(group: Group, pairs: WordPairs): Group {
  return { ...group, ...mirrorDance(group, pairs) };
}

function mirrorDance({ start, end, moves }: Pick<Group, "start" | "end" | "moves">, pairs: WordPairs) {
  return {
    start: reflectedStance(start),
    end: reflectedStance(end),
    moves: moves.map((move) => mirrorMove(move, pairs)),
  };
}

/** What the body does in a move. */
export type Body = Pick<Move, "before" | "after" | "steps" | "turn" | "travel">;

/** The body on the other side. */
export function mirrorBody({ before, after, steps, turn, travel }: Body): Body {
  return {
    before: reflectedStance(before),
    after: reflectedStance(after),
    steps: steps.map(otherFoot),
    turn: -turn || 0,
    travel: travel.map(otherTravel),
  };
}

/** A move on the other side. */
export function mirrorMove(move: Move, pairs: WordPairs): Move {
  const flip = otherWords(move, pairs);
  return {
    ...move,
    cue: move.mirroredCue,
    mirroredCue: move.cue,
    ...(move.say === undefined ? {} : { say: move.say.map(({ at, cue }) => ({ at, cue: flip(cue) })) }),
    ...(move.note === undefined ? {} : { note: flip(move.note) }),
    choose: move.choose.map(flip),
    ...mirrorBody(move),
    alternatives: move.alternatives.map(
      (other): Alternative => ({
        ...other,
        moves: other.moves.map((one) => ({ ...one, cue: otherWords(one, pairs)(one.cue) })),
      }),
    ),
  };
}

import { mirrorCue } from "./mirror-cue.js";
import type { DancedSection, Move, OtherWay, Routine, Version } from "./routine.js";
import { otherFoot, otherTravel, reflectedStance } from "./stance.js";

/** The whole routine on the other side: reflected about the room's front-back line, its start included. */
export function reflect(routine: Routine): Routine {
  const flip = (cue: Move["cue"]) => mirrorCue(cue, routine.mirrorWords);
  return {
    ...routine,
    mirrored: !routine.mirrored,
    sections: routine.sections.map((section) => reflectSection(section, (text) => flip({ text, marks: [] }).text)),
    versions: routine.versions.map((version) => reflectVersion(version, flip)),
  };
}

function reflectSection(section: DancedSection, flip: (text: string) => string): DancedSection {
  const phrases = section.phrases.map((phrase) =>
    phrase.say === undefined ? phrase : { ...phrase, say: phrase.say.map(flip) },
  );
  return { ...section, phrases };
}

function reflectVersion(version: Version, flip: (cue: Move["cue"]) => Move["cue"]): Version {
  return {
    ...version,
    start: reflectedStance(version.start),
    end: reflectedStance(version.end),
    moves: version.moves.map((move) => reflectMove(move, flip)),
  };
}

function reflectMove(move: Move, flip: (cue: Move["cue"]) => Move["cue"]): Move {
  return {
    ...move,
    cue: move.mirroredCue,
    mirroredCue: move.cue,
    ...(move.say === undefined ? {} : { say: flip(move.say) }),
    ...(move.note === undefined ? {} : { note: flip(move.note) }),
    choose: move.choose.map(flip),
    before: reflectedStance(move.before),
    after: reflectedStance(move.after),
    steps: move.steps.map(otherFoot),
    turn: -move.turn || 0,
    travel: move.travel.map(otherTravel),
    others: move.others.map(
      (other): OtherWay => ({ ...other, moves: other.moves.map((one) => ({ ...one, cue: flip(one.cue) })) }),
    ),
  };
}

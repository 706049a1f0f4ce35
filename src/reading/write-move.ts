import type { Cue } from "../routine/cue.js";
import { travelWays } from "../routine/words.js";
import type { Travel, WrittenMove, WrittenOption } from "../routine/written.js";
import { inlineCue, isHold } from "./cue.js";
import { given } from "./given.js";
import { type Path, placeOf } from "./place.js";
import type { MoveKeys, OptionKeys, PlainMoveKeys } from "./schema/move.js";

/** Hears of a link that is left out of a cue. */
export type UnsafeLink = (href: string, path: Path) => void;

/** A plain move and its options, as the model reads them. */
export function writePlainMove(move: PlainMoveKeys, path: Path, unsafe: UnsafeLink): WrittenMove {
  const options = Object.entries(move.options ?? {}).map(([version, option]) =>
    writeOption(version, option, [...path, "options", version], unsafe),
  );
  return { ...writeMove(move, path, unsafe), options };
}

function writeOption(version: string, option: OptionKeys, path: Path, unsafe: UnsafeLink): WrittenOption {
  const moves = "do" in option ? [writeMove(option, path, unsafe)] : writeCounts(option.moves, path, unsafe);
  return { place: placeOf(path), version, moves };
}

/** Moves on counts of their own, none with options. */
export function writeCounts(moves: Readonly<Record<string, MoveKeys>>, path: Path, unsafe: UnsafeLink): WrittenMove[] {
  return Object.entries(moves).map(([on, move]) => ({ on, ...writeMove(move, [...path, on], unsafe) }));
}

function writeMove(move: MoveKeys, path: Path, unsafe: UnsafeLink): WrittenMove {
  const read = (text: string, ...inner: Path): Cue => inlineCue(text, (href) => unsafe(href, [...path, ...inner]));
  const cue = read(move.do, "do");
  const { weight, turn, facing, height, through, words, lasts } = move;
  return {
    place: placeOf(path),
    cue,
    hold: isHold(cue),
    ...given({ weight, turn, facing, height, through, words, lasts }),
    ...(move.say === undefined ? {} : { say: read(move.say, "say") }),
    ...(move.note === undefined ? {} : { note: read(move.note, "note") }),
    steps: move.step ?? [],
    travel: writeTravel(move.travel),
    hit: move.hit ?? false,
    contacts: move.contacts ?? [],
    risks: move.risk ?? [],
    gear: move.gear ?? [],
    choose: (move.choose ?? []).map((text, index) => read(text, "choose", index)),
    options: [],
    allow: move.allow ?? [],
  };
}

function writeTravel(travel: MoveKeys["travel"]): Travel[] {
  return Object.entries(travel ?? {}).flatMap(([name, steps]) => {
    const way = travelWays.find((each) => each === name);
    return way && steps ? [{ way, steps: steps.valueOf() }] : [];
  });
}

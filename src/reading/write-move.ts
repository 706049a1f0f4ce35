import type { Cue } from "../routine/cue.js";
import { definedOnly } from "../routine/defined-only.js";
import { travelWays } from "../routine/vocabulary.js";
import type { Travel, WrittenMove, WrittenOption } from "../routine/written.js";
import { inlineCue, isHold } from "./cue.js";
import type { NothingLeft } from "./nothing-left.js";
import { type Path, placeOf } from "./place.js";
import type { MoveKeys, OptionKeys, PlainMoveKeys } from "./schema/move.js";

/** Hears of a link that is left out of a cue. */
export type UnsafeLink = (href: string, path: Path) => void;

/** Moves on their counts. */
export function writeMoves(
  moves: Readonly<Record<string, PlainMoveKeys | MoveKeys>>,
  path: Path,
  unsafe: UnsafeLink,
): WrittenMove[] {
  return Object.entries(moves).map(([on, move]) => writeMove(on, move, [...path, on], unsafe));
}

function writeMove(on: string | undefined, move: PlainMoveKeys, path: Path, unsafe: UnsafeLink): WrittenMove {
  const { do: text, say, step, weight, turn, facing, height, through, travel, hit, contacts, risk, ...more } = move;
  const { gear, words, choose, note, lasts, allow, doubt, improvised, options = {}, ...left } = more;
  left satisfies NothingLeft;
  const read = (markdown: string, ...inner: Path): Cue =>
    inlineCue(markdown, (href) => unsafe(href, [...path, ...inner]));
  const cue = read(text, "do");
  return {
    place: placeOf(path),
    cue,
    hold: isHold(cue),
    ...definedOnly<WrittenMove>({
      risks: risk?.filter((one) => one !== "none"),
      ...{ on, weight, turn, facing, height, through, words, lasts, doubt },
      say: say && { each: say.each, calls: say.calls.map((call) => read(call, "say")) },
      note: note === undefined ? undefined : read(note, "note"),
    }),
    steps: step,
    travel: writeTravel(travel),
    hit,
    improvised,
    contacts,
    gear,
    choose: choose.map((choice, index) => read(choice, "choose", index)),
    options: Object.entries(options).map(([version, option]) =>
      writeOption(version, option, [...path, "options", version], unsafe),
    ),
    allow,
  };
}

function writeOption(version: string, option: OptionKeys, path: Path, unsafe: UnsafeLink): WrittenOption {
  const moves = "do" in option ? [writeMove(undefined, option, path, unsafe)] : writeMoves(option.moves, path, unsafe);
  return { place: placeOf(path), version, moves };
}

function writeTravel(travel: MoveKeys["travel"]): Travel[] {
  return Object.entries(travel).flatMap(([name, steps]) => {
    const way = travelWays.find((each) => each === name);
    return way && steps ? [{ way, steps: steps.valueOf() }] : [];
  });
}

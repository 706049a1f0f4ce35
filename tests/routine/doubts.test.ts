import { expect, test } from "vitest";
import { dance } from "../../src/routine/dance.js";
import { cue, library, move, phrase, section, written } from "../fixtures/written.js";

const doubts = (given: Parameters<typeof written>[0]) =>
  dance(written(given), library)
    .problems.filter(({ rule }) => rule === "doubt")
    .map(({ message }) => message.slice(0, message.indexOf(";")));

test("a doubt is listed with the versions that dance it", () => {
  const option = { place: "option", version: "2", moves: [{ ...move(undefined, "Spin", { doubt: "or a jump?" }) }] };
  const moves = [
    move("1-4", "Walk", { doubt: "left first?" }),
    move("5-8", "Turn", { cue: cue("Turn"), doubt: "half?", options: [option] }),
  ];
  const given = { levels: ["1", "2", "3"], adaptations: [{ place: "seated", name: "seated" }] };
  expect(doubts({ ...given, sections: [section("A", [phrase(moves)], { doubt: "twice?" })] })).toEqual([
    "you are not sure here: “twice?”",
    "you are not sure here (every version): “left first?”",
    "you are not sure here (level 1, seated): “half?”",
    "you are not sure here (level 2, level 3): “or a jump?”",
  ]);
});

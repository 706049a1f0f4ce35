import fc from "fast-check";
import Fraction from "fraction.js";
import { describe, expect, it } from "vitest";
import { readRoutine } from "../../src/reading/read-routine.js";
import {
  type Cell,
  chart,
  countsBetween,
  dancersOf,
  moveEnd,
  movesOfAll,
  partOf,
  phraseEnd,
} from "../../src/routine/chart.js";
import { clicks } from "../../src/routine/clicks.js";
import { dance } from "../../src/routine/dance.js";
import type { Routine } from "../../src/routine/routine.js";
import { library, routines } from "../fixtures/arbitrary.js";

/** The routine of a file: these lines stand for its sections, and for whatever comes before them. */
function read(yaml: string): Routine {
  const { routine, findings } = readRoutine(
    `---\ntitle: Sill\nchoreographer: Ines Varga\n${yaml}\n---\n`,
    "sill",
    library,
  );
  if (routine === undefined) throw new Error(findings.map(({ message }) => message).join("\n"));
  return routine;
}

const taughtOf = (routine: Routine) => {
  const version = routine.versions.find(({ id }) => id === routine.taught);
  if (version === undefined) throw new Error("There is no taught version.");
  return version;
};
const shown = ({ move, from, to, begins, ends }: Cell) =>
  `${begins ? "" : "…"}${move?.cue.text ?? "-"} ${from.toFraction()} to ${to.toFraction()}${ends ? "" : "…"}`;

describe("the chart", () => {
  it("leaves no count of a phrase out and names none twice, for everybody who dances", () => {
    fc.assert(
      fc.property(routines(), (written) => {
        const { routine } = dance(written, library);
        if (routine === undefined) throw new Error("An arbitrary routine can be danced.");
        for (const version of routine.versions)
          for (const dancers of dancersOf(routine, version)) {
            const { moves } = dancers;
            const charted = chart(routine, dancers);
            const danced = new Map<unknown, Fraction>();
            for (const { phrase, cells, length, stance } of charted) {
              const before = moves.findLast(({ at }) => at.lt(phrase.at));
              const running = before !== undefined && moveEnd(before).gt(phrase.at);
              expect(stance).toEqual(running ? before.before : (before?.after ?? dancers.start));
              let until = new Fraction(phrase.at);
              for (const { move, from, to, begins, ends } of cells) {
                expect(from.equals(until)).toBe(true);
                expect(to.gt(from)).toBe(true);
                until = to;
                if (move === undefined) continue;
                expect(begins).toBe(move.at.equals(from));
                expect(ends).toBe(moveEnd(move).equals(to));
                danced.set(move, (danced.get(move) ?? new Fraction(0)).add(to.sub(from)));
              }
              expect(until.equals(phraseEnd(phrase))).toBe(true);
              expect(length).toBe(phrase.numbers.length);
            }
            for (const move of moves) expect(danced.get(move)?.equals(move.length)).toBe(true);
            expect(danced.size).toBe(moves.length);
          }
      }),
    );
  });

  it("starts each phrase where its first count clicks", () => {
    fc.assert(
      fc.property(routines(), (written) => {
        const { routine } = dance(written, library);
        if (routine === undefined) throw new Error("An arbitrary routine can be danced.");
        const at = new Map([...clicks(routine)].map((click) => [click.at, click.start]));
        for (const { phrase, start } of chart(routine, taughtOf(routine)))
          expect(at.get(phrase.at)?.equals(start), `count ${phrase.at}`).toBe(true);
      }),
    );
  });

  it("has holds that nobody wrote, and moves that run on into the next phrase", () => {
    const routine = read(
      "music: { tempo: 120 }\nsections:\n  - name: Hall\n    counts:\n      - 1-2: Walk\n        3&: Clap\n        7-2: Melt\n      - 5-8: Rise",
    );
    const [one, two] = chart(routine, taughtOf(routine));
    expect(one?.cells.map(shown)).toEqual(["Walk 0 to 2", "- 2 to 5/2", "Clap 5/2 to 3", "- 3 to 6", "Melt 6 to 8…"]);
    expect(two?.cells.map(shown)).toEqual(["…Melt 8 to 10", "- 10 to 12", "Rise 12 to 16"]);
    expect([one?.start.valueOf(), two?.start.valueOf()]).toEqual([0, 4]);
  });

  it("is cut where a long phrase takes two rows", () => {
    const routine = read(
      "music: { tempo: 60, phrase: 12 }\nsections:\n  - name: Hall\n    counts:\n      - say: [a, b, c, d, e, f, g]\n        1-4: Walk\n        5-8: Turn the head\n        12: Clap",
    );
    const [whole] = chart(routine, taughtOf(routine));
    const [section] = routine.sections;
    if (whole === undefined || section === undefined) throw new Error("There is a phrase.");
    const [left, right] = [partOf(whole, section, 0, 6), partOf(whole, section, 6, 12)];
    expect(left.cells.map(shown)).toEqual(["Walk 0 to 4", "Turn the head 4 to 6…"]);
    expect(right.cells.map(shown)).toEqual(["…Turn the head 6 to 8", "- 8 to 11", "Clap 11 to 12"]);
    expect([left.phrase.say, right.phrase.say]).toEqual([["a", "b", "c", "d", "e", "f"], ["g"]]);
    expect([right.phrase.at, right.length, right.start.valueOf()]).toEqual([6, 6, 6]);
  });

  it("knows how they stand where a row begins in the middle of a phrase", () => {
    const routine = read(
      "music: { tempo: 60, phrase: 12 }\nsections:\n  - name: Hall\n    counts:\n      - 1-2: { do: Turn, turn: 1/4 right }\n        7-9: { do: Turn again, turn: 1/4 right }",
    );
    const [whole] = chart(routine, taughtOf(routine));
    const [section] = routine.sections;
    if (whole === undefined || section === undefined) throw new Error("There is a phrase.");
    const facings = [0, 1, 2, 4, 6, 8, 9].map((from) => partOf(whole, section, from, 12).stance.facing);
    expect(facings).toEqual(["front", "front", "right", "right", "right", "right", "back"]);
  });

  it("says counts by the room's numbers", () => {
    const routine = read(
      "music: { tempo: 120, feel: triplet }\nsections:\n  - name: Hall\n    counts:\n      - 1-8: Walk\n      - 1-8: Run",
    );
    const [one] = chart(routine, taughtOf(routine));
    if (one === undefined) throw new Error("There is a phrase.");
    const said = (from: Fraction, to: number) => countsBetween(routine, one, from, new Fraction(to));
    expect(said(new Fraction(2), 3)).toBe("3");
    expect(said(new Fraction(7, 3), 3)).toBe("3&");
    expect(said(new Fraction(7, 3), 5)).toBe("3&-5");
    expect(said(new Fraction(6), 10)).toBe("7-2");
    expect(said(new Fraction(6), 15)).toBe("7-7");
  });

  it("has what all groups dance at once, once, and the rest by group", () => {
    const routine = read(
      "music: { tempo: 120 }\ngroups: [Ebb, Flood]\nsections:\n  - name: Hall\n    counts:\n      - 1-8: Walk\n  - name: Yard\n    counts:\n      - 1-8: Run\n    parts:\n      Flood:\n        - 1-8: Sit",
    );
    const version = taughtOf(routine);
    expect(dancersOf(routine, version).map(({ group }) => group)).toEqual(["Ebb", "Flood"]);
    expect(movesOfAll(dancersOf(routine, version)).map(({ move, group }) => [move.cue.text, group])).toEqual([
      ["Walk", undefined],
      ["Run", "Ebb"],
      ["Sit", "Flood"],
    ]);
  });

  it("puts a group in canon where the room counts", () => {
    const routine = read(
      "music: { tempo: 120 }\ngroups: [Ebb, Flood]\nsections:\n  - name: Hall\n    canon: { Flood: 4 }\n    counts:\n      - 1-8: Walk",
    );
    const [, flood] = dancersOf(routine, taughtOf(routine));
    expect(chart(routine, flood ?? taughtOf(routine)).map(({ cells }) => cells.map(shown))).toEqual([
      ["- 0 to 4", "Walk 4 to 8…"],
      ["…Walk 8 to 12"],
    ]);
  });
});

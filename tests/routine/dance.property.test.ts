import fc from "fast-check";
import Fraction from "fraction.js";
import { describe, expect, it } from "vitest";
import { dance } from "../../src/routine/dance.js";
import { mirror } from "../../src/routine/mirror.js";
import type { Routine, Version } from "../../src/routine/routine.js";
import { reflectedStance } from "../../src/routine/stance.js";
import type { WrittenRoutine } from "../../src/routine/written.js";
import { routines } from "../fixtures/arbitrary.js";
import { plainLibrary as library, move, phrase, section, written } from "../fixtures/written.js";

/** A written routine that must be danceable. */
function danced(written: WrittenRoutine): Routine {
  const { routine: whole, problems } = dance(written, library);
  if (whole === undefined) throw new Error(problems.map(({ message }) => message).join("\n"));
  return whole;
}

const total = (fractions: readonly Fraction[]) => fractions.reduce((sum, one) => sum.add(one), new Fraction(0));

/** What a version leaves empty, in counts: the run less its moves. */
function holds(whole: Routine, version: Version): Fraction {
  let reach = new Fraction(0);
  let empty = new Fraction(0);
  for (const { at, length } of version.moves) {
    expect(at.gte(reach)).toBe(true);
    empty = empty.add(at.sub(reach));
    reach = at.add(length);
  }
  return empty.add(new Fraction(whole.counts).sub(reach));
}

describe("a danced routine", () => {
  it("has sections that tile the run with no gap and no overlap", () => {
    fc.assert(
      fc.property(routines(), (written) => {
        const whole = danced(written);
        let at = 0;
        for (const one of whole.sections) {
          expect(one.at).toBe(at);
          expect(one.phrases.map((each) => each.at)).toEqual(
            one.phrases.map(
              (_, index) => at + one.phrases.slice(0, index).reduce((sum, each) => sum + each.numbers.length, 0),
            ),
          );
          expect(one.counts).toBe(one.phrases.reduce((sum, each) => sum + each.numbers.length, 0));
          at += one.counts;
        }
        expect(at).toBe(whole.counts);
      }),
    );
  });

  it("has moves and holds that add up to its counts, in every version", () => {
    fc.assert(
      fc.property(routines(), (written) => {
        const whole = danced(written);
        for (const version of whole.versions) {
          expect(version.moves.every(({ length }) => length.gt(0))).toBe(true);
          const sum = total(version.moves.map(({ length }) => length)).add(holds(whole, version));
          expect(sum.equals(whole.counts)).toBe(true);
        }
      }),
    );
  });

  it("keeps seconds that rise strictly and equal the closed formula: the counts of each section at its own tempo", () => {
    fc.assert(
      fc.property(routines(), (written) => {
        const whole = danced(written);
        const formula = (at: Fraction) =>
          total(
            whole.sections.map(({ at: from, counts, countsPerMinute }) => {
              const inside = at.sub(from).lt(0)
                ? new Fraction(0)
                : at.sub(from).gt(counts)
                  ? new Fraction(counts)
                  : at.sub(from);
              return inside.mul(60).div(countsPerMinute);
            }),
          );
        expect(whole.seconds.equals(formula(new Fraction(whole.counts)))).toBe(true);
        for (const version of whole.versions)
          for (const [index, one] of version.moves.entries()) {
            expect(one.start.equals(formula(one.at))).toBe(true);
            expect(one.end.equals(formula(one.at.add(one.length)))).toBe(true);
            const before = version.moves[index - 1];
            if (before) expect(one.start.gt(before.start)).toBe(true);
          }
      }),
    );
  });

  it("lasts half as long at twice the tempo", () => {
    fc.assert(
      fc.property(routines({ tempo: false }), (written) => {
        const twice = { ...written, music: { ...written.music, tempo: written.music.tempo.mul(2) } };
        const [slow, fast] = [danced(written), danced(twice)];
        expect(fast.seconds.mul(2).equals(slow.seconds)).toBe(true);
        expect(fast.sections.map(({ start }) => start.mul(2).toFraction())).toEqual(
          slow.sections.map(({ start }) => start.toFraction()),
        );
      }),
    );
  });

  it("waits where the track says so, and moves all that follows by as much", () => {
    fc.assert(
      fc.property(routines(), fc.nat(), fc.integer({ min: 0, max: 30_000 }), (written, pick, ms) => {
        const plain = danced(written);
        const starts = plain.sections.flatMap((one, index) =>
          index > 0 && one.wall === 1 && one.pass === 1 ? [index] : [],
        );
        const index = starts[pick % Math.max(starts.length, 1)];
        fc.pre(index !== undefined);
        const target = plain.sections[index ?? 0];
        if (target === undefined) return;
        const wait = new Fraction(ms, 1000);
        const seconds = target.start.add(wait).add(plain.music.firstCount ?? 0);
        const sections = written.sections.map((one, at) =>
          at === target.written ? { ...one, at: [{ place: "at", seconds }] } : one,
        );
        const waiting = danced({ ...written, sections });
        waiting.sections.forEach((one, at) => {
          const shift = at >= (index ?? 0) ? wait : new Fraction(0);
          expect(one.start.equals(plain.sections[at]?.start.add(shift) ?? -1)).toBe(true);
        });
        expect(waiting.sections[(index ?? 0) - 1]?.end.equals(target.start)).toBe(true);
        expect(waiting.practice.every((one) => one.seconds.equals(waiting.seconds.mul(100).div(one.percent)))).toBe(
          true,
        );
      }),
    );
  });

  it("is itself again when it is reflected twice, stance and text", () => {
    fc.assert(
      fc.property(routines(), (written) => {
        const whole = danced(written);
        const back = mirror(mirror(whole));
        expect(back.versions.map(({ start, end, moves }) => ({ start, end, moves }))).toEqual(
          whole.versions.map(({ start, end, moves }) => ({ start, end, moves })),
        );
      }),
    );
  });

  it("reflects every stance about the room's front-back line", () => {
    fc.assert(
      fc.property(routines({ facing: true }), (written) => {
        const whole = danced(written);
        mirror(whole).versions.forEach((version, index) => {
          expect(version.moves.map(({ after }) => after)).toEqual(
            whole.versions[index]?.moves.map(({ after }) => reflectedStance(after)),
          );
        });
      }),
    );
  });

  it("stands in a mirrored section as in a section written with mirrored moves", () => {
    fc.assert(
      fc.property(routines(), (written) => {
        const source = written.sections[0];
        fc.pre(source?.counts !== undefined);
        if (source?.counts === undefined) return;
        const plainStart = { ...written.start, facing: "front" as const };
        const alone = { ...written, times: 1, start: plainStart, sections: [{ ...source, repeat: 1 }] };
        const other = danced({ ...alone, sections: [{ ...source, repeat: 1, mirrored: "always" }] });
        // From the front, with no foot loaded, a section on the other side is the reflected routine.
        const expected = mirror(danced(alone));
        expect(other.versions.map(({ moves }) => moves.map(({ after, cue }) => [after, cue]))).toEqual(
          expected.versions.map(({ moves }) => moves.map(({ after, cue }) => [after, cue])),
        );
      }),
    );
  });

  it("moves what follows a hold by the hold's length, and changes no stance", () => {
    fc.assert(
      fc.property(routines(), fc.integer({ min: 1, max: 8 }), (written, counts) => {
        const hold = section("Hold", [phrase([move(`1-${counts}`, "hold")], { length: counts })]);
        const single = { ...written, times: 1 };
        const [plain, held] = [danced(single), danced({ ...single, sections: [hold, ...single.sections] })];
        held.versions.forEach((version, index) => {
          const moves = version.moves.slice(1);
          expect(moves.map(({ at }) => at.sub(counts).toFraction())).toEqual(
            plain.versions[index]?.moves.map(({ at }) => at.toFraction()),
          );
          expect(moves.map(({ before, after }) => [before, after])).toEqual(
            plain.versions[index]?.moves.map(({ before, after }) => [before, after]),
          );
        });
      }),
    );
  });

  it("faces as it began after four walls whose turns add up to a quarter", () => {
    fc.assert(
      fc.property(routines({ walls: 1 }), fc.constantFrom(2, -2), (written, quarter) => {
        const once = danced({ ...written, times: 1 });
        const taught = once.versions.find(({ id }) => id === once.taught);
        const start = taught?.start.facing ?? "front";
        const turnedBy = (taught?.moves ?? []).reduce((sum, one) => sum + one.turn, 0);
        const rest = quarter - turnedBy;
        // One more section brings the time through to exactly a quarter turn, whatever it turned before.
        const square = section("Square", [
          phrase([move("1-4", "Walk", rest === 0 ? {} : { turn: rest })], { length: 4 }),
        ]);
        const four = danced({
          ...written,
          walls: 4,
          times: 4,
          sections: [...written.sections, square],
          levels: [once.taught],
          taught: once.taught,
        });
        expect(four.versions[0]?.end.facing).toBe(start);
        const walls = [1, 2, 3, 4].map((wall) => four.sections.find((one) => one.wall === wall)?.at);
        const facings = walls.map(
          (at) => four.versions[0]?.moves.findLast((one) => one.at.lt(at ?? 0))?.after.facing ?? start,
        );
        expect(new Set(facings).size).toBe(4);
      }),
    );
  });

  it("has the same counts, sections and seconds whichever options a version takes", () => {
    fc.assert(
      fc.property(routines(), (written) => {
        const [first, ...rest] = written.levels.map((taught) =>
          danced({ ...written, taught, levels: written.levels, sections: written.sections.map(withoutOptions) }),
        );
        for (const one of rest) {
          expect(one.counts).toBe(first?.counts);
          expect(one.seconds.equals(first?.seconds ?? -1)).toBe(true);
          expect(one.sections.map(({ at, name }) => [name, at])).toEqual(
            first?.sections.map(({ at, name }) => [name, at]),
          );
        }
        const whole = danced(written);
        const ends = whole.versions.map((version) =>
          holds(whole, version)
            .add(total(version.moves.map(({ length }) => length)))
            .toFraction(),
        );
        expect(new Set(ends)).toEqual(new Set([String(whole.counts)]));
      }),
    );
  });
});

function withoutOptions(one: WrittenRoutine["sections"][number]) {
  if (one.counts === undefined) return one;
  return {
    ...one,
    counts: one.counts.map((each) => ({ ...each, moves: each.moves.map((step) => ({ ...step, options: [] })) })),
  };
}

describe("four quarter turns", () => {
  it("are the identity", () => {
    fc.assert(
      fc.property(fc.constantFrom(2, -2), (turn) => {
        const quarters = [1, 2, 3, 4].map((count) => move(String(count), "Walk", { turn }));
        const whole = danced(written({ sections: [section("Square", [phrase(quarters)])] }));
        expect(whole.versions[0]?.end.facing).toBe("front");
        expect(whole.versions[0]?.moves[1]?.after.facing).toBe("back");
      }),
    );
  });
});

import fc from "fast-check";
import Fraction from "fraction.js";
import { expect, test } from "vitest";
import { clicks } from "../../src/routine/clicks.js";
import { closedFormula, timed, timedRoutine } from "../fixtures/timed.js";
import { danced, move, phrase, section } from "../fixtures/written.js";

test("every whole count once, on its exact time, in its section, after the count-in", () => {
  fc.assert(
    fc.property(timed, (given) => {
      const all = [...clicks(timedRoutine(given))];
      const counted = all.filter(({ at }) => at >= 0);
      const { counts, end } = closedFormula(given);
      expect(all.length - counted.length).toBe(given.countIn);
      expect(all.map(({ at }) => at)).toEqual(all.map((_, index) => index - given.countIn));
      expect(counted.every(({ start }, index) => start.equals(counts[index]?.start ?? -1))).toBe(true);
      expect(counted.map(({ section }) => section)).toEqual(counts.map(({ section }) => section));
      expect(counted.at(-1)?.end.equals(end)).toBe(true);
      // None ends after the next one starts; only a wait lies between two.
      expect(all.every((click, index) => (all[index + 1]?.start ?? end).compare(click.end) >= 0)).toBe(true);
    }),
  );
});

test("the numbers of a count-in lead into the first count", () => {
  const led = (numbers: { from?: number; length?: number }, countIn: number) => {
    const length = numbers.length ?? 8 - (numbers.from ?? 1) + 1;
    const last = (((numbers.from ?? 1) - 1 + length - 1) % Math.max(8, length)) + 1;
    const routine = danced({
      music: { countIn },
      sections: [section("Start", [phrase([move(`${last}`, "Step")], numbers), phrase([move("1-8", "Walk")])])],
    });
    return [...clicks(routine)]
      .slice(0, countIn + 1)
      .map(({ call }) => call)
      .join(" ");
  };
  expect(led({}, 4)).toBe("5 6 7 8 1");
  expect(led({}, 10)).toBe("7 8 1 2 3 4 5 6 7 8 1");
  expect(led({ from: 7 }, 4)).toBe("3 4 5 6 7");
  expect(led({ from: 12, length: 12 }, 3)).toBe("9 10 11 12");
  expect(led({}, 0)).toBe("1");
});

test("a restart breaks off its section's clicks, and the next time through follows on", () => {
  const routine = danced({
    walls: 2,
    times: 3,
    restarts: [{ place: "restart", wall: 2, after: 4 }],
    music: { tempo: new Fraction(120), countIn: 0 },
    sections: [section("Walks", [phrase([move("1-4", "Walk"), move("5-8", "Turn", { turn: 4 })])])],
  });
  const numbers = [...clicks(routine)].map(({ number }) => number).join("");
  expect(numbers).toBe("12345678123412345678");
  expect(routine.counts).toBe(20);
});

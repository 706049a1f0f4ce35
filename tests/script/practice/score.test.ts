import fc from "fast-check";
import Fraction from "fraction.js";
import { describe, expect, test } from "vitest";
import { playerWording } from "../../../src/wording/player.js";
import { cues, exact, score, sectionTitle } from "../../../templates/script/practice/score.js";
import { nightFerry } from "../../fixtures/night-ferry.js";
import { closedFormula, timed, timedRoutine } from "../../fixtures/timed.js";
import { danced, move, phrase, section } from "../../fixtures/written.js";
import { runs } from "../../runs.js";
import { published } from "./published.js";

const english = playerWording("en");

describe("the routine on the clock", () => {
  test("every count is where the closed formula puts it, to the rounding of a published start", () => {
    fc.assert(
      fc.property(timed, (given) => {
        const { counts } = closedFormula(given);
        const { beats } = score(published(timedRoutine(given)));
        expect(beats).toHaveLength(counts.length);
        for (const [index, count] of counts.entries()) {
          expect(Math.abs((beats[index]?.start ?? Number.NaN) - count.start.valueOf())).toBeLessThan(0.001001);
          expect(beats[index]).toMatchObject({ accent: count.accent, section: count.section });
        }
      }),
      { numRuns: runs(200) },
    );
  });

  test("where sections follow each other or have track times to the millisecond, counts are exact", () => {
    const { beats } = score(published(nightFerry));
    // 16 + 4 counts at 92, then from 58.0 s of a track whose first count is at 14.2 s at 96 counts a minute.
    const start = (at: number) =>
      at < 20 ? new Fraction(60 * at, 92) : new Fraction("43.8").add(new Fraction(60 * (at - 20), 96));
    for (const [at, beat] of beats.entries()) expect(beat.start).toBeCloseTo(start(at).valueOf(), 9);
    expect(beats.map(({ label }) => label).join(" ")).toBe(
      "1 2 3 4 5 6 7 8 1 2 3 4 5 6 7 8 1 2 3 4 1 2 3 4 5 6 7 8 1 2 3 4 5 6 7 8 1 2 3 4 5 6 7 8 1 2 3 4 5 6 7 8",
    );
  });

  test("says what is called in place of the numbers, and where phrases open", () => {
    const { beats } = score(
      published(
        danced({
          sections: [
            section("A", [
              phrase([move("7-8", "Ready")], { from: 7 }),
              phrase([move("1-4", "Down")], { length: 4, say: ["4", "3", "2", "and"] }),
            ]),
          ],
        }),
      ),
    );
    expect(beats.map(({ label, opens }) => `${opens ? "|" : ""}${label}`).join(" ")).toBe("|7 8 |4 3 2 and");
  });

  test("fractions in lowest terms", () => {
    expect(exact("7/2")).toBe(3.5);
    expect(exact("4")).toBe(4);
    expect(exact(92)).toBe(92);
  });
});

describe("cues", () => {
  const file = published(nightFerry);
  const routine = score(file);

  test("as taught and on the other side, of the version asked for", () => {
    expect(cues(file, routine, { version: "2", otherSide: false, group: "" }, english)[0]).toMatchObject({
      on: "1–3",
      start: 0,
    });
    expect(cues(file, routine, { version: "2", otherSide: false, group: "" }, english)[0]?.text).toContain("left palm");
    expect(cues(file, routine, { version: "2", otherSide: true, group: "" }, english)[0]?.text).toContain("right palm");
    const seated = cues(file, routine, { version: "seated", otherSide: false, group: "" }, english).map(
      ({ text }) => text,
    );
    expect(seated).toContain("Slide both hands down the shins");
    expect(seated).not.toContain("Slide both hands down the thighs like rain");
  });

  test("of the group asked for, and of the first where none is", () => {
    const [version] = file.versions;
    if (!version) throw new Error("The routine has no version.");
    const late = version.moves.map((move) => ({ ...move, do: `later ${move.do}` }));
    const groups = [{ ...version, name: "Late", moves: late }];
    const duet = { ...file, groups: ["Early", "Late"], versions: [{ ...version, id: "1", groups }] };
    const first = (group: string) => cues(duet, routine, { version: "1", otherSide: false, group }, english)[0]?.text;
    expect(first("Late")).toBe(`later ${version.moves[0]?.do}`);
    expect(first("Early")).toBe(version.moves[0]?.do);
    expect(first("")).toBe(version.moves[0]?.do);
  });

  test("a move between two counts starts there and names its part", () => {
    const heel = cues(file, routine, { version: "2", otherSide: false, group: "" }, english).find(
      ({ text }) => text === "Right heel taps",
    );
    expect(heel).toMatchObject({ on: "3&", part: "&" });
    expect(heel?.start).toBeCloseTo((10.5 * 60) / 92, 9);
    expect(heel?.end).toBeCloseTo((11 * 60) / 92, 9);
  });

  test("a move that ends with its section ends before the wait that follows", () => {
    const last = cues(file, routine, { version: "2", otherSide: false, group: "" }, english).find(
      ({ section: at }) => at === 1,
    );
    expect(last?.end).toBeCloseTo((20 * 60) / 92, 9);
  });

  test("starts and ends are those that were published, to their rounding", () => {
    fc.assert(
      fc.property(timed, (given) => {
        const figures = published(timedRoutine(given));
        const on = cues(figures, score(figures), { version: "1", otherSide: false, group: "" }, english);
        const moves = figures.versions[0]?.moves ?? [];
        expect(moves.length).toBeGreaterThan(0);
        for (const [index, { start, seconds }] of moves.entries()) {
          expect(Math.abs((on[index]?.start ?? Number.NaN) - start)).toBeLessThan(0.0015);
          expect(Math.abs((on[index]?.end ?? Number.NaN) - start - seconds)).toBeLessThan(0.0025);
        }
      }),
      { numRuns: runs(100) },
    );
  });
});

test("a section's title tells it from the others of its name", () => {
  const routine = score(published(nightFerry));
  expect(routine.sections.map((_, index) => sectionTitle(routine, index, english))).toEqual([
    "Gangway",
    "Whistle",
    "Gangway again, 1st time, other side",
    "Gangway again, 2nd time, other side",
  ]);
});

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  begin,
  carried,
  countIn,
  layOut,
  type Moment,
  next,
  paced,
  phraseStart,
  positionAt,
  type Wish,
} from "../../../templates/script/practice/schedule.js";
import { type Score, score } from "../../../templates/script/practice/score.js";
import { nightFerry } from "../../fixtures/night-ferry.js";
import { timed, timedRoutine } from "../../fixtures/timed.js";
import { danced, phrase, section } from "../../fixtures/written.js";
import { runs } from "../../runs.js";
import { published } from "./published.js";

const tide = score(published(nightFerry));
const whole: Wish = { from: 0, to: 3, loops: false, countInAgain: true };

/** The moments of a practice, as far as they go, changing speed at the moments that are asked for. */
function run(
  routine: Score,
  wish: Wish,
  most: number,
  percent = 100,
  changes: ReadonlyMap<number, number> = new Map(),
) {
  const moments: Moment[] = [];
  let moment = begin(layOut(routine, wish), 5, percent);
  while (moment && moments.length < most) {
    const change = changes.get(moments.length);
    if (change !== undefined) moment = paced(moment, change);
    moments.push(moment);
    moment = next(moment);
  }
  return moments;
}

const sounds = (moments: readonly Moment[]) => moments.map(({ step }) => step.sound ?? "end");

describe("one run", () => {
  test("a count-in, every count, and the end", () => {
    const moments = run(tide, whole, 100);
    expect(sounds(moments).slice(0, 8)).toEqual([
      ...["count-in", "count-in", "count-in", "count-in"],
      ...["count", "count", "count", "accent"],
    ]);
    expect(moments).toHaveLength(4 + 52 + 1);
    expect(sounds(moments).at(-1)).toBe("end");
    expect(moments[4]?.time).toBeCloseTo(5 + (4 * 60) / 92, 9);
  });

  test("the wait before a section that the track holds back is kept, at the speed of the rest", () => {
    const start = (20 * 60) / 92;
    for (const percent of [100, 50]) {
      const moments = run(tide, whole, 100, percent);
      const [last, first] = [moments[4 + 19], moments[4 + 20]];
      expect(first && last && first.time - last.time).toBeCloseTo(((43.8 - start + 60 / 92) * 100) / percent, 9);
    }
  });

  test("taken up at a phrase, with the count-in that leads to it", () => {
    const resume = phraseStart(tide, tide.beats[13]?.start ?? 0);
    expect(resume).toBe(8);
    const moments = run(tide, { ...whole, resume }, 100);
    expect(moments).toHaveLength(4 + 44 + 1);
    expect(moments[4]?.step.offset).toBeCloseTo((8 * 60) / 92, 9);
    expect((moments[4]?.time ?? 0) - (moments[0]?.time ?? 0)).toBeCloseTo((4 * 60) / 92, 9);
  });
});

describe("the count-in", () => {
  const labels = (routine: Score, index: number) => countIn(routine, index).map(({ label }) => label);

  test("leads into the number that follows", () => {
    expect(labels(tide, 0)).toEqual(["5", "6", "7", "8"]);
    const pickUp = (from: number, length?: number) =>
      score(
        published(
          danced({
            music: { countIn: 4, phrase: length ?? 8 },
            sections: [section("A", [phrase([], { from, ...(length ? { length } : {}) })])],
          }),
        ),
      );
    expect(labels(pickUp(7), 0)).toEqual(["3", "4", "5", "6"]);
    // A round of twelve that begins on its last number, as is counted in some styles.
    expect(labels(pickUp(12, 12), 0)).toEqual(["8", "9", "10", "11"]);
  });

  test("runs at the tempo of the section that it leads to", () => {
    const [first, second] = countIn(tide, 20);
    expect(first && second && second.start - first.start).toBeCloseTo(60 / 96, 9);
  });
});

describe("loops", () => {
  test("of any run of sections, with and without a count-in in between", () => {
    fc.assert(
      fc.property(
        timed,
        fc.nat(),
        fc.nat(),
        fc.boolean(),
        fc.integer({ min: 50, max: 110 }),
        (given, a, b, again, percent) => {
          const routine = score(published(timedRoutine(given)));
          const from = a % routine.sections.length;
          const to = from + (b % (routine.sections.length - from));
          const moments = run(routine, { from, to, loops: true, countInAgain: again }, 300, percent);
          const beats = routine.beats.filter((beat) => beat.section >= from && beat.section <= to);
          const origin = routine.sections[from]?.start ?? 0;
          const lead = routine.countIn * (routine.sections[from]?.count ?? 0);
          const length = (routine.sections[to]?.end ?? 0) - origin + (again ? lead : 0);
          const counts = moments.filter(({ step }) => step.sound !== "count-in");
          for (const [index, moment] of counts.entries()) {
            const [round, place] = [Math.floor(index / beats.length), index % beats.length];
            const offset = (beats[place]?.start ?? Number.NaN) - origin;
            expect(moment.round).toBe(round);
            expect(moment.step.sound === "accent").toBe(beats[place]?.accent);
            expect(moment.time).toBeCloseTo(5 + ((lead + round * length + offset) * 100) / percent, 6);
          }
        },
      ),
      { numRuns: runs(200) },
    );
  });

  test("a run is followed by itself without a gap", () => {
    const moments = run(tide, { from: 1, to: 1, loops: true, countInAgain: false }, 12);
    const gaps = moments.slice(1).map(({ time }, index) => time - (moments[index]?.time ?? 0));
    for (const gap of gaps) expect(gap).toBeCloseTo(60 / 92, 9);
    expect(sounds(moments)).toEqual([
      ...["count-in", "count-in", "count-in", "count-in"],
      ...["count", "count", "count", "accent", "count", "count", "count", "accent"],
    ]);
  });

  test("step up in speed after so many rounds, until it is reached", () => {
    const climb = { by: 15, every: 2, until: 100 };
    const moments = run(tide, { from: 1, to: 1, loops: true, countInAgain: true, climb }, 100, 75);
    const speeds = [0, 1, 2, 3, 4, 5, 6].map((round) => moments.find((moment) => moment.round === round)?.pace.percent);
    expect(speeds).toEqual([75, 75, 90, 90, 100, 100, 100]);
    const second = moments.filter(({ round }) => round === 2);
    // From the count-in of the round on: the learner hears the new speed before dancing it.
    expect(second[0]?.step.sound).toBe("count-in");
    expect((second[1]?.time ?? 0) - (second[0]?.time ?? 0)).toBeCloseTo(60 / 92 / 0.9, 9);
  });
});

describe("a change of speed", () => {
  test("holds from a count on, and no count before or on it moves", () => {
    fc.assert(
      fc.property(
        timed,
        fc.array(fc.tuple(fc.nat(199), fc.integer({ min: 50, max: 110 })), { maxLength: 8 }),
        (given, list) => {
          const routine = score(published(timedRoutine(given)));
          const wish: Wish = { from: 0, to: routine.sections.length - 1, loops: true, countInAgain: true };
          const steady = run(routine, wish, 200);
          const changes = new Map(list);
          const changing = run(routine, wish, 200, 100, changes);
          let time = 5;
          let percent = changes.get(0) ?? 100;
          for (const [index, moment] of changing.entries()) {
            if (index > 0) {
              const gap = (steady[index]?.time ?? 0) - (steady[index - 1]?.time ?? 0);
              time += (gap * 100) / percent;
              percent = changes.get(index) ?? percent;
            }
            expect(moment.time).toBeCloseTo(time, 6);
            expect(positionAt(moment, moment.time)).toBeCloseTo(moment.practice.origin + moment.step.offset, 6);
          }
        },
      ),
      { numRuns: runs(100) },
    );
  });
});

describe("another wish in the middle", () => {
  test("goes on from the same count at the same time", () => {
    const moments = run(tide, { from: 0, to: 1, loops: true, countInAgain: false }, 60);
    const here = moments[50];
    const once = layOut(tide, { from: 0, to: 1, loops: false, countInAgain: false });
    const there = here && carried(here, once);
    expect(there).toMatchObject({ time: here?.time, step: here?.step, round: 0 });
    const rest: Moment[] = [];
    for (let moment = there; moment; moment = next(moment)) rest.push(moment);
    expect(rest.at(-1)?.step.sound).toBeUndefined();
    expect(rest[1]?.time).toBeCloseTo(moments[51]?.time ?? 0, 9);
  });
});

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Course, shareOut, squaredShares, type Unit } from "../../../src/teaching/course/share.js";
import { runs } from "../../runs.js";

/* In these courses a point takes ten seconds to teach, a unit two to run and four to recall. */
const course = (units: readonly Unit[], lessons: number, seconds: number, known = 0): Course => ({
  ...{ units, lessons, seconds, known },
  price: ({ from, to, recalled }) =>
    2 * to + 4 * recalled.length + 10 * units.slice(from, to).reduce((sum, { points }) => sum + points, 0),
});
const ends = (of: Course) => shareOut(of).lessons.map(({ to }) => to);
const plain = (...points: readonly number[]): Unit[] => points.map((each) => ({ points: each, load: {} }));

describe("worked by hand", () => {
  /*
   * 16 points over two lessons. After the first unit: (6² + 10²) ÷ 16² = 0.53; after the second: (8² + 8²) ÷ 16² = 0.5.
   * With four contacts of the knees in each of the first two units, the knees cost 0.5² + 0.5² = 0.5 after the first unit and 1
   * after the second: 1.03 against 1.5.
   */
  const units = plain(6, 2, 2, 6);
  test("points are shared evenly, and so is what the knees take", () => {
    expect(ends(course(units, 2, 1000))).toEqual([2, 4]);
    const onKnees = units.map((unit, index) => ({ ...unit, load: index < 2 ? { knees: 4 } : {} }));
    expect(ends(course(onKnees, 2, 1000))).toEqual([1, 4]);
  });

  test("and so are the goes in which it is taught: a section of two is no small one for having few points", () => {
    // Points after the second (8² + 6²) ÷ 14² = 0.51, after the third (10² + 4²) ÷ 14² = 0.59. Goes 1, 1, 1 and 3: 0.56 and 0.5,
    // so the second; 1, 1, 1 and 9: 0.72 and 0.63, so the third.
    const units = (last: number) =>
      [6, 2, 2, 4].map((points, index) => ({ points, load: {}, goes: index === 3 ? last : 1 }));
    expect(ends(course(units(3), 2, 1000))).toEqual([2, 4]);
    expect(ends(course(units(9), 2, 1000))).toEqual([3, 4]);
  });

  test("from four lessons on the last has nothing new, where the others hold it", () => {
    expect(ends(course(plain(1, 1, 1), 4, 1000))).toEqual([1, 2, 3, 3]);
    // A point and its run take 12, 14 and 16 s: with 16 s there is no room for two in one lesson.
    expect(ends(course(plain(1, 1, 1, 1), 4, 18))).toEqual([1, 2, 3, 4]);
    expect(ends(course(plain(1, 1, 1), 3, 1000))).toEqual([1, 2, 3]);
  });

  test("what is due: one lesson later, three, seven", () => {
    const { lessons } = shareOut(course(plain(1, 1), 9, 1000));
    expect(lessons.map(({ recalled }) => recalled)).toEqual([[], [0], [1], [0], [1], [], [], [0], [1]]);
  });

  test("what was known before is due as if the lesson before the first had taught it", () => {
    const { lessons } = shareOut(course(plain(9, 1), 3, 1000, 1));
    expect(lessons.map(({ from, to, recalled }) => [from, to, recalled])).toEqual([
      [1, 2, [0]],
      [2, 2, [1]],
      [2, 2, [0]],
    ]);
  });

  test("where there is no time for what is due, it is danced in the run alone", () => {
    // The second lesson: 10 for its point, 4 for the run of two, and 4 for recalling the first would be 18.
    expect(shareOut(course(plain(1, 1), 2, 17)).lessons[1]).toMatchObject({ recalled: [], inRun: [0] });
    expect(shareOut(course(plain(1, 1), 2, 18)).lessons[1]).toMatchObject({ recalled: [0], inRun: [] });
  });

  test("a lesson teaches less where recalling needs the room, and another has it", () => {
    // Evenly 3 and 3 points, but then the second takes 30 + 12 + 3 × 4 = 54 s. With 4 and 2: 48 s, then 20 + 12 + 4 × 4 = 48.
    expect(ends(course(plain(1, 1, 1, 1, 1, 1), 2, 60))).toEqual([3, 6]);
    expect(ends(course(plain(1, 1, 1, 1, 1, 1), 2, 50))).toEqual([4, 6]);
  });

  test("what does not fit: how far it goes, and how many lessons it would take", () => {
    // 22 s a lesson hold two points of ten only while there is nothing to run: 10 + 2, 10 + 4 and so on, one a lesson.
    expect(shareOut(course(plain(1, 1, 1), 2, 22))).toMatchObject({ reached: 2, needed: 3 });
    expect(shareOut(course(plain(1, 5, 1), 2, 22))).toMatchObject({ reached: 1 });
    expect(shareOut(course(plain(1, 5, 1), 2, 22)).needed).toBeUndefined();
  });
});

const anyCourse = fc
  .record({
    units: fc.array(
      fc.record({ points: fc.integer({ min: 0, max: 9 }), load: fc.record({ knees: fc.nat(3), hands: fc.nat(3) }) }),
      { maxLength: 8 },
    ),
    lessons: fc.integer({ min: 2, max: 12 }),
    seconds: fc.integer({ min: 20, max: 150 }),
    known: fc.nat(2),
  })
  .map(({ units, lessons, seconds, known }) => course(units, lessons, seconds, Math.min(known, units.length)));

function check(name: string, holds: (course: Course) => void): void {
  test(name, () => {
    fc.assert(fc.property(anyCourse, holds), { numRuns: runs(200) });
  });
}

describe("any course", () => {
  check("teaches everything that it reaches once and in order, in lessons that hold it", (course) => {
    const { lessons, reached } = shareOut(course);
    expect(lessons).toHaveLength(course.lessons);
    expect(lessons.map(({ from }) => from)).toEqual([course.known, ...lessons.slice(0, -1).map(({ to }) => to)]);
    expect(lessons.at(-1)?.to).toBe(reached);
    for (const lesson of lessons) {
      expect(lesson.to).toBeGreaterThanOrEqual(lesson.from);
      expect(course.price(lesson)).toBeLessThanOrEqual(course.seconds);
    }
  });

  check("recalls in the next lesson, then after three, seven … and says where there is no time for it", (course) => {
    const { lessons, reached } = shareOut(course);
    const taughtIn = (unit: number) =>
      unit < course.known ? 0 : lessons.findIndex(({ from, to }) => from <= unit && unit < to) + 1;
    lessons.forEach((lesson, index) => {
      const due = Array.from({ length: reached }, (_, unit) => unit).filter((unit) =>
        [1, 3, 7].includes(index + 1 - taughtIn(unit)),
      );
      const { recalled, inRun } = lesson;
      expect([...recalled, ...inRun].sort((a, b) => a - b)).toEqual(due);
      for (const unit of inRun)
        expect(course.price({ ...lesson, recalled: [...recalled, unit] })).toBeGreaterThan(course.seconds);
    });
  });

  check("teaches no less with one lesson more, and everything in as many as it says", (course) => {
    const { reached, needed } = shareOut(course);
    const more = shareOut({ ...course, lessons: course.lessons + 1 });
    expect(more.reached).toBeGreaterThanOrEqual(reached);
    expect(more.needed).toBe(needed);
    expect(reached === course.units.length).toBe(needed !== undefined && needed <= course.lessons);
    if (needed !== undefined) expect(shareOut({ ...course, lessons: needed }).reached).toBe(course.units.length);
  });

  check("is as even as any way to divide it would be", (course) => {
    const unhurried = {
      ...course,
      price: (aim: Parameters<Course["price"]>[0]) => course.price({ ...aim, recalled: [] }),
    };
    const { lessons, reached } = shareOut(unhurried);
    const squares = squaredShares(course.units.slice(0, reached), course.known);
    const cost = (ends: readonly number[]) =>
      ends.reduce((sum, to, index) => sum + squares(ends[index - 1] ?? course.known, to), 0);
    const teaching = lessons.slice(0, lessons.at(-1)?.from === reached ? -1 : undefined).map(({ to }) => to);
    for (const ways of divided(unhurried, course.known, reached, teaching.length))
      expect(cost(teaching)).toBeLessThanOrEqual(cost(ways) + 1e-9);
  });
});

/** Every way to divide units over lessons that hold them. */
function divided(course: Course, from: number, reached: number, lessons: number): number[][] {
  if (lessons === 0) return from === reached ? [[]] : [];
  const all = Array.from({ length: reached - from + 1 }, (_, more) => from + more);
  return all
    .filter((to) => to === from || course.price({ from, to, recalled: [] }) <= course.seconds)
    .flatMap((to) => divided(course, to, reached, lessons - 1).map((rest) => [to, ...rest]));
}

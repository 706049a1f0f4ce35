import { describe, expect, test } from "vitest";
import { shownTrackTime } from "../../src/routine/clock.js";
import type { Routine } from "../../src/routine/routine.js";
import { wordingOf } from "../../src/wording/wording.js";
import { errors, one, readKeys, whole } from "../fixtures/read-keys.js";

describe("`same-as`", () => {
  const yaml = (again = "") => `sections:
  - name: Again
    same-as: Adagio${again}
  - name: Adagio
    tempo: 100
    time: half
    feel: triplet
    counts:
      - 1: Step
        1a: Close
        2-8: hold`;
  const figures = (text: string) =>
    whole(text).sections.map(({ countsPerMinute, feel }) => `${countsPerMinute.toFraction()} ${feel}`);

  test("brings tempo, time and feel along", () => expect(figures(yaml())).toEqual(["50 triplet", "50 triplet"]));

  test("gives way to what the section writes itself, and `time: full` takes the time back", () => {
    expect(figures(yaml("\n    time: full"))[0]).toBe("100 triplet");
    expect(figures(yaml("\n    time: double"))[0]).toBe("200 triplet");
    expect(figures(yaml("\n    tempo: 90"))[0]).toBe("45 triplet");
    expect(figures(yaml("\n    feel: straight"))[0]).toBe("50 straight");
  });

  test("brings them through another `same-as`", () =>
    expect(figures(`${yaml("\n    time: full")}\n  - name: Once more\n    same-as: Again`)[2]).toBe("100 triplet"));

  test("may make no tempo that nobody dances", () => {
    // 15 halved by the time that comes along is 7.5.
    expect(errors(yaml("\n    tempo: 15"))).toEqual(["value 8"]);
    expect(errors(yaml("\n    tempo: 15\n    time: full"))).toEqual([]);
    expect(errors(yaml().replace("tempo: 100", "tempo: 15"))).toEqual(["value 9"]);
  });
});

describe("the place of the first count", () => {
  const late =
    "sections:\n  - { name: A, counts: [{ 1-8: Walk }] }\n  - { name: B, at: 0:30, counts: [{ 1-8: Walk }] }";

  test("is not known where nobody says it", () => {
    expect(whole(one("- 1-8: Walk")).music.firstCount).toBeUndefined();
    expect(whole(one("- 1-8: Walk").replace("name: A", "name: A\n    at: 0:12")).music.firstCount?.valueOf()).toBe(12);
  });

  test("has to be said before an `at` further on can mean anything", () => {
    expect(errors(late)).toEqual(["at 7"]);
    expect(errors(late.replace("name: A", "name: A, at: 0:05"))).toEqual([]);
    expect(errors(late, "music: { tempo: 120, first-count: 0:05 }")).toEqual([]);
    const [error] = readKeys(late).findings.filter(({ severity }) => severity === "error");
    expect(error?.message).toContain("`first-count: 0:14.2`");
  });
});

describe("a tempo that nobody has measured", () => {
  const { time } = wordingOf("en");
  const places = (routine: Routine) =>
    routine.sections.map(({ start }) => {
      const place = shownTrackTime(routine, start);
      return place && time.track(place);
    });
  // Eight counts at 76 last 6.316 s.
  const yaml = `sections:
  - { name: A, repeat: 3, counts: [{ 1-8: Walk }] }
  - { name: B, at: 1:03.2, tempo: 60, counts: [{ 1-8: Walk }] }
  - { name: C, tempo: about 60, counts: [{ 1-8: Walk }] }
  - { name: D, counts: [{ 1-8: Walk }] }`;
  const routine = whole(yaml, "music: { tempo: about 76, first-count: 0:14.2 }");

  test("works like the number, and is printed with `about`", () => {
    expect(routine.sections[1]?.start.toFraction()).toBe("120/19");
    expect(time.tempo(routine.music)).toBe("about 76");
    expect(routine.sections.map((section) => time.tempo(section))).toEqual([
      ...Array(3).fill("about 76"),
      "60",
      "about 60",
      "about 76",
    ]);
  });

  test("gives times to five seconds as far as they follow from it", () => {
    // 14.2 as written, 20.5 and 26.8 to five seconds, 63.2 as written, 8 s later exactly, 79.2 and the end to five seconds.
    expect(places(routine)).toEqual(["0:14.2", "0:20", "0:25", "1:03.2", "1:11.2", "1:20"]);
    // From 14.2 to 79.2 + 6.3 are 71.3 s.
    expect([time.run(routine), time.clock(routine.seconds)]).toEqual(["1:10", "1:11"]);
  });

  test("says `about` at every practice speed", () => {
    const half = routine.practice.find(({ percent }) => percent === 75);
    expect(half && [time.tempo(half), time.run(half)]).toEqual(["about 57", "1:35"]);
  });

  test("leaves a routine exact whose last section is measured from a time as written", () => {
    const exact = whole(
      yaml.slice(0, yaml.indexOf("  - { name: C")),
      "music: { tempo: about 76, first-count: 0:14.2 }",
    );
    expect(exact.secondsAreEstimate).toBe(false);
    expect(time.run(exact)).toBe("0:57");
  });

  test("comes along with `same-as`, and not where the section has a tempo of its own", () => {
    const again = whole(`sections:
  - { name: A, tempo: about 90, counts: [{ 1-8: Walk }] }
  - { name: B, same-as: A }
  - { name: C, same-as: A, tempo: 90 }`);
    expect(again.sections.map((section) => section.tempoIsEstimate)).toEqual([true, true, false]);
  });
});

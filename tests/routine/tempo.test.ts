import { describe, expect, test } from "vitest";
import { errors, whole } from "../fixtures/read-keys.js";

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

import fc from "fast-check";
import { expect, test } from "vitest";
import type { z } from "zod";
import { moveSchema } from "../../src/reading/schema/move.js";
import { routineSchema } from "../../src/reading/schema/routine.js";
import * as values from "../../src/reading/schema/values.js";
import { readYaml } from "../fixtures/from-yaml.js";
import { runs } from "../runs.js";
import { sample, told } from "./sample.js";

const read = (schema: z.ZodType, text: string): unknown => {
  const { data } = schema.safeParse(text);
  return typeof data === "object" && data !== null && "toFraction" in data
    ? (data as { toFraction(): string }).toFraction()
    : data;
};

test.each<[string, string | undefined]>([
  ["0:14.2", "71/5"],
  ["1:03", "63"],
  ["12:40", "760"],
  ["1:02:03", "3723"],
  ["75:20", "4520"],
  ["0", "0"],
  ["14.2", "71/5"],
  ["1:3", undefined],
  ["1:60", undefined],
  ["1:60:00", undefined],
  ["-1", undefined],
  ["1e3", undefined],
  ["25:00:00", undefined],
  ["90000", undefined],
  ["", undefined],
])("a time %s is %s seconds", (text, expected) => {
  const { data } = values.clock.safeParse(text);
  expect(data && data.compare(86_400) > 0 ? undefined : data?.toFraction()).toBe(expected);
});

test.each<[string, number | undefined]>([
  ["1/4 right", 2],
  ["1/2 left", -4],
  ["1 right", 8],
  ["1 1/2 left", -12],
  ["3/8 right", 3],
  ["1/8 left", -1],
  ["2 3/4 right", 22],
  ["2/8 right", 2],
  ["1/3 right", undefined],
  ["0 right", undefined],
  ["1/4", undefined],
  ["right", undefined],
  ["1/4 clockwise", undefined],
  ["1/0 right", undefined],
  ["99 right", undefined],
])("a turn of %s is %s eighths", (text, expected) => expect(read(values.turn, text)).toBe(expected));

const turnAdvice = (text: string): string | undefined => {
  const [issue] = values.turn.safeParse(text).error?.issues ?? [];
  const hint = issue?.code === "custom" ? (issue.params?.hint as string | undefined) : undefined;
  return /^Write `(.*)`\.$/.exec(hint ?? "")?.[1];
};

test.each<[string, string | undefined]>([
  ["90° right", "1/4 right"],
  ["½ right", "1/2 right"],
  ["half turn anticlockwise", "1/2 left"],
  ["1/4 turn to the right", "1/4 right"],
  ["full turn L", "1 left"],
  ["99/2 right", undefined],
  ["0/4 left", undefined],
  ["quarter half right", undefined],
  ["__proto__ right", undefined],
])("of a turn written as %s the advice is %s", (text, expected) => expect(turnAdvice(text)).toBe(expected));

test("a turn that is advised is one that is taken, and never what was written", () => {
  const words = [
    "1/4",
    "3/8",
    "99/2",
    "0/4",
    "½",
    "45",
    "360",
    "half",
    "full",
    "turn",
    "right",
    "l",
    "°",
    "constructor",
  ];
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...words), { minLength: 1, maxLength: 4 }), (parts) => {
      const text = parts.join(" ");
      const advice = turnAdvice(text);
      if (advice === undefined) return;
      expect(advice).not.toBe(text);
      expect(read(values.turn, advice)).toBeTypeOf("number");
    }),
    { numRuns: runs(2000) },
  );
});

test.each<[string, string | undefined]>([
  ["92", "92"],
  ["92.5", "185/2"],
  ["0.1", "1/10"],
  ["1000", "1000"],
  ["1000.001", undefined],
  ["0", undefined],
  ["92,5", undefined],
  ["9e1", undefined],
  ["+92", undefined],
  [".5", undefined],
  ["NaN", undefined],
  ["٣", undefined],
])("a number %s is %s exactly", (text, expected) => expect(read(values.number(0, 1000), text)).toBe(expected));

test.each<[string, string | undefined]>([
  ["10", "10"],
  ["1.5", "3/2"],
  ["1/2", "1/2"],
  ["1 1/2", "3/2"],
  ["2/4", "1/2"],
  ["1/0", undefined],
  ["0", undefined],
  ["1001", undefined],
])("a length of %s is %s counts", (text, expected) => expect(read(values.countLength, text)).toBe(expected));

test("yes and no are as good as true and false, in any case", () => {
  expect(["yes", "YES", "True", "no", "False", "on", "1"].map((text) => read(values.truth, text))).toEqual([
    true,
    true,
    true,
    false,
    false,
    undefined,
    undefined,
  ]);
});

test("a date is a day that the calendar has", () => {
  const dates = ["2026-10-02", "2024-02-29", "2026-02-29", "2026-13-01", "2026-1-2", "02.10.2026", "+02026-10-02"];
  expect(dates.map((text) => read(values.date, text))).toEqual([
    "2026-10-02",
    "2024-02-29",
    ...Array(5).fill(undefined),
  ]);
});

test("a language is a BCP 47 tag", () => {
  expect(["en", "DE-at", "zh-hant", "english language", "x", ""].map((text) => read(values.language, text))).toEqual([
    "en",
    "de-AT",
    "zh-Hant",
    undefined,
    undefined,
    undefined,
  ]);
});

test("versions have names that a file can have", () => {
  const names = ["1", "seated", "très_facile", "sitz-2", "on a chair", "a/b", "..", "Mirrored", "facing", ""];
  expect(names.map((text) => read(values.versionName, text) !== undefined)).toEqual([
    ...Array(4).fill(true),
    ...Array(6).fill(false),
  ]);
});

const tempoOf = (tempo: unknown) =>
  routineSchema.safeParse({
    title: "A",
    choreographer: "B",
    music: { tempo },
    sections: [{ name: "A", counts: [{ "1-8": "Walk" }] }],
  }).data?.music.tempo;

test("the three forms of a tempo", () => {
  const countsPerMinute = (tempo: unknown) => tempoOf(tempo)?.countsPerMinute.valueOf();
  expect(countsPerMinute("92")).toBe(92);
  expect(countsPerMinute({ "beats-per-minute": "184", "beats-per-count": "2" })).toBe(92);
  expect(countsPerMinute({ "bars-per-minute": "29", "beats-per-bar": "3" })).toBe(87);
  expect(tempoOf({ "bars-per-minute": "900", "beats-per-bar": "60" })).toBeUndefined();
  expect(tempoOf({ "beats-per-minute": "184" })).toBeUndefined();
});

test("a move is a text or its keys", () => {
  const lists = { step: [], contacts: [], gear: [], choose: [], allow: [] };
  const walk = { do: "Walk", ...lists, travel: {}, hit: false, improvised: false };
  expect(moveSchema.safeParse("Walk").data).toEqual(walk);
  expect(moveSchema.safeParse({ do: "Walk", step: "left" }).data).toEqual({ ...walk, step: ["left"] });
  expect(moveSchema.safeParse({ do: "Walk", step: ["left", "right"] }).data?.step).toEqual(["left", "right"]);
});

test("a tempo that nobody has measured says `about`", () => {
  expect(tempoOf("about 76")).toMatchObject({ isEstimate: true });
  expect(tempoOf("76")).toMatchObject({ isEstimate: false });
  expect(tempoOf({ "beats-per-minute": "About 184", "beats-per-count": "2" })).toMatchObject({ isEstimate: true });
  expect(tempoOf({ "bars-per-minute": "about 29", "beats-per-bar": "3" })?.countsPerMinute.valueOf()).toBe(87);
  expect(["about", "about fast", "about about 76", "about -3"].map(tempoOf)).toEqual(Array(4).fill(undefined));
});

test.each(["~76", "ca. 76", "c. 76", "circa 76", "approx. 76 bpm", "around 76", "76ish", "76 or so", "76?"])(
  "%s is answered with `about 76`",
  (text) => expect(told(sample().replace("tempo: 92", `tempo: "${text}"`)).join()).toContain("Write `about 76`."),
);

test("seconds that were written as a time are said in seconds", () => {
  const { findings } = readYaml(
    "sections:\n  - { name: Opening, seconds: 0:18 }\n  - { name: A, counts: [{ 1-8: Walk }] }",
  );
  expect(findings.map(({ message }) => message)).toEqual([
    "`seconds` must be a number above 0 and up to 3600 seconds; here is `0:18`. Write the seconds alone: `18`.",
  ]);
});

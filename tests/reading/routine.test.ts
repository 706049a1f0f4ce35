import { describe, expect, test } from "vitest";
import { readKeys } from "../../src/reading/read-keys.js";
import { emptyLibrary } from "../../src/reading/read-library.js";
import { readRoutine, readRoutineSource } from "../../src/reading/read-routine.js";
import { routineSchema } from "../../src/reading/schema/routine.js";
import { writeRoutine } from "../../src/reading/write-routine.js";
import { found, sample, told } from "./sample.js";

const written = (yaml: string) => {
  const { keys, findings } = readKeys(yaml, routineSchema);
  if (!keys) throw new Error(JSON.stringify(findings));
  return writeRoutine("a", keys, { introduction: "", notes: [], after: "" }, () => {});
};
const yamlOf = (text: string) => text.slice(4).split("---")[0] ?? "";

test("a whole routine is danced, and nothing is found", () => {
  const { routine, title, findings } = readRoutine(sample(), "a", emptyLibrary);
  expect(findings.filter(({ severity }) => severity !== "note")).toEqual([]);
  expect(routine?.counts).toBe(8);
  expect(title).toEqual({ text: "A", line: 2, column: 8 });
});

test("what an author leaves out has its default", () => {
  const { levels, taught, audience, walls, times, music, start, styles } = written(yamlOf(sample()));
  expect({ levels, taught, audience, walls, times, styles }).toEqual({
    levels: ["1"],
    taught: "1",
    audience: "all",
    walls: 1,
    times: 1,
    styles: [],
  });
  expect([music.phrase, music.accents, music.feel, music.firstCount, music.countIn]).toEqual([
    8,
    [],
    "straight",
    undefined,
    undefined,
  ]);
  expect(start.versions).toEqual([]);
});

test("times is walls, taught is the first level", () => {
  const { times, taught } = written(yamlOf(sample({ head: "walls: 4\nlevels: [easy, full]\n" })));
  expect([times, taught]).toEqual([4, "easy"]);
});

test("the short forms are the long ones", () => {
  const short = written(
    yamlOf(
      sample({
        head: "style: jazz\nlevels: 1\nadaptations: seated\ngear: chair\n",
        counts: "      - 1-8: { do: Walk, step: left, risk: jump }\n",
      }),
    ),
  );
  const long = written(
    yamlOf(
      sample({
        head: "style: [jazz]\nlevels: [1]\nadaptations: [{ name: seated }]\ngear: [{ item: chair, need: required }]\n",
        counts: "      - 1-8: { do: Walk, step: [left], risk: [jump] }\n",
      }),
    ),
  );
  expect(short).toEqual(long);
});

test("an option is a text, a move, or moves on counts of their own", () => {
  const option = (yaml: string) =>
    written(
      yamlOf(
        sample({
          head: "adaptations: [seated]\n",
          counts: `      - 1-8: { do: Walk, options: { seated: ${yaml} } }\n`,
        }),
      ),
    ).sections[0]?.counts?.[0]?.moves[0]?.options[0]?.moves.map(({ on, cue, steps }) => [on, cue.text, ...steps]);
  expect(option("Nod")).toEqual([[undefined, "Nod"]]);
  expect(option("{ do: Nod, step: left }")).toEqual([[undefined, "Nod", "left"]]);
  expect(option("{ 1-4: Nod, 5-8: { do: Clap, step: right } }")).toEqual([
    ["1-4", "Nod"],
    ["5-8", "Clap", "right"],
  ]);
});

test("a version may start otherwise", () => {
  const { start } = written(
    yamlOf(sample({ head: "adaptations: [seated]\nstart: { facing: left, seated: { height: chair } }\n" })),
  );
  expect(start).toEqual({
    place: "/start",
    facing: "left",
    versions: [{ version: "seated", place: "/start/seated", height: "chair" }],
  });
});

test("travel keeps the order in which it was written", () => {
  const { sections } = written(yamlOf(sample({ move: "{ do: Walk, travel: { left: 2, forward: 1.5 } }" })));
  expect(sections[0]?.counts?.[0]?.moves[0]?.travel).toEqual([
    { way: "left", steps: 2 },
    { way: "forward", steps: 1.5 },
  ]);
});

describe("every finding names its place", () => {
  test.each<[string, Parameters<typeof sample>[0], string[]]>([
    ["a problem of the dance, at its counts", { counts: "      - 1-4: Walk\n        4-8: Clap\n" }, ["10:9 overlap"]],
    ["a wrong word, at the word", { move: "{ do: Walk, facing: up }" }, ["9:34 value"]],
    ["a missing key, at what lacks it", { move: "{ step: left }" }, ["9:9 missing-key"]],
    ["a level that is none", { move: "{ do: Walk, options: { 7: Nod } }" }, ["9:37 unknown-version"]],
    ["gear for a version that is none", { head: "gear: [{ item: mat, for: [9] }]\n" }, ["6:27 unknown-version"]],
    ["a fall-back that is no level", { head: "adaptations: [{ name: sit, from: 9 }]\n" }, ["6:34 unknown-version"]],
    ["a taught level that is none", { head: "taught: 4\n" }, ["6:9 unknown-version"]],
    ["a start for a version that is none", { head: "start: { sit: { height: chair } }\n" }, ["6:10 unknown-version"]],
    ["a link in a cue", { move: "'[a](javascript:b)'" }, ["9:14 link"]],
    ["a link in the prose", { body: "x\n\n[a](javascript:b)\n" }, ["14:1 link"]],
  ])("%s", (_, parts, expected) => expect(found(sample(parts))).toEqual(expected));
});

describe("one bad line does not hide the next", () => {
  test("faults of keys, of values, of counts and of links, all at once", () => {
    const counts =
      "      - 1-4: { do: Walk, hieght: lying }\n        4-5: { do: '[a](javascript:b)' }\n        6-9: Clap\n";
    expect(found(sample({ head: "mood: blue\nwalls: many\n", counts }))).toEqual([
      "6:1 unknown-key",
      "7:8 value",
      "11:26 unknown-key",
      "12:9 overlap",
      "12:20 link",
      "13:9 outside",
    ]);
  });

  test("what was left out for its own fault is not held against the rest", () => {
    const counts =
      "      - 1-4: { do: Walk, step: left, turn: a bit }\n        5-8: { do: Turn, facing: right, step: left }\n";
    expect(found(sample({ counts }))).toEqual(["9:44 value"]);
  });

  test("two ways a value may be written are one message", () => {
    expect(
      found(
        sample({
          move: "{ do: Walk, step: [left, rihgt], options: { 2: { do: Nod, turn: x } } }",
          head: "levels: [1, 2]\n",
        }),
      ),
    ).toEqual(["10:39 value", "10:78 value"]);
  });
});

test("versions that would share a file's name", () => {
  expect(found(sample({ head: "levels: [a, A]\n" }))).toEqual(["6:13 version-names"]);
  expect(found(sample({ head: "levels: [a]\nadaptations: [a-card]\n" }))).toEqual(["7:15 version-names"]);
  // Every version has a sheet in large print, only the taught one a card.
  expect(found(sample({ head: "levels: [a, b]\nadaptations: [b-large]\n" }))).toEqual(["7:15 version-names"]);
  expect(found(sample({ head: "levels: [a, b-card, c-large]\ntaught: a\n" }))).toEqual([]);
});

test("a section takes its counts from one place", () => {
  const second = (keys: string) => sample({ counts: `      - 1-8: Walk\n  - name: Second\n${keys}` });
  expect(found(second("    same-as: Verse\n"))).toEqual([]);
  expect(found(second("    same-as: Verse\n    change: { 1: { 1-8: Run } }\n"))).toEqual([]);
  expect(found(second("    same-as: Verse\n    counts:\n      - 1-8: Run\n"))).toEqual(["11:5 section"]);
  expect(found(second("    change: { 1: { 1-8: Run } }\n    counts:\n      - 1-8: Run\n"))).toEqual(["11:5 section"]);
});

test("a key that is a number or a count says so where it is none", () => {
  const first = (keys: string) => told(sample({ counts: `      - 1-8: Walk\n    ${keys}\n` }))[0];
  expect(first("at: { 0: 1:00 }")).toBe("`0` can't be a key here: it must be a number from 1 to 1000.");
  expect(first("change: { two: { 1-8: Run } }")).toContain("a number from 1 to 999");
  const option = told(
    sample({ head: "levels: [1, 2]\n", move: "{ do: Walk, options: { 2: { 1: Nod, 2: Nod, height: lying } } }" }),
  );
  expect(option[0]).toBe("`height` can't be a key here: it must be counts, such as `1-4`.");
  expect(told(sample({ move: "{ do: Walk, travel: { forwards: 3 } }" }))[0]).toBe(
    "`forwards` is not a key here; did you mean `forward`?",
  );
});

test("messages never speak of the machinery", () => {
  const odd = sample({
    head: "style: { a: b }\nlevels: [[1]]\ngear: 3: 4\nvideo: x\nstart: [a]\n",
    counts: "      - [1]\n      - hold\n      - 1-4: [a]\n",
  });
  for (const message of told(odd)) expect(message).not.toMatch(/undefined|object|Invalid|expected|zod|regex|null|\0/i);
  expect(told(odd).length).toBeGreaterThan(6);
});

test("no front matter is left half read", () => {
  expect(readRoutineSource("", "a", emptyLibrary).findings[0]?.rule).toBe("no-front-matter");
  expect(found("---\n---\n")).toEqual(["1:1 missing-key", "1:1 missing-key", "1:1 missing-key", "1:1 missing-key"]);
  expect(found("---\njust a text\n---\n").length).toBe(1);
  expect(found("---\n- a\n---\n").length).toBe(1);
});

test("while the name of `levels` is misspelt, nothing is said of the options that name one of them", () => {
  const text = sample({
    head: "levls: [1, 2]\n",
    counts: "      - 1-8: { do: Walk, step: left, options: { 2: Run } }\n",
  });
  const { findings } = readRoutine(text, "a", emptyLibrary);
  const errors = findings.filter(({ severity }) => severity === "error").map(({ message }) => message);
  expect(errors).toEqual(["`levls` is not a key here; did you mean `levels`?"]);
});

describe("a move whose parts stand in the wrong column", () => {
  const errorsOf = (counts: string) =>
    readRoutine(sample({ counts }), "a", emptyLibrary)
      .findings.filter(({ severity }) => severity === "error")
      .map(({ line, column, message }) => ({ line, column, message }));
  const first =
    yamlOf(sample({ counts: "@" }))
      .split("\n")
      .findIndex((line) => line.includes("@")) + 2;

  test("has one error, which says what belongs where", () => {
    expect(errorsOf("      - 1-4:\n        do: Walk\n        step: right\n        5-8: hold\n")).toEqual([
      { line: first + 1, column: 9, message: "`do` and `step` belong to `1-4`: begin them two spaces further right." },
    ]);
    expect(errorsOf("      - 1-4: Walk\n        5-8:\n        do: Turn\n")).toEqual([
      { line: first + 2, column: 9, message: "`do` belongs to `5-8`: begin it two spaces further right." },
    ]);
  });

  test("is shown whole where its words stand beside the count already", () => {
    const below = errorsOf(
      "      - 1-4: Walk, slowly\n          step: right\n          turn: 1/4 left\n        5-8: hold\n",
    );
    expect(below).toHaveLength(1);
    expect(below[0]).toMatchObject({ line: first + 1, column: 11 });
    expect(below[0]?.message).toContain('`1-4: { do: "Walk, slowly", step: right, turn: 1/4 left }`');
  });
});

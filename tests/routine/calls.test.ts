import { expect, test } from "vitest";
import { countCaptions } from "../../src/publishing/captions/count-captions.js";
import { numberCaptions } from "../../src/publishing/captions/number-captions.js";
import { handoutPrint } from "../../src/publishing/handout/handout.js";
import { routineJson } from "../../src/publishing/routine-json.js";
import { routineView } from "../../src/publishing/site/routine-view.js";
import { readRoutine } from "../../src/reading/read-routine.js";
import { mirror } from "../../src/routine/mirror.js";
import { wordingOf } from "../../src/wording/wording.js";
import { readCaptions } from "../fixtures/read-captions.js";
import { library } from "../fixtures/written.js";
import { sample } from "../reading/sample.js";

const read = (counts: string, head = "") => readRoutine(sample({ counts, head }), "sample", library);

/** The calls of the first version's moves, each with its count from the routine's first. */
const calls = (counts: string, head?: string) =>
  read(counts, head).routine?.versions[0]?.moves.map(({ say }) =>
    say?.map(({ at, cue }) => `${at.valueOf()} ${cue.text}`),
  );

test.each<[string, string, readonly (readonly string[] | undefined)[]]>([
  ["a text, once", "      - 1-4: { do: Walk, say: push }\n", [["0 push"]]],
  ["a list, one a count", "      - 1-4: { do: Walk, say: [a, b, c, d] }\n", [["0 a", "1 b", "2 c", "3 d"]]],
  ["parts of counts", "      - 3&-5: { do: Walk, say: [and, four, five] }\n", [["2.5 and", "3 four", "4 five"]]],
  ["each of several", "      - 1,3&: { do: Tap, say: [tap] }\n", [["0 tap"], ["2.5 tap"]]],
  ["a length", "      - 5: { do: Melt, lasts: 2 1/2, say: [x, y, z] }\n", [["4 x", "5 y", "6 z"]]],
  [
    "a run into the next phrase",
    "      - 8-2: { do: Melt, say: [x, y, z] }\n      - 3-8: Walk\n",
    [["7 x", "8 y", "9 z"], undefined],
  ],
  ["none", "      - 1-4: { do: Walk, say: None }\n        5-8: Walk\n", [[], undefined]],
])("%s", (_, counts, expected) => {
  expect(calls(counts)).toEqual(expected);
});

test("where a restart breaks a move off, so are its calls", () => {
  const restart = "times: 2\nrestarts: [{ wall: 1, after: 2 }]\n";
  expect(calls("      - 1-4: { do: Walk, say: [a, b, c, d] }\n", restart)).toEqual([
    ["0 a", "1 b"],
    ["2 a", "3 b", "4 c", "5 d"],
  ]);
});

test.each([
  [
    "1-4: { do: Walk, say: [a, b] }",
    "9:26 `1-4` has 4 counts to call on, and `say` is a list of 2; write one call for each",
  ],
  ["1,3: { do: Walk, say: [a, b] }", "`1` has 1 count to call on, and `say` is a list of 2"],
  ["1-2: { do: Walk, say: [] }", "`say` must be a list with an entry or more"],
])("%s is an error", (line, message) => {
  const { routine, findings } = read(`      - ${line}\n`);
  expect(routine).toBeUndefined();
  const [error] = findings.filter(({ severity }) => severity === "error");
  expect(`${error?.line}:${error?.column} ${error?.message}`).toContain(message);
});

test("an option's calls are as many as the counts that it fills; calls change sides with the rest", () => {
  const head = "levels: [1, 2]\n";
  const option = (say: string) => read(`      - 1-2: { do: Walk, options: { 2: { do: Turn, say: ${say} } } }\n`, head);
  expect(option("[a]").findings.map(({ rule }) => rule)).toContain("say");
  const { routine } = option('["left foot", right]');
  if (routine === undefined) throw new Error("It should be whole.");
  const [, two] = routineJson(routine, library, []).versions;
  expect(two?.moves[0]).toMatchObject({ say: ["left foot", "right"], mirroredSay: ["right foot", "left"] });
  expect(mirror(routine).versions[1]?.moves[0]?.say?.map(({ cue }) => cue.text)).toEqual(["right foot", "left"]);
});

test("a record says that nothing is called, and the plain track is silent there", () => {
  const { routine } = read("      - 1-2: { do: Walk, say: none }\n        3: { do: Clap, say: clap }\n", "");
  if (routine === undefined) throw new Error("It should be whole.");
  const [one] = routineJson(routine, library, []).versions;
  expect(one?.moves.map(({ say }) => say)).toEqual([[], "clap"]);
  expect(readCaptions(numberCaptions(routine, library)).map(({ text }) => text)).toEqual(["clap", ..."45678"]);
});

test("`none` in a list, a move's or a phrase's, is silence on that count", () => {
  const { routine } = read(
    "      - say: [five, None, seven, none, none]\n        1-3: Walk\n        4-5: Wait\n        6-7: { do: Clap, say: [none, clap] }\n        8: { do: Stop, say: [none] }\n",
  );
  if (routine === undefined) throw new Error("It should be whole.");
  expect(readCaptions(numberCaptions(routine, library)).map(({ text }) => text)).toEqual(["five", "seven", "clap"]);
  expect(readCaptions(countCaptions(routine, library)).map(({ text }) => text)).toEqual([
    "1-3 “five · seven” Walk",
    "6-7 “clap” Clap",
  ]);
  const record = routineJson(routine, library, []);
  expect(record.versions[0]?.moves.map(({ say }) => say)).toEqual([undefined, undefined, ["", "clap"], []]);
  expect(record.clicks.filter(({ section }) => section !== undefined).map(({ say }) => say)).toEqual([
    ...["five", "", "seven", "", "", undefined, undefined, undefined],
  ]);
  const pack = { pictures: new Map(), downloads: [] };
  const page = JSON.stringify(routineView(routine, library, pack, wordingOf("en")));
  const [version] = routine.versions;
  if (version === undefined) throw new Error("It should have a version.");
  const paper = (["sheet", "large", "card"] as const).map((variant) =>
    JSON.stringify(handoutPrint(routine, version, library, variant).elements),
  );
  expect(page).toContain("five seven");
  for (const made of [page, ...paper, JSON.stringify(record)]) expect(made).not.toMatch(/\bnone\b/i);
});

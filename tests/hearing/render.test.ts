import { expect, test } from "vitest";
import { readCaptions } from "../../src/hearing/captions.js";
import { imagine } from "./imagine.js";
import type { Kind, Taught, Truth } from "./recording.js";
import { render, wordsOf } from "./render.js";

const truth: Truth = {
  title: "Try",
  phrase: 8,
  sections: [
    { name: null, taughtAt: 0, phrases: [{ "1": "step", "3-4": "drag", "7&": "clap" }, { "2": "big circle" }] },
  ],
  runs: 1,
  tempo: 100,
  gear: [{ item: "hat", need: "optional" }],
  accents: [4],
  start: {},
  disputed: [],
  told: [],
};
const small: Taught = {
  name: "small",
  style: "any",
  captions: "srt",
  truth,
  said: [
    [1, 2, "so we go"],
    [61, 63, "five@61.25 six seven@62.25"],
  ],
};
const kinds: readonly Kind[] = ["vtt-lines", "vtt-words", "srt", "text"];

test("words without a time of their own are spread by their letters", () => {
  // "so", "we" and "go" have the same letters: a third of a second each. "six" has four ninths of what lies between its neighbours' beginnings.
  expect(wordsOf(small.said).map(({ text, start }) => [text, Math.round(start * 1000)])).toEqual([
    ["so", 1000],
    ["we", 1333],
    ["go", 1667],
    ["five", 61250],
    ["six", 61806],
    ["seven", 62250],
  ]);
});

test("each kind is written as its files are", () => {
  expect(render(small, "srt")).toBe(
    "1\n00:00:01,000 --> 00:00:02,000\nso we go\n\n2\n00:01:01,250 --> 00:01:03,000\nfive six seven\n",
  );
  expect(render(small, "text")).toBe("[0:01] so we go\n[1:01] five six seven\n");
  expect(render(small, "vtt-lines")).toContain("\n\n00:01:01.250 --> 00:01:03.000\nfive six seven\n");
  expect(render(small, "vtt-words")).toContain(
    "five<00:01:01.806><c> six</c><00:01:02.250><c> seven</c>\n\n00:01:02.990 --> 00:01:03.000 align:start position:0%\nfive six seven\n",
  );
});

test("a class is imagined the same again, and another way by another seed", () => {
  const options = { seed: 3, captions: "vtt-words", faults: 0.1, disorder: 0.2 } as const;
  expect(imagine(truth, options)).toEqual(imagine(truth, options));
  expect(imagine(truth, { ...options, seed: 4 }).said).not.toEqual(imagine(truth, options).said);
});

test("without faults and disorder every cue of the truth is said in every run", () => {
  const { said, truth: taught } = imagine(truth, { seed: 1, captions: "srt", faults: 0, disorder: 0 });
  const words = wordsOf(said).map(({ text }) => text);
  expect(taught.runs, "a phrase each, both from the top, and the whole").toBe(4);
  expect(words.filter((word) => word === "drag").length).toBeGreaterThanOrEqual(3);
  expect(words.filter((word) => word === "circle").length).toBeGreaterThanOrEqual(3);
});

test.each(kinds)("captions as %s are read to the words that were said", (kind) => {
  const imagined = imagine(truth, { seed: 9, captions: kind, faults: 0, disorder: 0.2 });
  const read = readCaptions(render(imagined));
  const words = "why" in read ? [] : read.words.map(({ text }) => text);
  expect(words).toEqual(wordsOf(imagined.said).map(({ text }) => text));
});

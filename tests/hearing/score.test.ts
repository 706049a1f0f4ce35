import { expect, test } from "vitest";
import type { Draft, DraftMove, DraftPhrase } from "../../src/hearing/types.js";
import type { Truth } from "./recording.js";
import { precision, recall, score } from "./score.js";

const truth: Truth = {
  title: "Try",
  phrase: 8,
  sections: [
    {
      name: null,
      taughtAt: 20,
      phrases: [{ "1": "step", "3-4": "drag" }, { "1": "reach", "7&": "clap" }, { "2": "kick" }],
    },
  ],
  runs: 3,
  tempo: 100,
  gear: [{ item: "tap shoes", need: "required" }],
  accents: [4],
  start: { facing: "left" },
  synonyms: { drag: ["slide"] },
  disputed: [{ section: 0, phrase: 1, cue: "clap", counts: ["6", "7&"] }],
  told: [],
};

const move = (on: string, cue: string, trust: DraftMove["trust"] = "sure"): DraftMove => ({
  on,
  cue,
  trust,
  runs: 2,
  of: 2,
  elsewhere: [],
  unsure: [],
});
const phrase = (...moves: DraftMove[]): DraftPhrase => ({ calledAt: [], moves, told: [] });
const draft = (...phrases: DraftPhrase[]): Draft => ({
  phrase: 8,
  start: {},
  gear: [{ item: "shoes", need: "required", said: { at: 1, text: "" } }],
  accents: { counts: [4, 8] },
  sections: [{ taughtAt: 31, phrases }],
  runs: [],
  told: [],
  length: 100,
});

test("a draft as the truth has it is right in all", () => {
  const same = draft(
    phrase(move("1", "steps"), move("3", "sliding")),
    phrase(move("1", "reach"), move("7&", "clap", "likely")),
    phrase(move("2", "kick left")),
  );
  const { sure, likely, all, conflicts, inVain, gear, accents, sections } = score("same", same, truth);
  expect(all).toEqual({ right: 5, given: 5, of: 5 });
  expect(likely).toEqual(all);
  expect(sure).toEqual({ right: 4, given: 4, of: 5 });
  expect([conflicts.right, conflicts.of, inVain]).toEqual([1, 1, 0]);
  expect(gear).toEqual({ right: 1, given: 1, of: 1 });
  expect(accents).toEqual({ right: 1, given: 2, of: 1 });
  expect(sections.right, "eleven seconds late").toBe(0);
});

test("a phrase that is missed and one that is made up spoil no other", () => {
  const other = draft(
    phrase(move("1", "step"), move("4", "drag")),
    phrase(move("1", "umbrella"), move("5", "umbrella")),
    phrase(move("2", "kick", "likely"), move("2", "kick")),
  );
  const { all, phrases, inVain } = score("other", other, truth);
  expect(all, "step and one kick of six").toEqual({ right: 2, given: 6, of: 5 });
  expect(phrases).toEqual({ right: 2, given: 3, of: 3 });
  expect(inVain).toBe(1);
  expect([precision(all), recall(all)]).toEqual([2 / 6, 2 / 5]);
});

test("a cue that says more than the truth is wrong, one that says less is right", () => {
  const cues = (cue: string) =>
    score("cues", draft(phrase(move("1", cue))), {
      ...truth,
      sections: [{ name: null, taughtAt: 0, phrases: [{ "1": "big circle left" }] }],
    }).all.right;
  expect(["circle", "a big circle", "left circle", "circle clap", "circle right", "left"].map(cues)).toEqual([
    1, 1, 1, 0, 0, 1,
  ]);
});

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { draftText } from "../../../src/build/draft/draft-text.js";
import { sheetOf } from "../../../src/build/draft/sheet.js";
import type { Draft } from "../../../src/hearing/types.js";
import { emptyLibrary } from "../../../src/reading/read-library.js";
import { readRoutine } from "../../../src/reading/read-routine.js";
import { en } from "../../../src/wording/en.js";
import { hostilePatterns } from "../../fixtures/hostile-patterns.js";
import { runs, seed } from "../../runs.js";
import { anyDraft } from "./arbitrary-draft.js";
import { harbourWall, move } from "./harbour-wall.js";

const credit = { title: "Harbour Wall", choreographer: "Ines Varga" };

function textOf(draft: Draft): string {
  return draftText(draft, sheetOf(draft, en), credit, en);
}

function read(draft: Draft) {
  return readRoutine(textOf(draft), "harbour-wall", emptyLibrary);
}

const errors = (draft: Draft) => read(draft).findings.filter(({ severity }) => severity === "error");

/** A draft with nothing in it but the moves of one phrase. */
function phraseOf(moves: Draft["sections"][number]["phrases"][number]["moves"], more: Partial<Draft> = {}): Draft {
  return {
    phrase: 8,
    start: {},
    gear: [],
    accents: { counts: [] },
    sections: [{ taughtAt: 0, phrases: [{ calledAt: [], moves, told: [] }] }],
    runs: [],
    told: [],
    length: 60,
    ...more,
  };
}

/** The moves of the one phrase as they are read back: counts and words. */
const readBack = (draft: Draft) => read(draft).routine?.versions[0]?.moves.map(({ on, cue }) => `${on} ${cue.text}`);

describe("the text of a draft", () => {
  it("says what was heard, where, and what it asks", () => {
    expect(textOf(harbourWall)).toBe(`---
# yaml-language-server: $schema=../schemas/routine.schema.json
# Drafted from 12:39 of recording. A time is a place in the recording; behind a cue stands in how many runs it was called there.
# A \`doubt\` is a question: answer it, and take its line out. When none is left, take \`draft: yes\` out.
title: Harbour Wall
choreographer: Ines Varga
draft: yes
doubt: "The tempo is counted from the run at 9:00: measure it against the song."

music:
  tempo: about 92  # counted from the run at 9:00
  accents: [4, 8]  # “the four and the eight hit” at 1:20
  count-in: 4

video:
  length: 12:40
  chapters:
    - 0:00 Beginning
    - 1:15 harbour wall
    - 6:40 Part 2
    - 8:00 Harbour Wall 2

start:
  facing: left  # “start facing the left wall” at 0:20

gear:
  - { item: knee pads, need: required }  # “the first thing you need is knee pads” at 0:12

# Told: “please name me when you post it” at 11:40

sections:
  - name: harbour wall
    counts:
      # phrase 1, called at 1:35, 3:20, 5:30 and 9:00
      - 1: step  # all 3 runs
        2: together  # all 3 runs
        3-4: drag  # 2 of 3 runs
        7:
          do: clap  # 2 of 3 runs; on 6 at 5:30
          say: and clap
          doubt: "On 7 in 2 of 3 runs, on 6 at 5:30; you said “i think that's on seven” at 2:14. Which count is it?"
        # Heard once, on 8 at 3:25: look
        # An easier way, on 3: “if that's too much just step it” at 4:10
      # phrase 2, called at 5:40
      - length: 4
        1&: heel  # all 3 runs
        4:
          do: drop  # all 3 runs
          hit: yes  # “the drop hits” at 1:22
        # A risk (fast to the floor): “mind your knees on the drop” at 5:45
  - name: Part 2
    counts:
      # phrase 1, called at 7:00 and 9:20
      - 1-8:
          do: Not heard
          doubt: "Only numbers were called here. What is danced?"
  - name: Harbour Wall 2
    counts:
      # phrase 1
      - 1-8:
          do: Your own way
          improvised: yes
---
`);
  });

  it("is a file of its own kind: a draft, whole, with its questions as doubts", () => {
    const { routine, findings } = read(harbourWall);
    expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
    expect(routine?.draft).toBe(true);
    expect(routine?.doubts.map(({ text }) => text)).toEqual(sheetOf(harbourWall, en).questions.map(({ text }) => text));
    expect(routine?.music).toMatchObject({ tempoIsEstimate: true, countIn: 4, accents: [4, 8] });
    expect(routine?.counts).toBe(28);
  });

  it("has about 100 and a question where no run tells a tempo, and says why nothing is sure", () => {
    const { routine } = read(phraseOf([move("1", "step")], { distrust: "few-counts" }));
    expect([routine?.music.countsPerMinute.valueOf(), routine?.music.tempoIsEstimate]).toEqual([100, true]);
    expect(routine?.doubts[0]?.text).toMatch(/^Few counts were called.*measure it against the song\.$/);
  });

  it("lets the cue that more runs agree on stand where two meet, and remarks on the other", () => {
    const draft = phraseOf([
      move("3-4", "drag", { trust: "likely", runs: 2 }),
      move("4", "stamp"),
      move("7-2", "turn"),
      move("9", "out"),
    ]);
    expect(readBack(draft)).toEqual(["4 stamp"]);
    for (const once of ["on 3-4: drag", "on 7-2: turn", "on 9: out"])
      expect(textOf(draft)).toContain(`# Heard once, ${once}`);
  });

  it("lets a half count stand within the count before it, as the reader trims it", () => {
    expect(readBack(phraseOf([move("3", "heel"), move("3&", "toe"), move("5-6", "drag"), move("6&", "up")]))).toEqual([
      "3 heel",
      "3& toe",
      "5-6 drag",
      "6& up",
    ]);
  });

  it("takes no word of the file's own for what was said", () => {
    const text = textOf(phraseOf([move("1", "yes", { say: "none" }), move("2", "1: [x] # y", { say: "on two" })]));
    expect(text).toContain("1: yes  #");
    expect(text).not.toContain("say: none");
    expect(text).toContain('do: "1 x y"');
  });

  it("keeps script, Markdown and addresses out of every text", () => {
    const told = (text: string) => ({ kind: "other", said: { at: 1, text } }) as const;
    const phrases = hostilePatterns.map((text) => ({ calledAt: [], moves: [move("1", text)], told: [told(text)] }));
    const draft = { ...phraseOf([]), sections: [{ taughtAt: 0, phrases }] };
    expect(errors(draft)).toEqual([]);
    const cues = read(draft).routine?.versions[0]?.moves.map(({ cue }) => cue.text) ?? [];
    expect(cues.length).toBe(hostilePatterns.length);
    for (const cue of cues) expect(cue).not.toMatch(/[<>[\]{}`*_\\|:/]|www\./);
  });

  it("is read without an error, whatever the draft holds", () => {
    fc.assert(
      fc.property(anyDraft, (draft) => {
        expect(errors(draft)).toEqual([]);
        expect(read(draft).routine?.doubts.length).toBe(sheetOf(draft, en).questions.length);
      }),
      { numRuns: runs(80), seed },
    );
  });
});

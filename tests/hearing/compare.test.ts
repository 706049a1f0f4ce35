import { describe, expect, it } from "vitest";
import { compare } from "../../src/hearing/compare.js";
import type { Draft, DraftMove, DraftPhrase } from "../../src/hearing/types.js";
import { fromYaml } from "../fixtures/from-yaml.js";

/* An invented routine of three eights in two sections, and what might be heard of it. */
const routine = fromYaml(`sections:
  - name: Harbour wall
    counts:
      - 1-2: { do: Lean into the wall, step: left }
        3-4: Drag the right toes
        7: { do: Bring both palms together, say: clap }
      - 1: Melt down
        5: Push off
  - name: Tag
    counts:
      - 1: Walk away
        8: Look back`);

const move = (on: string, cue: string, more: Partial<DraftMove> = {}): DraftMove => ({
  on,
  cue,
  trust: "sure",
  runs: 2,
  of: 2,
  elsewhere: [],
  unsure: [],
  ...more,
});
const phrase = (calledAt: readonly number[], moves: readonly DraftMove[], more: Partial<DraftPhrase> = {}) => ({
  calledAt,
  moves,
  told: [],
  ...more,
});

const draft = (wall: readonly DraftPhrase[], tag: readonly DraftPhrase[]): Draft => ({
  phrase: 8,
  start: {},
  gear: [],
  accents: { counts: [] },
  sections: [
    { taughtAt: 60, phrases: wall },
    { taughtAt: 300, phrases: tag },
  ],
  runs: [{ start: 400, end: 430, phrases: [0, 1, 2], countsPerMinute: 92 }],
  told: [],
  length: 500,
});

const lean = phrase([100, 400], [move("1", "lean"), move("3", "dragging"), move("7", "clap")]);
const melt = phrase([405], [move("1", "melt"), move("5", "push")]);
const walk = phrase([410], [move("1", "walk"), move("8", "look")]);
const differences = (heard: DraftPhrase, other = melt) => compare(draft([heard, other], [walk]), routine).differences;

describe("a recording held against a file", () => {
  it("finds every phrase by its cues, however they were put, and has nothing against what is as the file has it", () => {
    expect(compare(draft([lean, melt], [walk]), routine)).toEqual({
      phrases: 3,
      recognised: 3,
      chapters: [
        { at: 60, section: "Harbour wall" },
        { at: 300, section: "Tag" },
      ],
      runs: [
        {
          start: 400,
          end: 430,
          countsPerMinute: 92,
          phrases: [
            { section: "Harbour wall", number: 1 },
            { section: "Harbour wall", number: 2 },
            { section: "Tag", number: 1 },
          ],
        },
      ],
      differences: [],
    });
  });

  it("takes a section that is not where a part begins as taught when it is first called", () => {
    const { chapters } = compare({ ...draft([lean, melt, walk], []), runs: [] }, routine);
    expect(chapters).toEqual([
      { at: 60, section: "Harbour wall" },
      { at: 410, section: "Tag" },
    ]);
  });

  it("leaves out a phrase that is like none of the file's", () => {
    const other = phrase([50], [move("1", "spiral"), move("4", "kick")]);
    const found = compare(draft([other, lean, melt], [walk]), routine);
    expect([found.recognised, found.differences]).toEqual([3, []]);
    expect(found.runs[0]?.phrases.map(({ section, number }) => `${section} ${number}`)).toEqual([
      "Harbour wall 1",
      "Harbour wall 2",
    ]);
  });

  it("says where most runs have a cue on another count, and where single ones do", () => {
    const early = phrase([405], [move("1", "melt"), move("6", "push", { runs: 2, of: 3 })]);
    expect(differences(lean, early)).toEqual([
      {
        kind: "count",
        place: { section: "Harbour wall", number: 2 },
        file: expect.objectContaining({ on: "5", cue: "Push off" }),
        heard: { on: "6", text: "push" },
        runs: { have: 2, of: 3 },
        times: [405],
      },
    ]);
    const once = phrase([405], [move("1", "melt"), move("5", "push", { elsewhere: [{ run: 1, on: "4&", at: 408 }] })]);
    expect(differences(lean, once)).toMatchObject([{ kind: "count", heard: { on: "4&" }, times: [408] }]);
  });

  it("has nothing against a cue within the counts of its move", () => {
    const late = {
      ...lean,
      moves: [move("2", "lean"), move("4", "drag", { elsewhere: [{ run: 0, on: "3", at: 9 }] })],
    };
    expect(differences(late)).toEqual([]);
  });

  it("says where a word was called that the file has not, and what it has there", () => {
    const other = phrase(
      [405],
      [move("1", "melt"), move("5", "roll"), move("8", "freeze"), move("3", "spin", { runs: 1 })],
    );
    expect(differences(lean, other)).toMatchObject([
      { kind: "cue", file: { cue: "Push off" }, heard: { on: "5", text: "roll" } },
      { kind: "cue", heard: { on: "8", text: "freeze" } },
    ]);
  });

  it("says where the other side was called, or told, than the file has alone", () => {
    const said = { at: 120, text: "it's the right foot on one" };
    const told = { ...lean, told: [{ kind: "side", on: "1", said } as const] };
    expect(differences(told)).toMatchObject([{ kind: "side", file: { cue: "Lean into the wall" }, times: [120] }]);
    const called = { ...lean, moves: [move("1", "lean"), move("3", "drag left")] };
    expect(differences(called)).toMatchObject([{ kind: "side", heard: { on: "3", text: "drag left" } }]);
    const both = { ...lean, told: [{ kind: "side", on: "1", said: { ...said, text: "right no left" } } as const] };
    expect(differences(both)).toEqual([]);
  });

  it("recognises nothing in another routine", () => {
    const other = phrase([50], [move("1", "spiral")]);
    expect(compare(draft([other], []), routine)).toMatchObject({ recognised: 0, chapters: [], differences: [] });
  });
});

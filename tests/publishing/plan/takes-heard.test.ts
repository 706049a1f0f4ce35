import { expect, test } from "vitest";
import { listen } from "../../../src/hearing/listen.js";
import type { Word } from "../../../src/hearing/types.js";
import { aloud } from "../../../src/publishing/plan/aloud.js";
import type { Routine } from "../../../src/routine/routine.js";
import type { CalledMove } from "../../../src/teaching/call-lines.js";
import { planRecording } from "../../../src/teaching/recording.js";
import { wordingOf } from "../../../src/wording/wording.js";
import { fromYaml } from "../../fixtures/from-yaml.js";
import { library } from "../../fixtures/written.js";

const routine = fromYaml(`music: { tempo: 90, accents: [4, 8] }
start: { facing: left, weight: right }
gear:
  - { item: knee pads, need: required, why: the floor is hard }
  - { item: long sleeves, need: optional }
sections:
  - name: Harbour wall
    counts:
      - { 1: step, 2: cross, 3: tap, 4: clap, 5: drag, 6: twist, 7: shrug, 8: stamp }
      - { 1: reach, 2: pull, 3: sink, 5: roll, 6: kick, 7: sway }
  - name: Low tide
    counts: [{ 1: lunge, 3: flick, 4: punch, 5: point, 6: snap, 7: hop, 8: land }]`);

const numbers = "one two three four five six seven eight".split(" ");

/** What the plan has her say, word by word: its sentences once, and its lines of calls wherever she dances them, at 90 counts a minute. */
function said(of: Routine): { readonly timing: "words"; readonly words: readonly Word[]; readonly length: number } {
  const words: Word[] = [];
  let clock = 1;
  const put = (text: string, lasts: number, begins: boolean) => {
    words.push({ text, start: clock, end: clock + 0.25, begins });
    clock += lasts;
  };
  const dance = (phrases: readonly (readonly CalledMove[])[]) => {
    clock += 4;
    for (const number of numbers.slice(4)) put(number, 2 / 3, number === "five");
    for (const moves of phrases)
      for (const [index, number] of numbers.entries()) {
        const cue = moves.find(({ on }) => on === String(index + 1))?.cue;
        put(number, cue === undefined ? 2 / 3 : 1 / 3, false);
        if (cue !== undefined) put(cue, 1 / 3, false);
      }
    clock += 4;
  };
  const all: (readonly CalledMove[])[] = [];
  let own: (readonly CalledMove[])[] = [];
  for (const take of planRecording(of, library).takes) {
    for (const text of aloud(take, of, library, wordingOf("en")))
      for (const [index, word] of text.split(" ").entries())
        put(word, 0.35, index === 0 || /\.$/.test(words.at(-1)?.text ?? ""));
    if (take.kind === "explain") {
      const moves = take.calls.flatMap((calls) => calls.moves);
      own = [1, 2].map((phrase) => moves.filter((move) => move.phrase === phrase)).filter(({ length }) => length > 0);
      all.push(...own);
    }
    if (take.kind === "explain" || take.kind === "follow") dance(own);
    if (take.kind === "from-the-top") dance(all);
  }
  return { timing: "words", words, length: clock };
}

test("captions of what a recording says make a draft with everything in it", () => {
  const draft = listen(said(routine));
  if ("why" in draft) throw new Error(draft.why);
  expect(draft.gear.map(({ item, need }) => [item, need])).toEqual([
    ["knee pads", "required"],
    ["long sleeves", "optional"],
  ]);
  expect(draft.accents.counts).toEqual([4, 8]);
  expect([draft.start.facing?.value, draft.start.weight?.value]).toEqual(["left", "right"]);
  expect(draft.sections.map(({ name }) => name)).toEqual(["harbour wall", "low tide"]);
  expect(
    draft.sections.map(({ phrases }) => phrases.map(({ moves }) => moves.map(({ on, cue }) => `${on} ${cue}`))),
  ).toEqual([
    [
      ["1 step", "2 cross", "3 tap", "4 clap", "5 drag", "6 twist", "7 shrug", "8 stamp"],
      ["1 reach", "2 pull", "3 sink", "5 roll", "6 kick", "7 sway"],
    ],
    [["1 lunge", "3 flick", "4 punch", "5 point", "6 snap", "7 hop", "8 land"]],
  ]);
  expect(draft.distrust).toBeUndefined();
});

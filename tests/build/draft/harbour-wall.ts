import type { Draft, DraftMove, Landing, Said } from "../../../src/hearing/types.js";

/** A cue that was heard, as a draft has it. */
export function move(on: string, cue: string, more: Partial<DraftMove> = {}): DraftMove {
  return { on, cue, trust: "sure", runs: 3, of: 3, elsewhere: [], unsure: [], ...more };
}

const said = (at: number, text: string): Said => ({ at, text });
const sixth: Landing = { run: 2, on: "6", at: 330 };

/** A short lesson with one of everything, written by hand: an invented teacher's "Harbour Wall". */
export const harbourWall: Draft = {
  phrase: 8,
  countIn: 4,
  tempo: { countsPerMinute: 92.3, at: 540 },
  start: { facing: { value: "left", said: said(20, "start facing the left wall") } },
  gear: [{ item: "knee pads", need: "required", said: said(12.4, "the first thing you need is knee pads") }],
  accents: { counts: [4, 8], said: said(80, "the four and the eight hit") },
  sections: [
    {
      name: "harbour wall",
      taughtAt: 75,
      phrases: [
        {
          calledAt: [95, 200, 330, 540],
          moves: [
            move("1", "step"),
            move("2", "together"),
            move("3-4", "drag", { runs: 2 }),
            move("7", "clap", {
              trust: "likely",
              runs: 2,
              elsewhere: [sixth],
              unsure: [said(134, "i think that's on seven")],
              say: "and clap",
            }),
            move("8", "look", { trust: "once", runs: 1 }),
          ],
          told: [{ kind: "easier", on: "3", said: said(250, "if that's too much just step it") }],
          rows: [
            row(0, 95, { "1": "step", "2": "together", "3-4": "drag", "7": "clap" }),
            row(1, 200, { "1": "step", "2": "together", "7": "clap", "8": "look" }),
            row(2, 330, { "1": "step", "2": "together", "3-4": "drag", "6": "clap" }),
          ],
        },
        {
          length: 4,
          calledAt: [340],
          moves: [move("1&", "heel"), move("4", "drop", { hit: said(82, "the drop hits") })],
          told: [{ kind: "risk", said: said(345, "mind your knees on the drop"), risks: ["floor-drop"] }],
        },
      ],
    },
    { taughtAt: 400, phrases: [{ calledAt: [420, 560], moves: [], told: [] }] },
    { name: "Harbour Wall", taughtAt: 480, phrases: [{ calledAt: [], moves: [], told: [], improvised: true }] },
  ],
  runs: [
    { start: 95, end: 110, phrases: [0] },
    { start: 200, end: 215, phrases: [0] },
    { start: 330, end: 350, phrases: [0, 1], countsPerMinute: 80 },
    { start: 540, end: 575, phrases: [0, 1, 2, 3], countsPerMinute: 92.3 },
  ],
  told: [{ kind: "other", said: said(700, "please name me when you post it") }],
  length: 759.2,
};

function row(run: number, at: number, cues: Readonly<Record<string, string>>) {
  return {
    run,
    at,
    cells: Object.entries(cues).map(([on, text]) => ({ on, text, at: at + Number.parseFloat(on) * 0.65 })),
  };
}

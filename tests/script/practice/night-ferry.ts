import Fraction from "fraction.js";
import type { WrittenOption } from "../../../src/routine/written.js";
import { at, danced, move, phrase, section } from "../../publishing/fixtures/written.js";

function seated(text: string): WrittenOption {
  const { on: _, ...rest } = move("", text);
  return { place: `seated ${text}`, version: "seated", moves: [rest] };
}

/**
 * A routine with what practice has to show: a move between two counts, a called word, landing words, a seated version, a
 * second tempo, a wait for the track (from 20 counts at 92 to 58.0 s) and a section that is danced twice on the other side.
 */
export const nightFerry = danced({
  slug: "night-ferry",
  title: "Night Ferry",
  music: { tempo: new Fraction(92), firstCount: new Fraction("14.2"), accents: [4, 8], countIn: 4 },
  levels: ["1", "2"],
  taught: "2",
  adaptations: [{ place: "adaptation", name: "seated", from: "1" }],
  start: { place: "start", versions: [{ place: "start seated", version: "seated", height: "chair" }] },
  sections: [
    section("Gangway", [
      phrase([
        move("1-3", "Lean into an unseen rail, left palm flat on it", { words: "hold on to the rail" }),
        move("4", "Push off onto the left foot", {
          steps: ["left"],
          hit: true,
          options: [seated("Push off with the left hand")],
        }),
        move("5-6", "Drag the right toes in a half circle", { turn: 2 }),
        move("7-8", "Slide both hands down the thighs like rain", {
          say: { text: "and melt", marks: [] },
          options: [seated("Slide both hands down the shins")],
        }),
      ]),
      phrase([
        move("1-2", "hold"),
        move("3", "Left heel taps"),
        move("3&", "Right heel taps"),
        move("4", "Both heels drop"),
        move("5-8", "Walk round to the back"),
      ]),
    ]),
    section("Whistle", [
      phrase(
        [
          move("1-4", "Four slow steps away from the rail", {
            travel: [{ way: "forward", steps: 4 }],
            options: [seated("Four slow breaths")],
          }),
        ],
        { length: 4 },
      ),
    ]),
    section("Gangway again", undefined, {
      sameAs: "Gangway",
      mirrored: "always",
      repeat: 2,
      at: at("58.0"),
      tempo: new Fraction(96),
    }),
  ],
});

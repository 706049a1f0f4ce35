import { expect, test } from "vitest";
import { descriptionText } from "../../../src/publishing/description/description.js";
import { firstSentences } from "../../../src/publishing/description/first-sentences.js";
import { fromYaml } from "../../fixtures/from-yaml.js";
import { library } from "../../fixtures/written.js";

/* What a teacher would say under her video, each thing worked out by hand. */

/** The paragraph that begins so, in lines. */
function paragraph(yaml: string, begins: string, outlineLimit = 5000): readonly string[] {
  const text = descriptionText(fromYaml(yaml), { ...library, outlineLimit });
  return (
    text
      .trimEnd()
      .split("\n\n")
      .find((one) => one.startsWith(begins))
      ?.split("\n") ?? []
  );
}

const seal = `levels: [1, 2, 3]
taught: 2
adaptations: [seated]
music: { tempo: 100, accents: [4, 8], pauses: [6], title: Wax, artist: The Ferry Clerks, link: "https://e.example/wax" }
video: { performance: "https://e.example/performance" }
start: { facing: left, weight: right, seated: { height: chair, weight: seat } }
sections:
  - name: Seal
    counts:
      - 1-2: Fold the letter
        3: Look up
        4: { do: Stamp, options: { seated: Tap, 3: Stamp twice } }
        5: Breathe
        7-8:
          do: Roll back
          height: lying
          weight: spine
          options:
            1: { 7: { do: Sit down, height: seated, weight: seat }, 8: { do: Lie down, height: lying, weight: spine } }
            3: { do: Headstand and down, through: inverted, height: lying, weight: spine, contacts: [head] }
            seated: Fold over the thighs
  - { name: Seal again, same-as: Seal, mirrored: yes, time: half }`;

test("that there is no music in the video, and where it is", () => {
  expect(paragraph(seal, "MUSIC")).toEqual([
    "MUSIC: there is none in this video. The song: “Wax” by The Ferry Clerks, https://e.example/wax",
    "The performance, with the music: https://e.example/performance",
  ]);
});

test("how it starts, which counts land, and which are left empty", () => {
  expect(paragraph(seal, "START")).toEqual([
    "START: facing left, weight on the right foot, standing; facing left, weight on the seat, on a chair (seated)",
    "LANDS HARDEST: counts 4 and 8 of every eight",
    "LEFT EMPTY: count 6 of every eight",
  ]);
  // Nobody named accents: those of the hits, by the numbers of the room.
  const hits =
    "sections: [{ name: A, counts: [{ from: 7, 7: Breathe, 8: { do: Snap, hit: yes } }, { 1-2: Walk, 3: { do: Clap, hit: yes } }] }]";
  expect(paragraph(hits, "START")[1]).toBe("LANDS HARDEST: counts 3 and 8 of every eight");
});

test("what each option replaces and where, once for all the times it is danced, by the counts that it really has", () => {
  expect(paragraph(seal, "WHAT THE OPTIONS")).toEqual([
    "WHAT THE OPTIONS REPLACE",
    // A count is 0.6 s: sitting down in one is a drop.
    "Level 1, end of Seal (7, 8): Sit down · Lie down, in place of “Roll back” (take care: fast to the floor)",
    "Level 3, middle of Seal (4): Stamp twice, in place of “Stamp”",
    "Level 3, end of Seal (7–8): Headstand and down, in place of “Roll back” (take care: upside down)",
    "Seated, middle of Seal (4): Tap, in place of “Stamp”",
    "Seated, end of Seal (7–8): Fold over the thighs, in place of “Roll back”",
  ]);
  const groups = `levels: [1, 2]
groups: [Shore, Sea]
sections:
  - name: Fall
    counts: [{ 1-8: { do: Sway, options: { 2: Turn } } }]
    parts: { Sea: [{ 1-4: { do: Reach, options: { 2: Leap } }, 5-8: Fold }] }`;
  expect(paragraph(groups, "WHAT THE OPTIONS").slice(1)).toEqual([
    "Level 2 (Shore), Fall (1–8): Turn, in place of “Sway”",
    "Level 2 (Sea), start of Fall (1–4): Leap, in place of “Reach”",
  ]);
});

test("where the tempo changes, where nothing is counted, and what is the dancers' own", () => {
  expect(paragraph(seal, "WHAT CHANGES")).toEqual([
    "WHAT CHANGES ON THE WAY",
    "Seal again: half-time, 50 counts a minute",
  ]);
  const free = `video: { breakdown: "https://e.example/a", length: 3:00, chapters: [0:00 Hello] }
sections:
  - { name: Opening, seconds: 15 }
  - { name: A, counts: [{ 1-8: Walk }], tempo: about 71 }
  - { name: Free, improvised: yes, counts: [{ length: 8 }] }
  - { name: A again, same-as: A, time: full, tempo: 120 }`;
  expect(paragraph(free, "WHAT CHANGES").slice(1)).toEqual([
    "Opening: 15 seconds, no counts",
    "A: about 71 counts a minute",
    "Free: yours, dance what you like",
    "A again: double time, 120 counts a minute",
  ]);
});

test("an introduction is said in its first sentences, as plain text", () => {
  expect(firstSentences("You *lean*, `left`. Then [fall](https://e.example)!\n\nMore.", "en")).toBe(
    "You lean, left. Then fall!",
  );
  const [long, short] = [`${"a".repeat(290)}.`, "It goes on."];
  expect(firstSentences(`${long} ${short}`, "en")).toBe(long);
  expect(firstSentences(`${"b".repeat(400)}. ${short}`, "en")).toBe(`${"b".repeat(400)}.`);
  expect(firstSentences("- a list", "en")).toBe("");
});

test("where the options do not fit one by one, they are told in figures before they are left out", () => {
  const options = ["1", "2", "3", "4", "5"].map(
    (on) => `${on}: { do: Walk ${on}, options: { 2: A long way round ${on} } }`,
  );
  const yaml = `levels: [1, 2]\nsections: [{ name: A, counts: [{ ${options.join(", ")}, 6-8: hold }] }]`;
  const whole = [...descriptionText(fromYaml(yaml), library)].length;
  expect(paragraph(yaml, "WHAT THE OPTIONS")).toHaveLength(6);
  expect(paragraph(yaml, "WHAT THE OPTIONS", whole - 300)).toEqual([
    "WHAT THE OPTIONS REPLACE",
    "Level 2, all through A: 5 moves of its own",
  ]);
});

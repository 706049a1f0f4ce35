import fc from "fast-check";
import Fraction from "fraction.js";
import { expect, test } from "vitest";
import { chapterCaptions } from "../../../src/publishing/captions/chapter-captions.js";
import { countCaptions } from "../../../src/publishing/captions/count-captions.js";
import { numberCaptions } from "../../../src/publishing/captions/number-captions.js";
import { captions } from "../../../src/publishing/captions/publisher.js";
import { routineJson } from "../../../src/publishing/record/routine-json.js";
import { contextOf } from "../../fixtures/context.js";
import { lowTide } from "../../fixtures/low-tide.js";
import { readCaptions } from "../../fixtures/read-captions.js";
import { timed, timedRoutine } from "../../fixtures/timed.js";
import { danced, library, move, phrase, section } from "../../fixtures/written.js";

test("a caption a move, with its counts, its cue, the landing words and its section", () => {
  const cues = readCaptions(countCaptions(lowTide, library));
  expect(cues.length).toBe(28);
  expect(cues[0]).toEqual({
    id: "1 Harbour wall",
    start: 14.2,
    end: 16.157,
    text: "1-3 Lean into an unseen wall, left palm flat against it\ndown by the wall",
  });
  expect(cues[9]).toMatchObject({ id: "10 Tag", text: "1-4 Four slow steps away from the wall" });
  expect(cues[10]).toMatchObject({
    start: 58,
    text: "1-3 Lean into an unseen wall, right palm flat against it\ndown by the wall",
  });
});

test("whatever an author writes reads back as written, on one line", () => {
  const text = fc.oneof(
    fc.string({ unit: "binary" }),
    fc.constantFrom("a --> b", "<v Ines>walk</v>", "this & that &amp; more", "1\n\n2", "NOTE", "STYLE"),
  );
  fc.assert(
    fc.property(text, text, (cue, name) => {
      const routine = danced({
        title: name,
        sections: [section(name, [phrase([move("1-8", cue, { words: name })])], { words: "not shown" })],
      });
      const line = (raw: string) => raw.replace(/\s+/g, " ").trim().replaceAll("\0", "\uFFFD");
      const [only] = readCaptions(countCaptions(routine, library));
      expect(only?.text).toBe([`1-8 ${line(cue)}`, line(name)].join("\n"));
      expect(only?.id).toBe(`1 ${line(name).replaceAll("-->", "→")}`.trim());
    }),
  );
});

test("captions never overlap, never end before they start, and keep to the routine's own times", () => {
  fc.assert(
    fc.property(timed, fc.integer({ min: 0, max: 12 }), (given, lead) => {
      const routine = timedRoutine(given);
      const cues = readCaptions(countCaptions(routine, library, lead));
      for (const [index, { start, end }] of cues.entries()) {
        expect(start).toBeGreaterThanOrEqual(0);
        expect(end).toBeGreaterThan(start);
        expect(cues[index + 1]?.start ?? end).toBeGreaterThanOrEqual(end);
      }
    }),
  );
});

test("a lead shows each cue so many counts early, in the tempo that is danced there, and counts on through a wait", () => {
  const cues = readCaptions(countCaptions(lowTide, library, 2));
  const [slow, quick] = [60 / 92, 60 / 96];
  expect(cues[0]?.start).toBeCloseTo(14.2 - 2 * slow, 3);
  expect(cues[1]?.start).toBeCloseTo(14.2 + slow, 3);
  expect(cues[9]?.end).toBeCloseTo(14.2 + 18 * slow, 3);
  expect(cues[10]?.start).toBeCloseTo(58 - 2 * quick, 3);
});

test("a lead that reaches over a change of tempo counts each part in its own", () => {
  const routine = danced({
    music: { tempo: new Fraction(120), firstCount: new Fraction(10) },
    sections: [
      section("Fast", [phrase([move("1-8", "Walk")])]),
      section("Slow", [phrase([move("1-2", "Sway"), move("3-8", "Melt")])], { tempo: new Fraction(60) }),
    ],
  });
  const cues = readCaptions(countCaptions(routine, library, 4));
  expect(cues.map(({ start, end }) => [start, end])).toEqual([
    [8, 12],
    [12, 13],
    [13, 18],
  ]);
});

test("what a lead pushes before the start of the track begins with it", () => {
  const routine = danced({
    music: { tempo: new Fraction(60) },
    sections: [section("Walks", [phrase([move("1-2", "Right"), move("3-8", "Left")])])],
  });
  expect(readCaptions(countCaptions(routine, library, 4)).map(({ start, end, text }) => [start, end, text])).toEqual([
    [0, 4, "3-8 Left"],
  ]);
});

test("the plain track counts from the count-in on, marks accents, and says what the phrase says", () => {
  const cues = readCaptions(numberCaptions(lowTide, library));
  expect(
    cues
      .slice(0, 12)
      .map(({ text }) => text)
      .join(" "),
  ).toBe("5 6 7 8 1 2 3 4! 5 6 7 8!");
  expect(cues[4]?.start).toBe(14.2);
  expect(cues.length).toBe(4 + 52);

  const called = danced({
    music: { countIn: 8 },
    sections: [section("Countdown", [phrase([move("1-4", "Freeze")], { length: 4, say: ["4", "3", "2", "1"] })])],
  });
  // The track begins with the first count, so the count-in has no time to stand at.
  expect(readCaptions(numberCaptions(called, library)).map(({ text }) => text)).toEqual(["4", "3", "2", "1"]);
});

test("a pick-up is counted in up to its own first number", () => {
  const routine = danced({
    music: { firstCount: new Fraction(20), countIn: 4 },
    sections: [section("Pick-up", [phrase([move("7-8", "Step")], { from: 7 }), phrase([move("1-8", "Walk")])])],
  });
  expect(
    readCaptions(numberCaptions(routine, library))
      .slice(0, 7)
      .map(({ text }) => text),
  ).toEqual("3 4 5 6 7 8 1".split(" "));
});

test("a chapter lasts until the next, the last until the video ends", () => {
  const [, , chapters] = captions.publish(lowTide, contextOf(library)) as readonly { path: string; content: string }[];
  expect(chapters?.path).toBe("routines/low-tide/chapters.vtt");
  expect(readCaptions(chapters?.content ?? "", "chapters")).toEqual([
    { id: "", start: 0, end: 63, text: "What you need" },
    { id: "", start: 63, end: 760, text: "Harbour wall, counts and words" },
  ]);
});

test("no chapters.vtt without chapters or without a length, and none that ends before it starts", () => {
  const names = (video: typeof lowTide.video) =>
    (captions.publish({ ...lowTide, video }, contextOf(library)) as readonly { path: string }[]).map(
      ({ path }) => path,
    );
  const { length: _, ...noLength } = lowTide.video;
  const two = ["routines/low-tide/counts.vtt", "routines/low-tide/numbers.vtt"];
  expect(names(noLength)).toEqual(two);
  expect(names({ ...lowTide.video, chapters: [] })).toEqual(two);

  const chapter = (seconds: number) => ({ place: `${seconds}`, at: new Fraction(seconds), title: `At ${seconds}` });
  const jumbled = chapterCaptions(
    { title: "Low Tide", video: { chapters: [0, 90, 30, 90, 200].map(chapter) } },
    new Fraction(120),
    library,
  );
  expect(readCaptions(jumbled, "chapters").map(({ start, end }) => [start, end])).toEqual([
    [0, 30],
    [30, 90],
    [90, 200],
  ]);
});

test("where groups dance different counts each has captions with its name, what all dance stands there once", () => {
  const group = (name: string) => ({ place: name, name, mirrored: false });
  const walk = [phrase([move("1-4", "Walk"), move("5-8", "Bow")])];
  const routine = danced({
    music: { tempo: new Fraction(60) },
    groups: [group("Sea"), group("Shore")],
    sections: [
      section("Together", walk),
      section("One after the other", walk, { canon: [{ place: "canon", group: "Shore", after: 2 }] }),
      section("Each their own", [phrase([move("1-8", "Wave")])], {
        parts: [{ place: "part", group: "Shore", counts: [phrase([move("1-8", "Stand")])] }],
      }),
    ],
  });
  const cues = readCaptions(countCaptions(routine, library));
  expect(cues.slice(0, 6).map(({ start, text }) => [start, text])).toEqual([
    [0, "1-4 Walk"],
    [4, "5-8 Bow"],
    [8, "Sea 1-4 Walk"],
    [10, "Shore 1-4 Walk"],
    [12, "Sea 5-8 Bow"],
    [14, "Shore 5-8 Bow"],
  ]);
  expect(cues.slice(-2).map(({ text }) => text)).toEqual(["Sea 1-8 Wave", "Shore 1-8 Stand"]);
  const [version] = routineJson(routine, library, []).versions;
  expect(version?.groups?.map(({ name, moves }) => [name, moves.length])).toEqual([["Shore", 5]]);
});

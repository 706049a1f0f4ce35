import fc from "fast-check";
import Fraction from "fraction.js";
import { expect, test } from "vitest";
import { chapterCaptions } from "../../../src/publishing/captions/chapter-captions.js";
import { countCaptions } from "../../../src/publishing/captions/count-captions.js";
import { joinShort } from "../../../src/publishing/captions/join-short.js";
import { numberCaptions } from "../../../src/publishing/captions/number-captions.js";
import { captions } from "../../../src/publishing/captions/publisher.js";
import { routineJson } from "../../../src/publishing/routine-json.js";
import type { Routine } from "../../../src/routine/routine.js";
import type { WrittenPhrase } from "../../../src/routine/written.js";
import { contextOf } from "../../fixtures/context.js";
import { fromYaml } from "../../fixtures/from-yaml.js";
import { lowTide } from "../../fixtures/low-tide.js";
import { readCaptions } from "../../fixtures/read-captions.js";
import { timed, timedRoutine } from "../../fixtures/timed.js";
import { called, danced, library, move, phrase, section } from "../../fixtures/written.js";

/** A line of captions as it is read: when, and each move that they show. */
const times = (of: Routine, lead?: number) =>
  readCaptions(countCaptions(of, library, lead)).map(({ start, end, text }) => [start, end, ...text.split("\n")]);

/** Phrases at 60 counts a minute, so that a count is a second long, and 20 characters are read on it. */
const slow = (...phrases: readonly WrittenPhrase[]) =>
  danced({ music: { tempo: new Fraction(60) }, sections: [section("Walks", phrases)] });

test("a caption a move, with its counts, its cue, the landing words and its section", () => {
  const routine = slow(phrase([move("1-3", "Lean into the wall", { words: "down by the wall" }), move("4-8", "Walk")]));
  expect(readCaptions(countCaptions(routine, library))).toEqual([
    { id: "1 Walks", start: 0, end: 3, text: "1-3 Lean into the wall\ndown by the wall" },
    { id: "2 Walks", start: 3, end: 8, text: "4-8 Walk" },
  ]);
  const cues = readCaptions(countCaptions(lowTide, library));
  expect(cues[0]).toMatchObject({ id: "1 Harbour wall", start: 14.2, end: 16.157 });
  expect(cues.find(({ start }) => start === 58)?.text).toMatch(/^1-3 Lean into an unseen wall, right/);
});

test("count and call come first, and of the rest as much as can be read at 20 characters a second", () => {
  const routine = slow(
    phrase([
      move("1-2", "Drag the right toes along, in a half circle around", { say: called("drag") }),
      move("3", "Step out to the left", { words: "gone" }),
      move("4-8", "Drag the right toes in a half circle around", { words: "slowly round" }),
    ]),
  );
  // 40 characters, less "1-2" and the call in its quotes; 20 less "3"; 100 less "4-8", which leaves room for the words too.
  expect(times(routine)).toEqual([
    [0, 2, "1-2 “drag” Drag the right toes along, in…"],
    [2, 3, "3 Step out to the…"],
    [3, 8, "4-8 Drag the right toes in a half circle around", "slowly round"],
  ]);
});

test("landing words do not push out the cue of another move in their caption", () => {
  const routine = slow(
    phrase([
      move("1", "Left", { words: "down by the wall" }),
      move("1&", "Right foot"),
      move("2-8", "Walk", { words: "gone" }),
    ]),
  );
  // 20 characters less "1" and "1&" are 17: the cues take 14, and no landing word fits into 3.
  expect(times(routine)).toEqual([
    [0, 1, "1 Left", "1& Right foot"],
    [1, 8, "2-8 Walk", "gone"],
  ]);
});

test("what is too short to be read shares a caption with the next of its phrase, or at its end with the one before", () => {
  const phrases = phrase([
    move("1", "Left"),
    move("1&", "Right"),
    move("2-3", "Sway"),
    move("4-7", "Melt"),
    move("8", "Stamp"),
    move("8&", "Clap"),
  ]);
  expect(times(slow(phrases, phrase([move("1-8", "Walk")])))).toEqual([
    [0, 1, "1 Left", "1& Right"],
    [1, 3, "2-3 Sway"],
    [3, 7, "4-7 Melt"],
    [7, 8, "8 Stamp", "8& Clap"],
    [8, 16, "1-8 Walk"],
  ]);
  // A half count that is left at the end of a phrase goes with what came before; one with room after it stays longer.
  const ends = slow(phrase([move("1-7", "Walk"), move("8&", "Clap")]), phrase([move("1", "Go"), move("3", "Stop")]));
  expect(times(ends).slice(0, 3)).toEqual([
    [0, 8, "1-7 Walk", "8& Clap"],
    [8, 9, "1 Go"],
    [10, 11, "3 Stop"],
  ]);
  // Alone in its phrase, it does not go with the next section's.
  const last = danced({
    music: { tempo: new Fraction(60) },
    sections: [
      section("Walks", [phrase([move("1-8", "Walk")]), phrase([move("4&", "Clap")], { length: 4 })]),
      section("Tag", [phrase([move("1-8", "Stop")])]),
    ],
  });
  expect(times(last)).toEqual([
    [0, 8, "1-8 Walk"],
    [11.5, 12, "4& Clap"],
    [12, 20, "1-8 Stop"],
  ]);
  // Nor does what came before a silence stay through it.
  const rest = slow(
    phrase([move("1-6", "Walk"), move("7", "Breathe", { say: called() }), move("8&", "Clap")]),
    phrase([move("1-8", "Walk")]),
  );
  expect(times(rest)).toEqual([
    [0, 6, "1-6 Walk"],
    [7.5, 8, "8& Clap"],
    [8, 16, "1-8 Walk"],
  ]);
  const tied = slow(phrase([move("1-8", "Walk"), move("8&", "Clap")]));
  expect(times(tied)).toEqual([[0, 8, "1-8 Walk", "8& Clap"]]);
  const beforeRest = slow(phrase([move("1-4", "Walk"), move("5", "Go", { say: called() }), move("6", "Clap")]));
  expect(times(beforeRest)).toEqual([
    [0, 4, "1-4 Walk"],
    [5, 6, "6 Clap"],
  ]);
  const beforeRoom = slow(
    phrase([move("1-4", "Walk"), move("5", "Go"), move("5&", "Clap"), move("6-7", "hold", { say: called() })], {}),
    phrase([move("1-8", "Walk")]),
  );
  expect(times(beforeRoom)[1]).toEqual([4, 5, "5 Go", "5& Clap"]);
  const alone = slow(phrase([move("1", "Go"), move("2&", "Clap"), move("5", "Stop")]));
  expect(times(alone)[1]).toEqual([1.5, 2.3, "2& Clap"]);
});

test("calls are those of the move, else of the phrase; where nothing is called nothing is shown", () => {
  const routine = slow(
    phrase(
      [
        move("1-2", "Freeze"),
        move("3-4", "Melt", { say: called("and", "melt") }),
        move("5-6", "Breathe", { say: called() }),
        move("7-8", "Rise"),
      ],
      { say: ["8", "7", "6", "5", "4", "3", "2", "1"] },
    ),
  );
  expect(times(routine)).toEqual([
    [0, 2, "1-2 “8 · 7” Freeze"],
    [2, 4, "3-4 “and · melt” Melt"],
    [6, 8, "7-8 “2 · 1” Rise"],
  ]);
  expect(readCaptions(numberCaptions(routine, library)).map(({ start, text }) => `${start} ${text}`)).toEqual([
    "0 8",
    "1 7",
    "2 and",
    "3 melt",
    "6 2",
    "7 1",
  ]);
});

test("the plain track has a move's own call on its count, and what is called between two counts with the first of them", () => {
  const routine = slow(
    phrase([
      move("1-4", "Walk", { say: called("walk it out") }),
      move("5", "Chassé", { say: called("quick") }),
      move("5&", "close", { say: called("and") }),
      move("6&", "Kick", { say: called("kick") }),
      move("7-8", "Hold still", { say: called() }),
    ]),
  );
  expect(readCaptions(numberCaptions(routine, library)).map(({ text }) => text)).toEqual([
    "walk it out",
    "2",
    "3",
    "4",
    "quick and",
    "6 kick",
  ]);
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
        // Slow, so that all of it can be read.
        music: { tempo: new Fraction(1, 10) },
        sections: [section(name, [phrase([move("1-8", cue, { words: name })])], { words: "not shown" })],
      });
      const line = (raw: string) => raw.replace(/\s+/g, " ").trim().replaceAll("\0", "\uFFFD");
      const [only] = readCaptions(countCaptions(routine, library));
      expect(only?.text).toBe([`1-8 ${line(cue)}`.trim(), line(name)].filter(Boolean).join("\n"));
      expect(only?.id).toBe(`1 ${line(name).replaceAll("-->", "→")}`.trim());
    }),
  );
});

test("captions never overlap, and keep to the routine's own times", () => {
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

test("nothing flashes that shares its phrase, and captions keep to their phrases", () => {
  const length = fc.integer({ min: 1, max: 20 });
  const part = fc.record({ length, gap: fc.constantFrom(0, 0, 1, 9), opens: fc.boolean() });
  fc.assert(
    fc.property(fc.array(part, { minLength: 1, maxLength: 12 }), (parts) => {
      let [at, phrase] = [0, 0];
      const shown = parts.map(({ length, gap, opens }) => {
        at += gap;
        if (opens) phrase++;
        const start = new Fraction(at, 10);
        at += length;
        return { start, end: new Fraction(at, 10), phrase: String(phrase), afterSilence: false };
      });
      const runs = joinShort(shown);
      expect(runs.flatMap((run) => run.parts)).toEqual(shown);
      for (const run of runs) {
        const [{ phrase }] = run.parts;
        expect(run.parts.map((one) => one.phrase)).toEqual(run.parts.map(() => phrase));
        if (run.end.sub(run.start).lt(0.8))
          expect(run.parts).toHaveLength(shown.filter((one) => one.phrase === phrase).length);
      }
    }),
  );
});

test("a lead shows each cue so many counts early, in the tempo that is danced there, and counts on through a wait", () => {
  const cues = readCaptions(countCaptions(lowTide, library, 2));
  const [slow, quick] = [60 / 92, 60 / 96];
  const tag = cues.findIndex(({ id }) => id.endsWith("Tag"));
  expect(cues[0]?.start).toBeCloseTo(14.2 - 2 * slow, 3);
  expect(cues[1]?.start).toBeCloseTo(14.2 + slow, 3);
  expect(cues[tag]?.end).toBeCloseTo(14.2 + 18 * slow, 3);
  expect(cues[tag + 1]?.start).toBeCloseTo(58 - 2 * quick, 3);
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

test("what a lead pushes before the start of the track begins with it, and the first is never lost", () => {
  const routine = danced({
    music: { tempo: new Fraction(60) },
    sections: [section("Walks", [phrase([move("1-2", "Right"), move("3-8", "Left")])])],
  });
  expect(readCaptions(countCaptions(routine, library, 4)).map(({ start, end, text }) => [start, end, text])).toEqual([
    [0, 4, "1-2 Right\n3-8 Left"],
  ]);
  const phrases = [phrase([move("1-8", "Walk")]), phrase([move("1-8", "Turn")])];
  expect(times(slow(...phrases), 10)).toEqual([[0, 6, "1-8 Walk", "1-8 Turn"]]);
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

  const countdown = danced({
    music: { countIn: 8 },
    sections: [section("Countdown", [phrase([move("1-4", "Freeze")], { length: 4, say: ["4", "3", "2", "1"] })])],
  });
  // The track begins with the first count, so the count-in has no time to stand at.
  expect(readCaptions(numberCaptions(countdown, library)).map(({ text }) => text)).toEqual(["4", "3", "2", "1"]);
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

test("where moves share a caption the cue of a hit has room before those of the others", () => {
  // 0.4 s a count: two share 0.8 s, in which 16 characters are read, two of them the counts. "Snap the head" has 13.
  const counts = "1-4: Walk, 5-6: Sway, 7: Walk back, 8: { do: Snap the head, hit: yes }";
  const routine = fromYaml(
    `music: { tempo: 150, first-count: 0:10 }\nsections:\n  - { name: A, counts: [{ ${counts} }] }`,
  );
  expect(readCaptions(countCaptions(routine, library)).at(-1)?.text).toBe("7\n8 Snap the head");
});

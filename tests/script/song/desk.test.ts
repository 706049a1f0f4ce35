import { describe, expect, it } from "vitest";
import { deskRoutine } from "../../../src/build/live/song-page.js";
import type { SongGuess } from "../../../src/hearing/song/types.js";
import { readRoutine } from "../../../src/reading/read-routine.js";
import { withSong } from "../../../src/reading/song-lines.js";
import { song } from "../../../src/wording/en/song.js";
import { figuresOf } from "../../../templates/script/song/figures.js";
import { lay } from "../../../templates/script/song/laid.js";
import { marked, put } from "../../../templates/script/song/marks.js";
import { gridIn, gridText, plainLines } from "../../../templates/script/song/plain-lines.js";
import { whenceOf } from "../../../templates/script/song/sources.js";
import {
  anchored,
  type Desk,
  gridOf,
  guessed,
  newDesk,
  nudged,
  openedCounts,
  takenFrom,
  tapped,
  withoutTaps,
} from "../../../templates/script/song/state.js";
import { shownTaps, tapsText } from "../../../templates/script/song/tapping.js";
import { plainLibrary } from "../../fixtures/written.js";

/** A routine of eights, as the desk has it. */
function routineOf(music: string, sections: string, more = "") {
  const text = `---\ntitle: Low Tide\nchoreographer: Ines Varga\n${more}music: { ${music} }\nsections:\n${sections}---\n`;
  const { routine, findings } = readRoutine(text, "low-tide", plainLibrary);
  if (!routine) throw new Error(JSON.stringify(findings));
  return { text, routine: deskRoutine(routine, text, "key") };
}
const eight = "counts: [{ 1-8: Walk }]";
const two = `  - { name: Shore, ${eight} }\n  - { name: Swell, ${eight} }\n`;
const fileGrid = { countsPerMinute: 120, firstCount: 10 };

/** Taps of a steady hand, from a moment on. */
function tapAlong(desk: Desk, from: number, period: number, stretch: "song" | number = "song", taps = 16): Desk {
  return Array.from({ length: taps }, (_, tap) => from + tap * period).reduce(
    (now, at) => tapped(now, stretch, at),
    desk,
  );
}

const guess: SongGuess = {
  tempos: [
    {
      countsPerMinute: 76.004,
      relation: "first",
      trust: 0.7,
      firstCounts: [{ at: 0.5001, why: "music-begins", trust: 1 }],
    },
    { countsPerMinute: 152.008, relation: "double", trust: 0.3, firstCounts: [] },
  ],
  seconds: 60,
};

describe("where the counts come from", () => {
  it("the file, guesses where it says nothing, taps as soon as they give a figure", () => {
    expect(gridOf(newDesk())).toBeUndefined();
    expect(gridOf(newDesk(fileGrid))).toEqual(fileGrid);
    expect(gridOf(guessed(newDesk(fileGrid), guess))).toEqual(fileGrid);
    const desk = guessed(newDesk(), guess);
    // As exact as it will be written.
    expect(gridOf(desk)).toEqual({ countsPerMinute: 76, firstCount: 0.5 });
    expect(gridOf(takenFrom(desk, { from: "guess", tempo: 1, first: 0 }))?.countsPerMinute).toBe(152.01);
    expect(gridOf(tapAlong(desk, 4, 0.5, "song", 7))?.countsPerMinute).toBe(76);
    const taps = tapAlong(desk, 4, 0.5);
    expect(gridOf(taps)).toEqual({ countsPerMinute: 120, firstCount: 4 });
    expect(gridOf(withoutTaps(taps, "song"))?.countsPerMinute).toBe(76);
  });

  it("is said when a song is opened, and where its sound speaks against it", () => {
    expect(openedCounts(newDesk(fileGrid))).toBe("known");
    expect(openedCounts(guessed(newDesk(), guess))).toBe("guess");
    // Twice what it sounds like first is among the guesses; 120 is not.
    expect(openedCounts(guessed(newDesk({ ...fileGrid, countsPerMinute: 152.5 }), guess))).toBe("known");
    const against = openedCounts(guessed(newDesk(fileGrid), guess));
    expect(song.ready("low-tide.mp3", 60, against)).toContain("sounds like 76 counts a minute, and not like 120");
    expect(whenceOf(nudged(newDesk(fileGrid), "first-on"), song)).toBe("the file as it is, and a little by hand");
    expect(whenceOf(guessed(newDesk(), guess), song)).toBe("a guess: the likeliest");
  });

  it("what was brought along in an address, where that is a tempo and a place", () => {
    const grid = { countsPerMinute: 95.98, firstCount: 14.203 };
    expect(gridIn(`#${gridText(grid)}`)).toEqual(grid);
    expect(gridOf(newDesk(fileGrid, grid))).toEqual(grid);
    for (const hash of [
      "",
      "#tempo=96",
      "#tempo=-1&first-count=2",
      "#tempo=x&first-count=2",
      "#tempo=1e9&first-count=2",
    ])
      expect(gridIn(hash), hash).toBeUndefined();
  });
});

describe("what taps come to", () => {
  const told = (desk: Desk, stretch: "song" | number = "song") => tapsText(desk, stretch, song);

  it("is told from eight on, with what was passed over, and how far the first count may be off", () => {
    expect(told(newDesk())).toBe("");
    expect(told(tapAlong(newDesk(), 4, 0.5, "song", 3))).toBe("3 taps; 5 more give a figure.");
    const desk = tapped(tapAlong(newDesk(), 4, 0.5), "song", 8.26);
    expect(told(desk)).toMatch(
      /^17 taps: 120 counts a minute, give or take 0\.\d+; the first count give or take \d+ ms\./,
    );
    expect(told(desk)).toContain("Passed over: 1 tap off the beat.");
    expect(shownTaps(desk, "song").filter(({ on }) => !on)).toEqual([{ at: 8.26, on: false }]);
  });

  it("is a tempo alone for a section, and nothing where they follow no beat", () => {
    expect(told(tapAlong(newDesk(), 20, 0.6, 1), 1)).toMatch(/^16 taps: 100 counts a minute, give or take [\d.]+\. /);
    const wild = [4, 4.2, 5.1, 5.3, 6.9, 7.05, 8.6, 8.8, 10.1, 10.9];
    expect(told(wild.reduce((now, at) => tapped(now, "song", at), newDesk()))).toContain("no even beat");
  });
});

describe("a little more by hand", () => {
  const by = (...nudges: readonly Parameters<typeof nudged>[1][]) => gridOf(nudges.reduce(nudged, newDesk(fileGrid)));

  it("moves the first count by 5 ms or a count, and the tempo by 0.05 or to half or twice", () => {
    expect(by("first-on", "first-on", "first-back")).toEqual({ countsPerMinute: 120, firstCount: 10.005 });
    expect(by("first-on", "count-on")).toEqual({ countsPerMinute: 120, firstCount: 10.505 });
    expect(by("count-back", "first-back")).toEqual({ countsPerMinute: 120, firstCount: 9.495 });
    expect(by("tempo-up", "tempo-up", "tempo-down")).toEqual({ countsPerMinute: 120.05, firstCount: 10 });
    expect(by("tempo-up", "half")).toEqual({ countsPerMinute: 60.03, firstCount: 10 });
    expect(by("double", "count-on")).toEqual({ countsPerMinute: 240, firstCount: 10.25 });
  });

  it("puts the first count on the count nearest to a moment, and never before the song", () => {
    expect(gridOf(anchored(newDesk(fileGrid), 12.6))).toEqual({ countsPerMinute: 120, firstCount: 12.5 });
    const early = newDesk({ countsPerMinute: 120, firstCount: 0.2 });
    expect(gridOf(nudged(early, "count-back"))?.firstCount).toBe(0.2);
    expect(gridOf(anchored(newDesk({ countsPerMinute: 60, firstCount: 2.4 }), 0))?.firstCount).toBe(0.4);
    // More taps do not undo it.
    const taps = tapAlong(anchored(tapAlong(newDesk(), 4, 0.5), 6), 12, 0.5);
    expect(gridOf(taps)?.firstCount).toBe(6);
  });
});

describe("the counts in the song", () => {
  it("are the routine's, each section from where it begins, at its own tempo, accents as it has them", () => {
    const { routine } = routineOf(
      "tempo: 120, first-count: 0:10, accents: [5]",
      `  - { name: Shore, ${eight} }\n  - { name: Swell, tempo: 60, at: 0:15, ${eight} }\n`,
    );
    const { beats, landings } = lay(newDesk(fileGrid), routine, 60);
    expect(beats.map(({ at }) => at)).toEqual([
      ...[10, 10.5, 11, 11.5, 12, 12.5, 13, 13.5],
      ...[15, 16, 17, 18, 19, 20, 21, 22],
    ]);
    expect(beats.filter(({ accent }) => accent).map(({ number, at }) => [number, at])).toEqual([
      [5, 12],
      [5, 19],
    ]);
    // Eight counts of half a second end at 14 s.
    expect(landings[1]).toMatchObject({ follows: "wait", by: 1 });
  });

  it("are eights to the end of the song without one", () => {
    const { beats } = lay(newDesk({ countsPerMinute: 60, firstCount: 1 }), undefined, 11);
    expect(beats.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 1, 2]);
  });
});

describe("what the file has to say", () => {
  it("is nothing where it says it already, and only what differs", () => {
    const { routine } = routineOf("tempo: 120, first-count: 0:10", two);
    const desk = newDesk(fileGrid);
    expect(figuresOf(desk, routine)).toEqual({});
    expect(figuresOf(nudged(desk, "tempo-up"), routine)).toEqual({ countsPerMinute: 120.05 });
    expect(figuresOf(nudged(desk, "first-on"), routine)).toEqual({ firstCount: 10.005 });
  });

  it("is a tempo in place of one that nobody had measured, be it the same", () => {
    const { routine } = routineOf("tempo: about 120", two);
    expect(figuresOf(newDesk(fileGrid), routine)).toEqual({ countsPerMinute: 120, firstCount: 10 });
  });

  it("is a place for a section only where the counts alone would not arrive there", () => {
    const { routine } = routineOf("tempo: 120, first-count: 0:10", two);
    const marked = (at: number): Desk => ({ ...newDesk(fileGrid), marks: new Map([[1, at]]) });
    expect(figuresOf(marked(14.06), routine)).toEqual({});
    // Two counts later, marked a little late.
    expect(figuresOf(marked(15.07), routine)).toEqual({ sections: [{ index: 1, at: 15 }] });
  });

  it("is where the counts were tapped after a pause, not where those before it would have gone on", () => {
    const { routine } = routineOf("tempo: 120, first-count: 0:10", two);
    // The counts before it would be at 15.5 s, 0.08 s too early; a hand marks 0.04 s late.
    const heard = marked(newDesk(fileGrid), 1, 15.62);
    expect(figuresOf(heard, routine)).toEqual({ sections: [{ index: 1, at: 15.5 }] });
    const desk = tapAlong(heard, 15.58, 0.5, 1);
    expect(figuresOf(desk, routine)).toEqual({ sections: [{ index: 1, at: 15.58 }] });
    const { landings } = lay(desk, routine, 60);
    expect(landings[1]?.mark).toMatchObject({ at: 15.62, snapped: true });
    expect(landings[1]?.mark?.off).toBeCloseTo(0.04, 6);
    // So it is where she has put it by hand, until she marks it anew.
    const moved = put(desk, 1, 15.6152);
    expect(figuresOf(moved, routine)).toEqual({ sections: [{ index: 1, at: 15.615 }] });
    expect(figuresOf(marked(moved, 1, 15.62), routine)).toEqual({ sections: [{ index: 1, at: 15.58 }] });
    expect(figuresOf(marked(moved, 1), routine)).toEqual({});
    // Taps as near to the counts as a hand is mean these.
    expect(figuresOf(tapAlong(marked(newDesk(fileGrid), 1, 14.03), 14.02, 0.5, 1), routine)).toEqual({});
  });

  it("is no tempo of a section's own that its taps can't tell from the one it has", () => {
    const { routine } = routineOf("tempo: 120, first-count: 0:10", two);
    // Eight taps by turns 20 ms early and late.
    const uneven = (period: number, from = 14) =>
      Array.from({ length: 8 }, (_, tap) => from + tap * period + (tap % 2 === 0 ? 0.02 : -0.02)).reduce(
        (now, at) => tapped(now, 1, at),
        newDesk(fileGrid),
      );
    expect(figuresOf(uneven(0.5), routine)).toEqual({});
    // They say where it begins all the same, at the tempo that it has: in the middle of them.
    const [figures] = figuresOf(marked(uneven(0.505, 15.1), 1, 15.2), routine).sections ?? [];
    expect(figures?.at).toBeCloseTo(15.12, 1);
    expect(figures).not.toHaveProperty("countsPerMinute");
    expect(figuresOf(uneven(0.55), routine).sections?.[0]?.countsPerMinute).toBeCloseTo(60 / 0.55, -1);
  });

  it("takes a place out of the file where the counts arrive by themselves, or corrects it where it shares its line", () => {
    const { routine, text } = routineOf(
      "tempo: 120, first-count: 0:10",
      `  - { name: Shore, ${eight} }\n  - { name: Swell, at: 0:15.0, ${eight} }\n`,
    );
    expect(figuresOf(newDesk(fileGrid), routine)).toEqual({});
    const figures = figuresOf({ ...newDesk(fileGrid), marks: new Map([[1, 14]]) }, routine);
    expect(figures).toEqual({ sections: [{ index: 1, at: 14, needless: ["at"] }] });
    expect(withSong(text, figures)).toMatchObject({ text: text.replace("0:15.0", "0:14.0") });
    // A remark stays.
    const apart = text
      .replace("{ name: Swell, at: 0:15.0, ", "name: Swell\n    at: 0:15.0 # a pause\n    ")
      .replace("] }\n---", "]\n---");
    expect(withSong(apart, figures)).toEqual({
      text: apart.replace("at: 0:15.0 # a pause", "# a pause"),
      lines: [{ line: 8, before: "    at: 0:15.0 # a pause", after: "    # a pause" }],
    });
    const bare = apart.replace(" # a pause", "");
    expect(withSong(bare, figures)).toEqual({
      text: bare.replace("    at: 0:15.0\n", ""),
      lines: [{ line: 8, before: "    at: 0:15.0" }],
    });
  });

  it("takes a tempo out that taps there do not keep, where they keep the one around it", () => {
    const { routine } = routineOf(
      "tempo: 120, first-count: 0:10",
      `  - { name: Shore, ${eight} }\n  - { name: Swell, tempo: 100, ${eight} }\n`,
    );
    const desk = tapAlong(newDesk(fileGrid), 14, 0.5, 1);
    expect(figuresOf(desk, routine)).toEqual({ sections: [{ index: 1, countsPerMinute: 120, needless: ["tempo"] }] });
    expect(figuresOf(tapAlong(newDesk(fileGrid), 14, 0.6, 1), routine)).toEqual({});
  });

  it("leaves the places of other times through as they are, and corrects the one that is marked", () => {
    const { routine, text } = routineOf(
      "tempo: 120, first-count: 0:10",
      `  - { name: Shore, ${eight} }\n  - { name: Swell, at: { 1: 0:14.5, 2: 0:25 }, ${eight} }\n`,
      "times: 2\n",
    );
    const marked = (...marks: readonly [number, number][]) =>
      figuresOf({ ...newDesk(fileGrid), marks: new Map(marks) }, routine).sections;
    expect(marked()).toBeUndefined();
    // The second time through: 14.5 s and two eights later the counts are at 22.5 s; a mark two seconds after that.
    expect(marked([3, 24.5])).toEqual([{ index: 1, at: { 1: 14.5, 2: 24.5 } }]);
    // The first one where the counts arrive; the second stays where the file has it.
    expect(marked([1, 14])).toEqual([{ index: 1, at: { 2: 25 } }]);
    const made = withSong(text, { sections: [{ index: 1, at: { 2: 25 } }] });
    expect("text" in made && made.text).toContain("at: { 2: 0:25.0 }");
  });

  it("moves the first count where the file says it: at its first section's place", () => {
    const { routine, text } = routineOf("tempo: 120", `  - { name: Shore, at: 0:10, ${eight} }\n`);
    const figures = figuresOf(nudged(newDesk(fileGrid), "count-on"), routine);
    expect(figures).toEqual({ sections: [{ index: 0, at: 10.5 }] });
    const made = withSong(text, figures);
    expect(
      "text" in made && readRoutine(made.text, "low-tide", plainLibrary).routine?.music.firstCount?.valueOf(),
    ).toBe(10.5);
  });

  it("is a section's own tempo from taps in it alone: of half time, the one that is halved", () => {
    const { routine } = routineOf(
      "tempo: 120, first-count: 0:10",
      `  - { name: Shore, ${eight} }\n  - { name: Swell, time: half, ${eight} }\n  - { name: Again, same-as: Swell }\n`,
    );
    const desk = tapAlong(newDesk(fileGrid), 20, 60 / 55, 1);
    expect(figuresOf(desk, routine)).toEqual({ sections: [{ index: 1, countsPerMinute: 110 }] });
    // What is the same as it goes along: 8 counts at 55 a minute are 8.73 s.
    const { landings } = lay(desk, routine, 60);
    expect(landings.map(({ begins }) => Math.round(begins * 100) / 100)).toEqual([10, 14, 22.73]);
  });

  it("is to be read by whoever copies it by hand", () => {
    const { routine } = routineOf("tempo: 120, first-count: 0:10", two);
    const figures = { countsPerMinute: 96.5, firstCount: 14.203, sections: [{ index: 1, at: { 1: 20, 2: 75.5 } }] };
    expect(plainLines(figures, routine)).toBe(
      "music:\n  tempo: 96.5\n  first-count: 0:14.203\nsections:\n  - name: Swell\n    at: { 1: 0:20.0, 2: 1:15.5 }",
    );
  });
});

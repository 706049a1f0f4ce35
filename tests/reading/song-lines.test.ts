import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type SongFigures, withSong } from "../../src/reading/song-lines.js";
import { runs } from "../runs.js";

const file = `---
title: Low Tide     # a title
music:
  tempo: about 76   # by ear
  phrase: 8
sections:
  - name: Harbour wall
    counts:
      - 1-8: Walk
  - { name: "Tag", at: "0:40.0", counts: [{ 1-8: hold }] } # the end
---
Prose with tempo: 3.
`;

function written(text: string, figures: SongFigures) {
  const made = withSong(text, figures);
  if ("missing" in made) throw new Error(made.missing);
  return made;
}

describe("a song's figures in a routine's file", () => {
  it("takes the place of what stands there, or a line under what it belongs to, and leaves all else", () => {
    const { text, lines } = written(file, {
      countsPerMinute: 75.999,
      firstCount: 14.2,
      sections: [
        { index: 0, countsPerMinute: 80 },
        { index: 1, at: 41.255 },
      ],
    });
    expect(text).toBe(
      file
        .replace("about 76 ", "76 ")
        .replace("# by ear\n", "# by ear\n  first-count: 0:14.2\n")
        .replace("wall\n", "wall\n    tempo: 80\n")
        .replace("0:40.0", "0:41.255"),
    );
    expect(lines).toEqual([
      { line: 4, before: "  tempo: about 76   # by ear", after: "  tempo: 76   # by ear" },
      { line: 5, after: "  first-count: 0:14.2" },
      { line: 9, after: "    tempo: 80" },
      {
        line: 12,
        before: '  - { name: "Tag", at: "0:40.0", counts: [{ 1-8: hold }] } # the end',
        after: '  - { name: "Tag", at: "0:41.255", counts: [{ 1-8: hold }] } # the end',
      },
    ]);
  });

  it("says nothing to write where the file says it already", () => {
    expect(written(file.replace("about ", ""), { countsPerMinute: 76 }).lines).toEqual([]);
  });

  // Song and count are as the file has them: 184 beats, two to a count, are 92 counts; 29 bars of three are 87.
  it.each([
    ["{ beats-per-minute: 184, beats-per-count: 2 }", "{ beats-per-minute: 183, beats-per-count: 2 }", 91.5],
    ["{ bars-per-minute: about 29, beats-per-bar: 3 }", "{ bars-per-minute: 29.5, beats-per-bar: 3 }", 88.5],
    ["'about 92'", "'91.5'", 91.5],
  ])("keeps the form of a tempo: %s", (before, after, countsPerMinute) => {
    const text = file.replace("about 76", before);
    expect(written(text, { countsPerMinute }).text).toBe(file.replace("about 76", after));
  });

  it("keeps a file of another system and one line for all", () => {
    const dos = `\ufeff${file.replaceAll("\n", "\r\n")}`;
    const { text } = written(dos, { firstCount: 0.5, sections: [{ index: 0, at: { 1: 58, 2: 104.25 } }] });
    expect(text).toBe(
      dos
        .replace("# by ear\r\n", "# by ear\r\n  first-count: 0:00.5\r\n")
        .replace("wall\r\n", "wall\r\n    at: { 1: 0:58.0, 2: 1:44.25 }\r\n"),
    );
    const short = "---\nmusic: { tempo: 92 }\nsections: []\n---\n";
    expect(written(short, { firstCount: 61 }).text).toBe(short.replace("92", "92, first-count: 1:01.0"));
  });

  it("goes under what stands on lines of its own, and keeps either end of a line", () => {
    const music = "music:\n  tempo:\n    bars-per-minute: 29 # a slow one\n    beats-per-bar: 3 # waltz\n";
    const waltz = file.replace("music:\n  tempo: about 76   # by ear\n", music);
    const { text } = written(waltz, { countsPerMinute: 93.73, firstCount: 14.2 });
    // A third of 93.73: a hundredth of a bar would be three hundredths of a count.
    expect(text).toBe(waltz.replace("29 #", "31.243 #").replace("# waltz\n", "# waltz\n  first-count: 0:14.2\n"));
    const folded = file.replace("about 76   # by ear", ">-\n    76");
    expect(written(folded, { countsPerMinute: 80, firstCount: 14.2 }).text).toBe(
      folded.replace(">-\n    76", "80\n  first-count: 0:14.2"),
    );
    const times = file
      .replace('at: "0:40.0",', "")
      .replace("wall\n", "wall\n    at:\n      1: 0:20 # one\n      2: 0:50 # two\n");
    expect(written(times, { sections: [{ index: 0, at: { 2: 51, 3: 80.5 } }] }).text).toBe(
      times.replace("1: 0:20 # one\n", "# one\n").replace("0:50 # two\n", "0:51.0 # two\n      3: 1:20.5\n"),
    );
    const mixed = file.replace("# by ear\n", "# by ear\r\n");
    expect(written(mixed, { firstCount: 14.2 }).text).toBe(
      mixed.replace("# by ear\r\n", "# by ear\r\n  first-count: 0:14.2\r\n"),
    );
  });

  it("says what it can't find", () => {
    expect(withSong("# no front matter", { firstCount: 1 })).toEqual({ missing: "front-matter" });
    expect(withSong("---\ntitle: x\n---\n", { firstCount: 1 })).toEqual({ missing: "music" });
    expect(withSong(file, { sections: [{ index: 2, at: 1 }] })).toEqual({ missing: "section" });
  });

  it("writes the same twice, and takes every line but those it names from the file", () => {
    const figures = fc.record(
      {
        countsPerMinute: fc.double({ min: 10, max: 400, noNaN: true }),
        firstCount: fc.double({ min: 0, max: 4000, noNaN: true }),
        sections: fc.uniqueArray(fc.record({ index: fc.nat(1), at: fc.double({ min: 0, max: 4000, noNaN: true }) }), {
          selector: ({ index }) => index,
        }),
      },
      { requiredKeys: [] },
    );
    fc.assert(
      fc.property(figures, fc.boolean(), (figures, dos) => {
        const text = dos ? file.replaceAll("\n", "\r\n") : file;
        const once = written(text, figures);
        expect(written(once.text, figures)).toEqual({ text: once.text, lines: [] });
        const undone = once.text.split("\n").flatMap((line, index) => {
          const change = once.lines.find((one) => one.line === index + 1);
          if (change === undefined) return [line];
          return change.before === undefined ? [] : [change.before + (dos ? "\r" : "")];
        });
        expect(undone.join("\n")).toBe(text);
      }),
      { numRuns: runs(100) },
    );
  });
});

import fc from "fast-check";
import Fraction from "fraction.js";
import { describe, expect, it } from "vitest";
import { handoutPrint } from "../../../src/publishing/handout/handout.js";
import { margin } from "../../../src/publishing/paper/page.js";
import { dance } from "../../../src/routine/dance.js";
import { mirror } from "../../../src/routine/mirror.js";
import type { Library, Routine, Version } from "../../../src/routine/routine.js";
import type { WrittenMove, WrittenSection } from "../../../src/routine/written.js";
import type { Mark, Print, StructureElement } from "../../../src/typesetting/print.js";
import { papers } from "../../../src/typesetting/print.js";
import { at, danced, library, move, phrase, section, written } from "../../fixtures/written.js";
import { runs, seed } from "../../runs.js";
import { anySample } from "./random-routine.js";

/* A handout as it is laid out, before it is written: how many sides it takes, how small its type is, what lies under its words. */

const words =
  "step left right foot over the shoulder melt down to floor like rain half circle breathe palm heel turn".split(" ");
const saying = (from: number, letters: number) => {
  let text = "";
  for (let index = from; text.length < letters; index++)
    text += `${text === "" ? "" : " "}${words[(index * 7) % words.length]}`;
  return text.slice(0, letters).trim();
};

/** What teachers write: moves of one to four counts, cues of 12 to 64 letters and of 40 at most on average. */
const aMove = fc.record({
  counts: fc.constantFrom(1, 1, 1, 2, 2, 4),
  letters: fc.integer({ min: 12, max: 64 }),
  from: fc.nat(99),
  hit: fc.boolean(),
  option: fc.constantFrom(...Array.from({ length: 10 }, () => null), "1", "3"),
  risk: fc.constantFrom(...Array.from({ length: 14 }, () => null), "spin" as const, "jump" as const),
});

const dense = fc
  .record({
    moves: fc.array(aMove, { minLength: 96, maxLength: 96 }),
    // About 250 to 450 words.
    notes: fc.integer({ min: 1500, max: 2700 }),
    paper: fc.constantFrom("A4" as const, "Letter" as const),
  })
  .map(({ moves, notes, paper }) => {
    const mean = moves.reduce((sum, { letters }) => sum + letters, 0) / moves.length;
    const scale = Math.min(1, 40 / mean);
    const phrases: WrittenMove[][] = [[]];
    let at = 1;
    for (const { counts, letters, from, hit, option, risk } of moves) {
      const length = Math.min(counts, 9 - at);
      const text = saying(from, Math.floor(letters * scale));
      const other =
        option === null ? [] : [{ place: `o${at}`, version: option, moves: [move(undefined, saying(from + 3, 30))] }];
      const on = length > 1 ? `${at}-${at + length - 1}` : `${at}`;
      phrases.at(-1)?.push(move(on, text, { hit, options: other, ...(risk === null ? {} : { risks: [risk] }) }));
      at += length;
      if (at > 8) {
        if (phrases.length === 12) break;
        phrases.push([]);
        at = 1;
      }
    }
    const sections = [0, 1, 2, 3, 4].flatMap((index): WrittenSection[] => {
      const own = phrases.slice(index * 3, index * 3 + 3).filter((list) => list.length > 0);
      return own.length === 0
        ? []
        : [
            section(
              `Part ${index + 1}`,
              own.map((list) => phrase(list)),
              { words: "down by the wall" },
            ),
          ];
    });
    const given = written({
      sections,
      levels: ["1", "2", "3"],
      taught: "2",
      music: { tempo: new Fraction(92), accents: [4, 8], firstCount: new Fraction(14) },
      prose: { introduction: saying(5, notes), notes: [], after: "" },
    });
    const set: Library = { ...library, paper, cautions: saying(2, 160) };
    const { routine, problems } = dance(given, set);
    if (routine === undefined) throw new Error(problems.map(({ message }) => message).join("\n"));
    return { routine, library: set };
  });

const versionOf = ({ versions, taught }: Routine): Version => {
  const found = versions.find(({ id }) => id === taught);
  if (found === undefined) throw new Error("A routine has the version that is taught.");
  return found;
};

const marksIn = (one: StructureElement | Mark): readonly Mark[] =>
  "tag" in one ? one.content.flatMap(marksIn) : [one];
const marksOf = ({ elements, decoration }: Print): readonly Mark[] => [...decoration, ...elements.flatMap(marksIn)];

/** What is read, in order. */
const wordsOf = (content: readonly (StructureElement | Mark)[]): string =>
  content
    .flatMap(marksIn)
    .flatMap((mark) =>
      "line" in mark
        ? [
            mark.line
              .pieces()
              .map(({ text }) => text)
              .join(""),
          ]
        : [],
    )
    .join(" ");

/** Every size of type on a sheet, that in pictures too. */
function sizesOf(print: Print): readonly number[] {
  return marksOf(print).flatMap((mark) =>
    "line" in mark ? [mark.line.size] : mark.shapes.flatMap((shape) => (shape.kind === "text" ? [shape.size] : [])),
  );
}

interface Box {
  readonly style: string;
  readonly page: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly text: string;
}

/** Words, from the top of a capital to the foot of a g. */
function linesOf(print: Print): readonly Box[] {
  return marksOf(print).flatMap((mark): readonly Box[] => {
    if (!("line" in mark)) return [];
    const { line, page, x, y } = mark;
    const pieces = line.pieces();
    const text = pieces.map((piece) => piece.text).join("");
    const style = [...new Set(pieces.map(({ face }) => face.key.replace(/.*-(\d+-)/, "$1")))].join();
    const [top, bottom] = [y + line.size * 0.22, y + line.size * 1.16];
    return [{ style, page, left: x, right: x + line.width, top, bottom, text }];
  });
}

/** How far down a mark reaches. */
function footOf(mark: Mark): number {
  if ("line" in mark) return mark.y + mark.line.size * 1.16;
  const feet = mark.shapes.map((shape) => {
    if (shape.kind === "path") return Math.max(...shape.points.map(([, y]) => y));
    return shape.at[1] + (shape.kind === "box" ? shape.height : 0);
  });
  return mark.y + Math.max(...feet);
}

function tintsOf(print: Print): readonly Box[] {
  return marksOf(print).flatMap((mark): readonly Box[] =>
    "line" in mark
      ? []
      : mark.shapes.flatMap((shape): readonly Box[] => {
          if (shape.kind !== "box" || shape.fill !== "tint") return [];
          const [left, top] = [mark.x + shape.at[0], mark.y + shape.at[1]];
          return [
            { page: mark.page, left, top, right: left + shape.width, bottom: top + shape.height, text: "", style: "" },
          ];
        }),
  );
}

const slack = 0.6;
const meet = (one: Box, other: Box): boolean =>
  one.page === other.page &&
  one.left + slack < other.right &&
  other.left + slack < one.right &&
  one.top + slack < other.bottom &&
  other.top + slack < one.bottom;
const holds = (outer: Box, inner: Box): boolean =>
  outer.left <= inner.left + slack &&
  inner.right <= outer.right + slack &&
  outer.top <= inner.top + slack &&
  inner.bottom <= outer.bottom + slack;

describe("a handout", () => {
  it("of 96 counts whose cues have 40 letters on average is two sides, with three levels, cautions and half a page to a page of notes", () => {
    const pages = fc.sample(dense, { numRuns: runs(24), seed }).map(({ routine, library: set }) => {
      return `${set.paper} ${handoutPrint(routine, versionOf(routine), set, "sheet").pages}`;
    });
    expect(new Set(pages)).toEqual(new Set(["A4 2", "Letter 2"]));
  });

  it("gives up the pictures for its second side, then the harder level, and nothing where that is not enough", () => {
    const other = (version: string, text: string) => ({
      place: version,
      version,
      moves: [move("1", text), move("2-4", text)],
    });
    const eight = phrase([
      move("1-4", saying(1, 40), { options: [other("1", saying(2, 30)), other("3", saying(4, 60))] }),
      move("5-8", saying(3, 40)),
    ]);
    const sheetOf = (letters: number) => {
      const routine = danced({
        levels: ["1", "2", "3"],
        taught: "2",
        sections: [
          section(
            "Verse",
            Array.from({ length: 14 }, () => eight),
          ),
        ],
        prose: { introduction: saying(5, letters), notes: [], after: "" },
      });
      const print = handoutPrint(routine, versionOf(routine), library, "sheet");
      const text = wordsOf(print.elements);
      const has = ["(Level 1):", "(Level 3):", "Practice speeds"].filter((part) => text.includes(part));
      return [print.pages, ...has];
    };
    // Of ever more words beside 112 counts.
    expect(sheetOf(5000)).toEqual([2, "(Level 1):", "(Level 3):", "Practice speeds"]);
    expect(sheetOf(7900)).toEqual([2, "(Level 1):", "(Level 3):"]);
    expect(sheetOf(8500)).toEqual([2, "(Level 1):", "Practice speeds"]);
    expect(sheetOf(14000)).toEqual([3, "(Level 1):", "(Level 3):", "Practice speeds"]);
  });

  it("has no type under 9 points, no word half on a grey ground and no page but the last under two thirds full, whatever the routine is", () => {
    for (const { routine, library: set } of fc.sample(anySample, { numRuns: runs(24), seed }))
      for (const dance of [routine, mirror(routine)]) {
        const print = handoutPrint(dance, versionOf(dance), set, "sheet");
        expect(Math.min(...sizesOf(print))).toBeGreaterThanOrEqual(9);
        const [lines, tints] = [linesOf(print), tintsOf(print)];
        const halfway = tints.flatMap((tint) =>
          lines.filter((line) => meet(tint, line) && !holds(tint, line)).map(({ text }) => text),
        );
        expect(halfway).toEqual([]);
        // Of each page but the last, two thirds are filled at least.
        const [, height] = papers[set.paper];
        const [top, bottom] = [margin.top, height - margin.bottom];
        const ends = Array.from({ length: print.pages - 1 }, (_, page) => {
          const own = marksOf(print).filter((mark) => mark.page === page);
          return (Math.max(...own.map(footOf).filter((foot) => foot <= bottom + 2)) - top) / (bottom - top);
        });
        expect(ends.filter((end) => end < 2 / 3)).toEqual([]);
        // On the grey stand counts, which are bold, and nothing of a cue.
        const onGrey = lines.filter((line) => tints.some((tint) => meet(tint, line)));
        expect(onGrey.filter(({ style }) => style !== "700-normal").map(({ text }) => text)).toEqual([]);
      }
  });

  it("for the other side has a black bar with the word along the top edge of every page", () => {
    const long = Array.from({ length: 30 }, (_, index) =>
      section(`Part ${index}`, [phrase([move("1-8", "Step right")])]),
    );
    for (const paper of ["A4", "Letter"] as const) {
      const routine = mirror(danced({ sections: long }));
      const print = handoutPrint(routine, versionOf(routine), { ...library, paper }, "sheet");
      expect(print.pages).toBeGreaterThan(1);
      for (let page = 0; page < print.pages; page++) {
        const own = marksOf(print).filter((mark) => mark.page === page);
        const bars = own.flatMap((mark) => ("line" in mark || mark.x !== 0 || mark.y !== 0 ? [] : mark.shapes));
        expect(bars).toEqual([
          expect.objectContaining({ kind: "box", at: [0, 0], width: papers[paper][0], fill: "ink" }),
        ]);
        const large = own.flatMap((mark) => ("line" in mark && mark.y < 44 && mark.line.size > 20 ? [mark.line] : []));
        expect(large.flatMap((line) => line.pieces()).map(({ text, tone }) => [text, tone])).toEqual([
          ["Mirrored", "paper"],
        ]);
      }
      const plain = danced({ sections: long });
      const black = marksOf(handoutPrint(plain, versionOf(plain), library, "sheet")).filter(
        ({ x, y }) => x === 0 && y === 0,
      );
      expect(black).toEqual([]);
    }
  });

  it("names the section before every run of its rows, on each page and under other numbers, and who dances a row", () => {
    const eight = phrase([move("1-8", "Walk")]);
    const six = phrase([move("1-3", "Turn"), move("4-9", "Walk back")], { length: 9 });
    const routine = danced({
      groups: ["Ebb", "Flood"].map((name) => ({ place: name, name, mirrored: false })),
      sections: [
        section("Harbour wall", [...Array.from({ length: 40 }, () => eight), six, eight], {
          parts: [{ place: "part", group: "Flood", counts: [...Array.from({ length: 40 }, () => eight), six, eight] }],
        }),
      ],
    });
    const print = handoutPrint(routine, versionOf(routine), library, "sheet");
    const tables = print.elements.filter(
      ({ tag, content }) => tag === "Table" && wordsOf(content).includes("Harbour wall"),
    );
    // A table a page at least, and one more for the nine counts and for the eight behind them.
    expect(tables.length).toBeGreaterThanOrEqual(4);
    for (const { content } of tables) {
      const rows = content.flatMap((row) => ("tag" in row ? [row] : []));
      const [, first, ...others] = rows;
      const heads = (row: StructureElement | undefined) =>
        (row?.content ?? []).filter(
          (cell): cell is StructureElement => "tag" in cell && cell.tag === "TH" && cell.scope === "Row",
        );
      expect(wordsOf(heads(first).slice(0, 1))).toMatch(/^1 Harbour wall/);
      // It holds for all rows below.
      expect(heads(first)[0]?.rows ?? 1).toBe(others.length + 1);
      for (const row of [first, ...others]) expect(wordsOf(heads(row).slice(-1))).toMatch(/Ebb|Flood/);
    }
  });

  it("says how it runs where that is not what the sheet shows, and where the music is waited for beside the section", () => {
    const eight = phrase([move("1-8", "Quarter turn", { turn: 2 })]);
    const text = (routine: Routine) => wordsOf(handoutPrint(routine, versionOf(routine), library, "sheet").elements);
    const walls = { walls: 4, times: 4, sections: [section("Verse", [eight])] };
    expect(text(danced(walls))).not.toContain("How it runs");
    expect(text(danced({ ...walls, restarts: [{ place: "r", wall: 3, after: 4 }] }))).toContain(
      "How it runs • Walls 1–2 Verse",
    );
    const twice = [
      section("Verse", [eight]),
      section("Bridge", [eight]),
      section("Verse again", undefined, { sameAs: "Verse" }),
    ];
    expect(text(danced({ sections: twice }))).not.toContain("How it runs");
    // How often it is danced in a row stands beside the section.
    const repeated = section("Verse", [eight], { repeat: 2 });
    expect(text(danced({ sections: [repeated] }))).toContain("1 Verse 2 × in a row");
    expect(text(danced({ sections: [repeated] }))).not.toContain("How it runs");
    expect(
      text(danced({ sections: [{ ...repeated, mirrored: "alternate" }, section("Bridge", [eight])] })),
    ).not.toContain("How it runs");
    const round = section("Verse", [eight], { repeat: 4, mirrored: "alternate" });
    expect(text(danced({ sections: [round] }))).toContain("How it runs Verse · Verse (other side) · Verse");
    const waits = [section("Verse", [eight]), section("Bridge", [eight], { at: at("20") })];
    const waiting = text(danced({ music: { tempo: new Fraction(60), firstCount: new Fraction(10) }, sections: waits }));
    expect(waiting).toContain("1 Verse then wait 2.0 s");
    expect(waiting).not.toContain("How it runs");
  });

  it("says of counts that nobody wrote that they are a hold, once for all that follow each other", () => {
    const gaps = danced({ sections: [section("Verse", [phrase([move("2", "Clap"), move("5-6", "Sway")])])] });
    const text = wordsOf(handoutPrint(gaps, versionOf(gaps), library, "sheet").elements);
    expect(text).toContain("1 hold 2 Clap 3–4 hold 5–6 Sway 7–8 hold");
  });

  it("has what the next easier and the next harder level dance, and of nobody else", () => {
    const ways = { 1: "Clap", 3: "Leap", 4: "Fly" };
    const options = Object.entries(ways).map(([version, text]) => ({
      place: version,
      version,
      moves: [move(undefined, text)],
    }));
    const routine = danced({
      levels: ["1", "2", "3", "4"],
      taught: "2",
      adaptations: [{ place: "seated", name: "seated", from: "1" }],
      sections: [
        section("Verse", [
          phrase([move("1-8", "Reach", { options })]),
          phrase([move("1-8", "Sway", { options: options.slice(1, 2) })]),
        ]),
      ],
    });
    const said = routine.versions.map((version) => {
      const text = wordsOf(handoutPrint(routine, version, library, "sheet").elements).replaceAll(/1–8 /g, "");
      return [version.id, ...(text.match(/(?:Easier|Harder) \(Level \d\): [A-Z]\w+/g) ?? [])];
    });
    // Level 4 dances level 3's way in the second phrase, so that there neither has anything to say to the other.
    expect(said).toEqual([
      ["1", "Harder (Level 2): Reach"],
      ["2", "Easier (Level 1): Clap", "Harder (Level 3): Leap", "Harder (Level 3): Leap"],
      ["3", "Easier (Level 2): Reach", "Harder (Level 4): Fly", "Easier (Level 2): Sway"],
      ["4", "Easier (Level 3): Leap"],
      ["seated"],
    ]);
    // Under a row the easier way comes first, wherever its counts are.
    const under = (version: string, moves: readonly WrittenMove[]) => [{ place: version, version, moves }];
    const row = danced({
      levels: ["1", "2", "3"],
      taught: "2",
      sections: [
        section("Verse", [
          phrase([
            move("1-4", "Reach", { options: under("3", [move("1", "Leap"), move("2-4", "Land")]) }),
            move("5-8", "Sway", { options: under("1", [move("5", "Clap"), move("6-8", "Wait")]) }),
          ]),
        ]),
      ],
    });
    expect(wordsOf(handoutPrint(row, versionOf(row), library, "sheet").elements)).toContain(
      "Easier (Level 1): 5 Clap; 6–8 Wait · Harder (Level 3): 1 Leap; 2–4 Land",
    );
  });
});

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { handoutPrint } from "../../../src/publishing/handout/handout.js";
import { readContent } from "../../../src/reading/read-content.js";
import type { Library, Routine, Version } from "../../../src/routine/routine.js";
import { writePrint } from "../../../src/typesetting/pdf/write.js";
import { type Mark, type Print, papers, type StructureElement } from "../../../src/typesetting/print.js";
import { risks } from "../../../src/wording/en/risks.js";
import { readPages, type TextBox } from "../../fixtures/read-pdf.js";
import { danced, move, phrase, section } from "../../fixtures/written.js";
import { runs } from "../../runs.js";
import { anySample } from "./random-routine.js";

const { routines, library } = await readContent("content");

interface Card {
  readonly name: string;
  readonly routine: Routine;
  readonly version: Version;
  readonly print: Print;
}

function cardOf(name: string, routine: Routine, version: Version, set: Library): Card {
  return { name: `${name}, ${set.paper}`, routine, version, print: handoutPrint(routine, version, set, "card") };
}

const demo = (["A4", "Letter"] as const).flatMap((paper) =>
  routines.flatMap((routine) =>
    routine.versions.map((version) => cardOf(`${routine.slug} ${version.id}`, routine, version, { ...library, paper })),
  ),
);
const generated = fc
  .sample(anySample, { numRuns: runs(160), seed: 20261127 })
  .flatMap(({ routine, library: set }, index) =>
    routine.versions.map((version) => cardOf(`sample ${index}`, routine, version, set)),
  );
const all = [...demo, ...generated];

const inside = (element: StructureElement): readonly StructureElement[] => [
  element,
  ...element.content.flatMap((one) => ("tag" in one ? inside(one) : [])),
];
const everyElement = ({ elements }: Print): readonly StructureElement[] => elements.flatMap(inside);
const marksOf = (element: StructureElement): readonly Mark[] =>
  inside(element).flatMap(({ content }) => content.flatMap((one) => ("tag" in one ? [] : [one])));
const textOf = (mark: Mark): string =>
  "line" in mark
    ? mark.line
        .pieces()
        .map(({ text }) => text)
        .join("")
    : "";
const textIn = (element: StructureElement): string => marksOf(element).map(textOf).join(" ");
const words = (element: StructureElement): string => textIn(element).replace(/\s+/g, " ").trim();

describe.each([
  ["the demo library", demo],
  ["generated routines", generated],
] as const)("the cards of %s", (_, cards) => {
  test("are set in 12 points or more on the upper half of a sheet, and seen again on its lower one", () => {
    for (const { name, print } of cards) {
      const lines = [...print.elements.flatMap(marksOf), ...print.decoration].filter((mark) => "line" in mark);
      expect(Math.min(...lines.map((mark) => ("line" in mark ? mark.line.size : 0))), name).toBeGreaterThanOrEqual(12);
      const half = papers[print.paper][1] / 2;
      expect(lines.length, name).toBeGreaterThan(5);
      expect(Math.max(...lines.map(({ y }) => y)), name).toBeLessThan(half);
      expect(print.again?.down, name).toBe(half);
    }
  });

  test("stay on their half, in the columns of their counts, and no two texts meet", () => {
    for (const { name, print } of cards) {
      const [width, height] = papers[print.paper];
      const boxes = print.elements.flatMap(marksOf).flatMap((mark) => {
        if (!("line" in mark)) return [];
        const { size } = mark.line;
        const top = mark.y + size * 0.2;
        return [{ page: mark.page, left: mark.x, right: mark.x + mark.line.width, top, bottom: top + size * 0.9 }];
      });
      for (const box of boxes) {
        expect(box.left, name).toBeGreaterThanOrEqual(17);
        expect(box.right, name).toBeLessThanOrEqual(width - 17);
        expect(box.bottom, name).toBeLessThanOrEqual(height / 2 - 12);
      }
      const meets = boxes.some((one, index) =>
        boxes
          .slice(index + 1)
          .some(
            (other) =>
              one.page === other.page &&
              one.left < other.right - 0.1 &&
              other.left < one.right - 0.1 &&
              one.top < other.bottom - 0.1 &&
              other.top < one.bottom - 0.1,
          ),
      );
      expect(meets, name).toBe(false);
    }
  });

  test("keep every count under its own number, at the same place all over the card", () => {
    for (const { name, print } of cards) {
      const tables = everyElement(print).filter(({ tag }) => tag === "Table");
      expect(tables.length, name).toBe(print.pages);
      for (const table of tables) {
        const rows = table.content.flatMap((row) => ("tag" in row ? [row] : []));
        const [heads, ...others] = rows;
        const columnsOf = (row: StructureElement | undefined) =>
          (row?.content ?? []).flatMap((cell) => ("tag" in cell ? [cell] : []));
        const first = columnsOf(heads);
        const names = first[0]?.tag === "TD" ? 1 : 0;
        // What stands under a number begins where the others under it begin, up to the width of a disc.
        const starts = first.map((cell) => Math.min(...marksOf(cell).map(({ x }) => x)));
        for (const row of others) {
          let column = 0;
          for (const cell of columnsOf(row)) {
            const left = Math.min(...marksOf(cell).flatMap((mark) => ("line" in mark ? [mark.x] : [])));
            if (cell.tag === "TD" && column >= names && left < Number.POSITIVE_INFINITY)
              expect(Math.abs(left - (starts[column] ?? 0)), `${name}: ${words(cell)}`).toBeLessThan(15);
            column += cell.columns ?? 1;
          }
          expect(column, name).toBe(first.length);
        }
      }
    }
  });

  test("break no word that a line of the card can hold", () => {
    for (const { name, print } of cards)
      for (const mark of print.elements.flatMap(marksOf))
        if ("line" in mark)
          expect(mark.line.goesOn && textOf(mark).length < 30, `${name}: ${textOf(mark)}`).toBe(false);
  });

  test("have two sides at the most up to 96 counts", () => {
    const over = cards.filter(({ routine, print }) => routine.counts / routine.times <= 96 && print.pages > 2);
    expect(over.map(({ name }) => name)).toEqual([]);
  });
});

test("a sheet of paper has all of a card in its upper half, and once more in its lower one", async () => {
  const { name, print } = demo.find(({ name }) => name.startsWith("breakwater-letters")) ?? {
    name: "",
    print: undefined,
  };
  if (print === undefined) throw new Error("The demo library has no such card.");
  const half = papers[print.paper][1] / 2;
  for (const { boxes } of await readPages(await writePrint(print))) {
    const places = (all: readonly TextBox[], down: number) =>
      all.map(({ text, left, top }) => `${text} ${left.toFixed(1)} ${Math.round(top - down)}`).sort();
    const [upper, lower] = [boxes.filter(({ top }) => top < half), boxes.filter(({ top }) => top >= half)];
    expect(upper.length, name).toBeGreaterThan(20);
    expect(places(lower, half), name).toEqual(places(upper, 0));
  }
});

test("no caution is left out at the top", () => {
  for (const { name, version, print } of all) {
    const [head] = everyElement(print).filter(({ content }) => words({ tag: "P", content }).startsWith("Take care:"));
    expect(head !== undefined, name).toBe(version.cautions.length > 0);
    for (const risk of version.cautions) expect(head && words(head), name).toContain(risks.label(risk));
  }
});

test("beside each risky move stands the sign, which says what it is to those who listen", () => {
  const routine = danced({
    sections: [
      section("Verse", [
        phrase([
          move("1-2", "Leap left", { risks: ["jump"] }),
          move("3", "Walk"),
          move("4", "Go", { risks: ["neck"] }),
        ]),
      ]),
    ],
  });
  const [version] = routine.versions;
  if (version === undefined) throw new Error("A routine has a version.");
  const { print } = cardOf("Verse", routine, version, library);
  const cells = everyElement(print).filter(({ tag, content }) => tag === "TD" && content.length > 0);
  const told = cells.map((cell) => [words(cell), ...inside(cell).flatMap(({ alt }) => alt ?? [])]);
  expect(told).toEqual([["Leap left", "take care, jump"], ["Walk"], ["Go", "take care, the neck"]]);
});

test("what is danced as a section before it is one row that says so", () => {
  const textsOf = (slug: string, id: string) => {
    const found = demo.find(({ name }) => name === `${slug} ${id}, A4`);
    if (found === undefined) throw new Error(`There is no ${slug}.`);
    return everyElement(found.print)
      .filter(({ tag }) => tag === "H2")
      .map(words);
  };
  /* As the files say: `same-as` with `mirrored`, and `repeat`. */
  expect(textsOf("candle-end", "2")).toEqual([
    "Strike",
    "Flame",
    "Melt",
    "Pool",
    "Relight",
    "= Flame, other side",
    "Snuffed",
  ]);
  expect(textsOf("twelve-iron-steps", "1").slice(0, 4)).toEqual([
    "Palms",
    "Iron walk × 2",
    "Hammer",
    "= Hammer, other side",
  ]);
  const candle = demo.find(({ name }) => name === "candle-end 2, A4");
  const again =
    candle && everyElement(candle.print).find((one) => one.tag === "TH" && words(one).startsWith("= Flame"));
  // What Flame asks to take care of is said on the row that stands for it.
  expect(again && words(again)).toBe("= Flame, other side spin");
});

test("the counts of a phrase that takes two rows stand under those of its first half, wherever it begins", () => {
  const steps = demo.find(({ name }) => name === "twelve-iron-steps 1, A4");
  const rows = steps === undefined ? [] : everyElement(steps.print).filter(({ tag }) => tag === "TR");
  const labelled = rows.flatMap(({ content }) => {
    let column = 0;
    return content.flatMap((cell) => {
      if (!("tag" in cell)) return [];
      const at = column;
      column += cell.columns ?? 1;
      const [, number] = cell.tag === "TD" ? (/^(\d+)\s/.exec(words(cell)) ?? []) : [];
      return number === undefined ? [] : [{ number: Number(number), at }];
    });
  });
  // "Out of the yard" has a phrase from 12 on.
  expect(labelled.filter(({ number }) => number === 12).length).toBeGreaterThan(3);
  for (const { number, at } of labelled) expect(at).toBe((number - 1) % 6);
});

test("a section on the other side says so, though its words name no side", () => {
  const counts = [phrase([move("1-4", "Step and turn", { turn: 2 }), move("5-8", "Walk")])];
  const routine = danced({ sections: [section("Verse", counts, { repeat: 3, mirrored: "alternate" })] });
  const [version] = routine.versions;
  if (version === undefined) throw new Error("A routine has a version.");
  const { print } = cardOf("Verse", routine, version, library);
  const names = everyElement(print).filter(({ tag }) => tag === "H2");
  expect(names.map(words)).toEqual(["Verse", "= Verse, other side", "= Verse"]);
});

test("a move of several counts is called with its feet, where it leads and what is done next; what began above goes on", () => {
  for (const paper of ["A4", "Letter"]) {
    const card = demo.find(({ name }) => name === `breakwater-letters 2, ${paper}`);
    const elements = card ? everyElement(card.print) : [];
    // Six counts are counted in; "6 in" would be six of something.
    expect(elements.filter(({ tag }) => tag === "P").map(words)[0]).toContain("88 a minute · count in 6");
    const cells = elements.filter(({ tag }) => tag === "TD").map(words);
    expect(cells.some((cell) => /^Walk .*right, left, right$/.test(cell))).toBe(true);
    for (const call of ["Rock forward left, recover right", "Roll left onto back", "goes on"])
      expect(cells).toContain(call);
    // The knees have the caution.
    expect(cells.some((cell) => /^Push off left hand, over shin to (both )?knees/.test(cell))).toBe(true);
  }
});

test("a line dance of thirty-two counts needs not be turned over", () => {
  for (const name of ["fourpenny-gate 1, A4", "paper-boats 1, A4", "paper-boats 1, Letter"])
    expect(demo.find((card) => card.name === name)?.print.pages).toBe(1);
});

test("what the author says comes before what rules would make of the cue", () => {
  const gate = demo.find(({ name }) => name === "fourpenny-gate 1, A4");
  const cells =
    gate === undefined
      ? []
      : everyElement(gate.print)
          .filter(({ tag }) => tag === "TD")
          .map(words);
  expect(cells).toContain("back & close");
  expect(cells).toContain("Vine right");
});

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { drawHandout, type Variant } from "../../../src/publishing/handout/handout.js";
import { margin } from "../../../src/publishing/paper/page.js";
import { mirror } from "../../../src/routine/mirror.js";
import type { Routine } from "../../../src/routine/routine.js";
import { movesIn, sheetSections } from "../../../src/routine/sheet.js";
import { firstOutOfOrder, type ReadPage, readPages, spaced, type TextBox } from "../../fixtures/read-pdf.js";
import { runs } from "../../runs.js";
import { anySample } from "./random-routine.js";

/* Cards are measured in `card.test.ts`, as they are laid out. */
const kinds = ["sheet", "mirrored", "large"] as const;
const each = runs(50);
const samples = fc.sample(anySample, { numRuns: kinds.length * each, seed: 20261002 });

/** Points by which rounding in the file may move an edge. */
const slack = 0.6;

function cuesInOrder(routine: Routine): readonly string[] {
  const version = routine.versions[0];
  if (version === undefined) return [];
  return sheetSections(routine).flatMap(({ section }) => movesIn(version, section).map(({ cue }) => cue.text));
}

function outside({ width, height, boxes }: ReadPage): readonly TextBox[] {
  const [left, right] = [margin.side - slack, width - margin.side + slack];
  return boxes.filter((box) => box.left < left || box.right > right || box.top < 20 || box.bottom > height - 17);
}

function overlapping({ boxes }: ReadPage): readonly string[] {
  return boxes.flatMap((one, index) =>
    boxes
      .slice(index + 1)
      .filter(
        (other) =>
          meet(one.left, one.right, other.left, other.right) && meet(one.top, one.bottom, other.top, other.bottom),
      )
      .map((other) => `${one.text} / ${other.text}`),
  );
}

const meet = (from: number, to: number, start: number, end: number): boolean =>
  from + slack < end && start + slack < to;

/** Text of a page that is neither its running head and foot nor a heading. */
function bodyOf({ boxes, height }: ReadPage, body: number): readonly TextBox[] {
  return boxes.filter(
    ({ top, bottom, size }) => top > margin.top + 14 && bottom < height - margin.bottom && size <= body,
  );
}

describe(`${samples.length} generated routines on paper`, () => {
  // Spread over the kinds of handout; seeded, so that a failure comes again.
  it.each(kinds)(
    "%s: nothing cut off, nothing overlaps, every cue in order",
    async (kind) => {
      const own = samples.filter((_, index) => kinds[index % kinds.length] === kind);
      expect(own).toHaveLength(each);
      for (const [index, sample] of own.entries()) {
        const routine = kind === "mirrored" ? mirror(sample.routine) : sample.routine;
        const version = routine.versions[0];
        if (version === undefined) throw new Error("A routine has at least one version.");
        const variant: Variant = kind === "mirrored" ? "sheet" : kind;
        const file = await drawHandout(routine, version, sample.library, variant);
        const pages = await readPages(file);
        const where = `sample ${index} of ${kind}`;
        for (const [number, page] of pages.entries()) {
          const at = `${where}, page ${number + 1}`;
          const [width, height] = sample.library.paper === "A4" ? [595.28, 841.89] : [612, 792];
          expect([page.width, page.height], at).toEqual([width, height]);
          expect(outside(page), at).toEqual([]);
          expect(overlapping(page), at).toEqual([]);
          expect(bodyOf(page, variant === "sheet" ? 9.5 : 44).length, `only a heading: ${at}`).toBeGreaterThan(0);
          if (variant === "large")
            expect(
              page.boxes.filter(({ size }) => size < 18),
              at,
            ).toEqual([]);
          if (variant === "sheet")
            expect(
              page.boxes.filter(({ size }) => size < 9),
              at,
            ).toEqual([]);
        }
        const whole = spaced(pages.flatMap(({ boxes }) => boxes.map(({ text }) => text)).join("")).replaceAll(" ", "");
        const cues = cuesInOrder(routine).map((cue) => cue.replaceAll(" ", ""));
        expect(firstOutOfOrder(whole, cues), where).toBeUndefined();
      }
    },
    240_000,
  );
});

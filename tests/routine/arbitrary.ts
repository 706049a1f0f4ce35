import fc from "fast-check";
import Fraction from "fraction.js";
import { contacts, type Feel, facings, heights, weights } from "../../src/routine/vocabulary.js";
import type { WrittenMove, WrittenRoutine, WrittenSection } from "../../src/routine/written.js";
import { cue, move, phrase, plainLibrary, section, written } from "../publishing/fixtures/written.js";

export { plainLibrary as library };

const texts = ["Step left", "Turn the right shoulder back", "Both arms up", "Left, right, left", "Melt", "hold"];

/** A move's body: any stance that can be written, whether or not anybody could dance it. */
const body = fc.record(
  {
    cue: fc.constantFrom(...texts).map(cue),
    steps: fc.array(fc.constantFrom("left" as const, "right" as const), { maxLength: 3 }),
    weight: fc.constantFrom(...weights),
    turn: fc.integer({ min: -16, max: 16 }).filter((turn) => turn !== 0),
    height: fc.constantFrom(...heights),
    travel: fc.array(
      fc.record({
        way: fc.constantFrom("forward" as const, "back" as const, "left" as const, "right" as const),
        steps: fc.integer({ min: 1, max: 4 }),
      }),
      { maxLength: 1 },
    ),
    hit: fc.boolean(),
    contacts: fc.subarray([...contacts], { maxLength: 2 }),
  },
  { requiredKeys: ["cue"] },
);

const letters: Record<Feel, readonly string[]> = { straight: ["", "e", "&", "a"], triplet: ["", "&", "a"] };

/** Moves that do not meet, over some of a phrase's counts: cut points are points, each move reaches to before the next. */
function moves(counts: number, feel: Feel, place: string, facing: boolean): fc.Arbitrary<readonly WrittenMove[]> {
  const points = Array.from({ length: counts }, (_, count) =>
    letters[feel].map((letter) => `${count + 1}${letter}`),
  ).flat();
  return fc.subarray(points, { minLength: 1, maxLength: 6 }).chain((starts) =>
    fc
      .tuple(
        ...starts.map(() =>
          fc.record({
            body,
            reach: fc.boolean(),
            option: fc.option(body),
            facing: fc.option(fc.constantFrom(...facings)),
          }),
        ),
      )
      .map((drawn) =>
        starts.map((start, index): WrittenMove => {
          const next = starts[index + 1];
          const lastWhole = next === undefined ? counts : Number.parseInt(next, 10) - 1;
          const first = Number.parseInt(start, 10);
          const chosen = drawn[index];
          const on = chosen?.reach === true && lastWhole > first ? `${start}-${lastWhole}` : start;
          const at = `${place}/${on}`;
          const { turn, ...rest } = chosen?.body ?? { cue: cue("Walk") };
          // A facing and a turn must agree, so a move has one of the two.
          const named = facing && chosen?.facing ? { facing: chosen.facing } : turn === undefined ? {} : { turn };
          return move(on, "Walk", {
            ...rest,
            place: at,
            ...named,
            options: chosen?.option
              ? [{ place: `${at}/options/1`, version: "1", moves: [optionMove(at, chosen.option)] }]
              : [],
          });
        }),
      ),
  );
}

const optionMove = (at: string, more: Partial<WrittenMove>) =>
  move(undefined, "Walk", { ...more, place: `${at}/options/1` });

export interface Shape {
  readonly walls?: number;
  readonly facing?: boolean;
  readonly tempo?: boolean;
}

/** Routines that can be danced: phrases of any length, both feels, repeats, reuse on the other side, tempo changes. */
export function routines(shape: Shape = {}): fc.Arbitrary<WrittenRoutine> {
  return fc
    .record({
      phrase: fc.constantFrom(4, 6, 8, 12),
      feel: fc.constantFrom<Feel>("straight", "triplet"),
      tempo: fc.integer({ min: 400, max: 2000 }).map((tenths) => new Fraction(tenths, 10)),
      firstCount: fc.integer({ min: 0, max: 60_000 }).map((ms) => new Fraction(ms, 1000)),
      sizes: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 1, maxLength: 3 }),
      facing: fc.constantFrom(...facings),
      times: fc.integer({ min: 1, max: 3 }),
    })
    .chain(({ phrase: size, feel, tempo, firstCount, sizes, facing, times }) => {
      const sections = sizes.map((phrases, index) =>
        fc
          .record({
            phrases: fc.tuple(
              ...Array.from({ length: phrases }, (_, at) =>
                moves(size, feel, `sections/${index}/${at}`, shape.facing === true),
              ),
            ),
            repeat: fc.integer({ min: 1, max: 3 }),
            mirrored: fc.constantFrom("never" as const, "always" as const, "alternate" as const),
            tempo: fc.option(fc.integer({ min: 40, max: 240 })),
            time: fc.option(fc.constantFrom("half" as const, "double" as const)),
            again: fc.boolean(),
          })
          .map((drawn): readonly WrittenSection[] => [
            section(
              `S${index}`,
              drawn.phrases.map((list, at) => phrase(list, { place: `sections/${index}/${at}` })),
              {
                repeat: drawn.repeat,
                ...(shape.tempo === false || drawn.tempo === null ? {} : { tempo: new Fraction(drawn.tempo) }),
                ...(drawn.time === null ? {} : { time: drawn.time }),
              },
            ),
            ...(drawn.again
              ? [section(`S${index} again`, undefined, { sameAs: `S${index}`, mirrored: drawn.mirrored })]
              : []),
          ]),
      );
      return fc.tuple(...sections).map((lists) =>
        written({
          sections: lists.flat(),
          levels: ["1", "2", "3"],
          taught: "2",
          music: { tempo, firstCount, phrase: size, feel },
          start: { place: "start", facing, versions: [] },
          walls: shape.walls ?? 1,
          times: shape.walls ?? times,
        }),
      );
    });
}

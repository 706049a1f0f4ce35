import fc from "fast-check";
import Fraction from "fraction.js";
import { dance } from "../../../src/routine/dance.js";
import type { Library, Routine } from "../../../src/routine/routine.js";
import { risks } from "../../../src/routine/vocabulary.js";
import type { WrittenMove, WrittenPhrase, WrittenSection } from "../../../src/routine/written.js";
import { called, library, move, phrase, section, written } from "../../fixtures/written.js";

const words = [
  "step",
  "left",
  "right",
  "and",
  "over",
  "the",
  "shoulder",
  "melt",
  "down",
  "to",
  "floor",
  "like",
  "rain",
  "hit",
  "half",
  "circle",
  "breathe",
  "unbelievably",
  "counterclockwise",
  "onto",
  "a",
  "ball-change",
  "Chassé",
  "Krok",
  "właśnie",
  "işte",
  "được",
  "βήμα",
  "шаг",
  "—",
  "“now”",
  "1½",
];
const text = (least: number, most: number) =>
  fc.array(fc.constantFrom(...words), { minLength: least, maxLength: most }).map((list) => list.join(" "));

/** Mostly what teachers write, sometimes a single letter, sometimes far too much. */
const cueText = fc.oneof(
  { weight: 6, arbitrary: text(1, 6) },
  { weight: 1, arbitrary: fc.constantFrom("x", "Go", "Pneumonoultramicroscopicsilicovolcanoconiosis") },
  { weight: 1, arbitrary: text(30, 90) },
);

/** Points that a phrase's moves may begin on, and how far each reaches. */
function movesIn(counts: number): fc.Arbitrary<readonly WrittenMove[]> {
  const points = Array.from({ length: counts }, (_, index) => [`${index + 1}`, `${index + 1}&`]).flat();
  return fc
    .subarray(points, { minLength: 1 })
    .chain((starts) =>
      fc
        .tuple(...starts.map(() => fc.record({ cueText, reach: fc.boolean(), ...flags })))
        .map((drawn) => ({ starts, drawn })),
    )
    .map(({ starts, drawn }) =>
      starts.map((start, index) => {
        const { cueText: cue, reach, hit, risk, turn, say, note } = drawn[index] ?? {};
        const next = starts[index + 1];
        const last = next === undefined ? counts : Number.parseInt(next, 10) - 1;
        const on = reach === true && last > Number.parseInt(start, 10) ? `${start}-${last}` : start;
        return move(on, cue ?? "Walk", {
          hit: hit ?? false,
          ...(risk === undefined || risk === null ? {} : { risks: [risk] }),
          ...(turn === undefined || turn === null ? {} : { turn }),
          ...(say === undefined || say === null ? {} : { say: called(say) }),
          ...(note === undefined || note === null ? {} : { note: { text: note, marks: [] } }),
        });
      }),
    );
}

const flags = {
  hit: fc.boolean(),
  risk: fc.option(fc.constantFrom(...risks), { freq: 5 }),
  turn: fc.option(fc.constantFrom(-4, -2, 2, 4, 8), { freq: 5 }),
  say: fc.option(text(1, 3), { freq: 9 }),
  note: fc.option(text(4, 20), { freq: 9 }),
};

const aPhrase = (counts: number): fc.Arbitrary<WrittenPhrase> => movesIn(counts).map((moves) => phrase(moves));

function aSection(index: number, counts: number, phrases: number): fc.Arbitrary<WrittenSection> {
  return fc
    .record({
      list: fc.array(aPhrase(counts), { minLength: phrases, maxLength: phrases }),
      name: text(1, 5),
      landing: fc.option(text(1, 8)),
      repeat: fc.constantFrom(1, 1, 2),
      mirrored: fc.constantFrom("never" as const, "never" as const, "alternate" as const),
    })
    .map(({ list, name, landing, repeat, mirrored }) =>
      section(`${index + 1} ${name}`, list, { repeat, mirrored, ...(landing === null ? {} : { words: landing }) }),
    );
}

export interface Sample {
  readonly routine: Routine;
  readonly library: Library;
}

/** Routines of 1 to 40 phrases of 1 to 16 counts, with cues of every length, on both papers. */
export const anySample: fc.Arbitrary<Sample> = fc
  .record({
    counts: fc.integer({ min: 1, max: 16 }),
    phrases: fc.oneof(
      { weight: 4, arbitrary: fc.integer({ min: 1, max: 8 }) },
      { weight: 1, arbitrary: fc.integer({ min: 9, max: 40 }) },
    ),
    paper: fc.constantFrom("A4" as const, "Letter" as const),
    url: fc.boolean(),
  })
  .chain(({ counts, phrases, paper, url }) =>
    fc
      .record({
        sections: fc.tuple(...sizes(phrases).map((size, index) => aSection(index, counts, size))),
        title: text(1, 5),
        prose: text(0, 120),
        accents: fc.subarray(
          Array.from({ length: counts }, (_, index) => index + 1),
          { maxLength: Math.min(3, counts) },
        ),
      })
      .map(({ sections, title, prose, accents }): Sample => {
        const { url: address, ...rest } = library;
        const given = written({
          title,
          sections,
          music: { phrase: counts, accents, tempo: new Fraction(88) },
          prose: { introduction: prose, notes: [], after: "" },
        });
        const { routine, problems } = dance(given, library);
        if (routine === undefined) throw new Error(problems.map(({ message }) => message).join("\n"));
        return { routine, library: { ...rest, paper, ...(url && address !== undefined ? { url: address } : {}) } };
      }),
  );

/** A number of phrases as sections of up to four. */
function sizes(phrases: number): readonly number[] {
  return Array.from({ length: Math.ceil(phrases / 4) }, (_, index) => Math.min(4, phrases - index * 4));
}

import fc from "fast-check";
import type { Draft, DraftMove, DraftPhrase, DraftSection, Said, Told } from "../../../src/hearing/types.js";
import { facings, heights, risks, weights } from "../../../src/routine/vocabulary.js";
import { hostilePatterns } from "../../fixtures/hostile-patterns.js";

/** Signs that mean something to YAML, to Markdown, to a terminal, or to nobody. */
const awkward = [
  "none",
  "hold",
  "- a: b",
  "# x",
  "a: b # c",
  "[1, {2}]",
  "&a *b !!c",
  "---",
  "...",
  "'\"",
  "x\ny: z",
  "\u202eabc",
  "\u0000\u001b[2J",
  "\u3164",
  "\u0301",
  "\ud800",
  "yes",
  "null",
  "~",
  "1-4",
  " ",
  "Part 2",
  "part 1",
  "a".repeat(3000),
  "https://elsewhere.invalid/",
  "www.elsewhere.invalid",
];

const text = fc.oneof(
  fc.constantFrom(...hostilePatterns),
  fc.constantFrom(...awkward),
  fc.constantFrom("step", "big circle", "and clap", "Harbour wall"),
  fc.string({ unit: "binary", maxLength: 30 }),
);
const seconds = fc.oneof(
  fc.double({ min: 0, max: 40_000, noNaN: true }),
  fc.constantFrom(0, -1, Number.NaN, Number.POSITIVE_INFINITY, 1e12),
);
const count = fc.oneof(fc.integer({ min: -2, max: 70 }), fc.constantFrom(8, 6, 2.5, Number.NaN));
const point = fc
  .tuple(fc.integer({ min: 0, max: 10 }), fc.constantFrom("", "", "&", "e", "a"))
  .map(([number, part]) => `${number}${part}`);
const on = fc.oneof(
  point,
  fc.tuple(point, point).map(([a, b]) => `${a}-${b}`),
  fc.constantFrom("7&8", "1e&a2", "8&1", "1,3,5", "", "x"),
  text,
);
const said: fc.Arbitrary<Said> = fc.record({ at: seconds, text });

const move: fc.Arbitrary<DraftMove> = fc.record(
  {
    on,
    cue: text,
    say: text,
    trust: fc.constantFrom("sure", "sure", "likely", "once"),
    runs: fc.nat(9),
    of: fc.nat(9),
    elsewhere: fc.array(fc.record({ run: fc.nat(9), on, at: seconds }), { maxLength: 6 }),
    unsure: fc.array(said, { maxLength: 3 }),
    hit: said,
  },
  { requiredKeys: ["on", "cue", "trust", "runs", "of", "elsewhere", "unsure"] },
);

const told: fc.Arbitrary<Told> = fc.record(
  {
    kind: fc.constantFrom("easier", "harder", "side", "turn", "risk", "facing", "weight", "styling", "other"),
    said,
    on,
    risks: fc.subarray([...risks], { maxLength: 2 }),
  },
  { requiredKeys: ["kind", "said"] },
);

const phrase: fc.Arbitrary<DraftPhrase> = fc.record(
  {
    length: count,
    calledAt: fc.array(seconds, { maxLength: 15 }),
    moves: fc.array(move, { maxLength: 8 }),
    told: fc.array(told, { maxLength: 3 }),
    rows: fc.array(
      fc.record({
        run: fc.nat(9),
        at: seconds,
        cells: fc.array(fc.record({ on, text, at: seconds }), { maxLength: 5 }),
      }),
      { maxLength: 3 },
    ),
    improvised: fc.boolean(),
  },
  { requiredKeys: ["calledAt", "moves", "told"] },
);

const section: fc.Arbitrary<DraftSection> = fc.record(
  { name: text, taughtAt: seconds, phrases: fc.array(phrase, { maxLength: 4 }) },
  { requiredKeys: ["taughtAt", "phrases"] },
);

/** Any draft that the types let through, whether or not anybody could have said it. */
export const anyDraft: fc.Arbitrary<Draft> = fc.record(
  {
    phrase: count,
    countIn: count,
    tempo: fc.record({ countsPerMinute: fc.oneof(seconds, fc.integer({ min: 40, max: 200 })), at: seconds }),
    start: fc.record(
      {
        facing: fc.record({ value: fc.constantFrom(...facings), said }),
        weight: fc.record({ value: fc.constantFrom(...weights), said }),
        height: fc.record({ value: fc.constantFrom(...heights), said }),
      },
      { requiredKeys: [] },
    ),
    gear: fc.array(fc.record({ item: text, need: fc.constantFrom("required", "optional"), said }), { maxLength: 3 }),
    accents: fc.record({ counts: fc.array(count, { maxLength: 4 }), said }, { requiredKeys: ["counts"] }),
    sections: fc.array(section, { maxLength: 4 }),
    runs: fc.array(
      fc.record(
        { start: seconds, end: seconds, phrases: fc.array(fc.nat(9), { maxLength: 6 }), countsPerMinute: seconds },
        { requiredKeys: ["start", "end", "phrases"] },
      ),
      { maxLength: 4 },
    ),
    told: fc.array(told, { maxLength: 3 }),
    distrust: fc.constantFrom("few-counts", "no-word-times"),
    length: seconds,
  },
  { requiredKeys: ["phrase", "start", "gear", "accents", "sections", "runs", "told", "length"] },
);

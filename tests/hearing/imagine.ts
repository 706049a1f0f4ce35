import type { Dispute, Kind, Taught, Truth, TruthPhrase, Utterance } from "./recording.js";

export interface Imagined {
  /** Same seed, same class. */
  readonly seed: number;
  readonly captions: Kind;
  /** How often the recogniser gets a word wrong, as a part of 1. */
  readonly faults: number;
  /** How often the teacher drops a cue, as a part of 1; more rarely she shifts one, leaves a number out or forgets a phrase. */
  readonly disorder: number;
}

/** The next number from 0 to below 1. */
type Random = () => number;

/** Words of a counted beat, each at its part of the beat. */
type Beat = readonly { readonly word: string; readonly part: number }[];

/** Where a phrase stands in a truth. */
interface Place {
  readonly section: number;
  readonly phrase: number;
  readonly dances: TruthPhrase;
}

/** The class as it goes on. */
interface Lesson {
  readonly truth: Truth;
  readonly options: Imagined;
  readonly random: Random;
  readonly calls: "instead" | "before" | "after";
  readonly said: Utterance[];
  readonly slips: Dispute[];
  clock: number;
  runs: number;
}

const numbers = "one two three four five six seven eight nine ten eleven twelve".split(" ");
const alike = new Map([
  ["one", ["won"]],
  ["two", ["to", "too"]],
  ["three", ["free", "tree"]],
  ["four", ["for"]],
  ["five", ["fine"]],
  ["six", ["sick"]],
  ["eight", ["ate"]],
]);
const strays = ["where", "cold", "and", "the", "plate", "music", "it", "there"];
const asides = [
  "I have three of these at home",
  "do that four times and you will not forget it",
  "okay one more time",
  "two of you were early",
  "it took me five weeks to get that",
  "nice",
  "and breathe",
];

/** A splitmix generator of 32 bits, its constants from memory: different for each seed, the same again for the same. */
function seeded(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 2 ** 32;
  };
}

const pick = <T>(random: Random, from: readonly T[], otherwise: T): T =>
  from[Math.floor(random() * from.length)] ?? otherwise;

/**
 * A class that teaches the truth, chunk by chunk and from the top each time, with talk between. What it returns has the truth as it
 * was then taught: when each section began, how many runs there were, and where a cue slipped.
 */
export function imagine(truth: Truth, options: Imagined): Taught {
  const random = seeded(options.seed);
  const calls = pick(random, ["instead", "before", "after"] as const, "instead");
  const lesson: Lesson = { truth, options, random, calls, said: [], slips: [], clock: 3, runs: 0 };
  const taughtAt: number[] = [];
  const places = truth.sections.map((section, index) =>
    section.phrases.map((dances, phrase): Place => ({ section: index, phrase, dances })),
  );
  opening(lesson);
  places.forEach((phrases, index) => {
    taughtAt.push(announce(lesson, index));
    for (const place of phrases) {
      explain(lesson, place);
      run(lesson, [place], 78 + random() * 8);
      aside(lesson);
    }
    if (index === 0 && truth.accents.length > 0)
      talk(lesson, `the ${truth.accents.map((count) => numbers[count - 1]).join(" and the ")} hit`);
    talk(lesson, "from the top");
    run(lesson, forgetful(lesson, places.slice(0, index + 1).flat()), 86 + random() * 8);
    lesson.clock += 20;
  });
  talk(lesson, "okay the whole thing from the top up to speed");
  run(lesson, places.flat(), truth.tempo ?? 100);
  talk(lesson, "that is all of it thank you");
  return {
    name: `${truth.title} ${options.seed}`,
    style: "imagined",
    captions: options.captions,
    truth: {
      ...truth,
      sections: truth.sections.map((section, index) => ({ ...section, taughtAt: taughtAt[index] ?? 0 })),
      runs: lesson.runs,
      tempo: truth.tempo ?? 100,
      disputed: [],
      slips: lesson.slips,
      told: [],
    },
    said: lesson.said,
  };
}

function opening(lesson: Lesson) {
  const { truth } = lesson;
  talk(lesson, `hello everybody this is ${truth.title.toLowerCase()}`);
  for (const { item, need } of truth.gear)
    talk(lesson, need === "required" ? `you need ${item}` : `${item} is optional`);
  if (truth.start.facing) talk(lesson, `we start facing the ${truth.start.facing}`);
  if (truth.start.weight) talk(lesson, `the weight is on the ${truth.start.weight}`);
}

/** Seconds at which a section begins to be taught. */
function announce(lesson: Lesson, index: number): number {
  const at = lesson.clock;
  const name = lesson.truth.sections[index]?.name;
  talk(lesson, index === 0 ? "okay so here is how it begins" : "okay moving on to the next part");
  if (name) talk(lesson, `we call this the ${name} part`);
  return at;
}

/** Tells the count of every other cue. */
function explain(lesson: Lesson, place: Place) {
  for (const [on, cue] of cuesOf(place.dances))
    if (lesson.random() < 0.5 && !on.includes("&"))
      talk(lesson, `the ${cue} is on ${numbers[Number.parseInt(on, 10) - 1]}`);
}

function aside(lesson: Lesson) {
  if (lesson.random() < 0.2 + lesson.options.disorder) talk(lesson, pick(lesson.random, asides, "nice"));
}

/** All but a phrase now and then; never the first or the last. */
const forgetful = (lesson: Lesson, places: readonly Place[]): readonly Place[] =>
  places.filter(
    (_, index) => index === 0 || index === places.length - 1 || lesson.random() >= lesson.options.disorder / 4,
  );

/** What is said between the runs; two and a half words a second. */
function talk(lesson: Lesson, text: string) {
  const words = heard(lesson, text.split(" "));
  if (words.length === 0) return;
  const end = lesson.clock + words.length / 2.5;
  lesson.said.push([lesson.clock, end, words.join(" ")]);
  lesson.clock = end + 0.4 + lesson.random() * 0.6;
}

/** A counting-in of half a phrase, and the phrases, a breath of silence around them. */
function run(lesson: Lesson, places: readonly Place[], tempo: number) {
  const { phrase } = lesson.truth;
  lesson.runs++;
  lesson.clock += 1;
  const countIn = numbers.slice(phrase / 2, phrase);
  if (lesson.random() < lesson.options.faults && phrase === 8)
    say(lesson, [[{ word: "5678", part: 0 }], [], [], []], tempo);
  else
    say(
      lesson,
      countIn.map((word) => [{ word, part: 0 }]),
      tempo,
    );
  for (const place of places) say(lesson, beatsOf(lesson, place), tempo);
  lesson.clock += 1 + lesson.random();
}

function say(lesson: Lesson, beats: readonly Beat[], tempo: number) {
  const beat = 60 / tempo;
  const words = beats.flatMap((held, index) =>
    held.flatMap(({ word, part }) => {
      const early = (lesson.random() - 0.5) * (0.08 + lesson.options.disorder / 2);
      const at = lesson.clock + (index + part + early) * beat;
      return word.split(" ").map((text, later) => ({ text, at: at + later * 0.3 * beat }));
    }),
  );
  const found = words
    .sort((a, b) => a.at - b.at)
    .flatMap(({ text, at }) => heard(lesson, [text]).map((taken) => `${taken}@${at.toFixed(2)}`));
  const end = lesson.clock + beats.length * beat;
  if (found.length > 0) lesson.said.push([lesson.clock, end, found.join(" ")]);
  lesson.clock = end;
}

/** A phrase as it is called this time: where nothing is called she counts, or is silent. */
function beatsOf(lesson: Lesson, place: Place): readonly Beat[] {
  const cues = calledNow(lesson, place);
  const length = place.dances.length ?? lesson.truth.phrase;
  return Array.from({ length }, (_, index): Beat => {
    const number = { word: numbers[index] ?? "", part: 0 };
    const cue = cues.get(String(index + 1));
    const silent = lesson.random() < lesson.options.disorder / 2;
    const half = cues.get(`${index + 1}&`);
    const counted: Beat = silent ? [] : [number];
    const whole = cue === undefined ? counted : withNumber(lesson, cue, number.word);
    return half === undefined ? whole : [...whole, { word: "and", part: 0.45 }, { word: half, part: 0.55 }];
  });
}

function withNumber(lesson: Lesson, cue: string, number: string): Beat {
  if (lesson.calls === "instead") return [{ word: cue, part: 0 }];
  if (lesson.calls === "after")
    return [
      { word: number, part: 0 },
      { word: cue, part: 0.45 },
    ];
  return [
    { word: cue, part: -0.4 },
    { word: number, part: 0 },
  ];
}

/** Cues by the count on which they are called this time: some are left out, some shifted by a count, some in other words. */
function calledNow(lesson: Lesson, place: Place): ReadonlyMap<string, string> {
  const { random, truth } = lesson;
  const { disorder } = lesson.options;
  if (place.dances.improvised) return new Map([["1", "freestyle"]]);
  const found = new Map<string, string>();
  for (const [on, cue] of cuesOf(place.dances)) {
    if (random() < disorder) continue;
    const word = random() < disorder ? pick(random, truth.synonyms?.[cue] ?? [], cue) : cue;
    const start = /^\d+(?:&(?!\d))?/.exec(on)?.[0] ?? on;
    const later = String(Number.parseInt(on, 10) + 1);
    const shifts =
      random() < disorder / 4 && !start.endsWith("&") && !(later in place.dances) && Number(later) <= truth.phrase;
    if (shifts) lesson.slips.push({ section: place.section, phrase: place.phrase, cue, counts: [start, later] });
    found.set(shifts ? later : start, word);
  }
  return found;
}

/** Counts and cues of a phrase of the truth. */
const cuesOf = (phrase: TruthPhrase): readonly (readonly [string, string])[] =>
  Object.entries(phrase).flatMap(([on, cue]) => (typeof cue === "string" ? [[on, cue] as const] : []));

/** What the recogniser makes of words. */
const heard = (lesson: Lesson, words: readonly string[]): readonly string[] =>
  words.flatMap((word) => {
    if (lesson.random() >= lesson.options.faults) return [word];
    const others = alike.get(word);
    if (others) return [pick(lesson.random, others, word)];
    return lesson.random() < 0.5 ? [] : [pick(lesson.random, strays, word)];
  });

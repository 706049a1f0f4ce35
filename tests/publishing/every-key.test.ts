import { describe, expect, test } from "vitest";
import { withoutDoubts } from "../../src/build/drafts.js";
import { countCaptions } from "../../src/publishing/captions/count-captions.js";
import { numberCaptions } from "../../src/publishing/captions/number-captions.js";
import { drawHandout, handoutPrint } from "../../src/publishing/handout/handout.js";
import { routineJson } from "../../src/publishing/routine-json.js";
import { routineView } from "../../src/publishing/site/routine-view.js";
import { mirror } from "../../src/routine/mirror.js";
import { planClass } from "../../src/teaching/plan.js";
import { wordingOf } from "../../src/wording/wording.js";
import { everyKey, everyKeyFindings } from "../fixtures/every-key.js";
import { pageMoves } from "../fixtures/page-moves.js";
import { readCaptions } from "../fixtures/read-captions.js";
import { firstOutOfOrder, spaced } from "../fixtures/read-pdf.js";
import { muPdfText } from "../fixtures/read-structure.js";
import { library } from "../fixtures/written.js";
import { libraryWith, stepsOf, workshopOf } from "../teaching/builder.js";

/* One routine with every key: whatever is made of it agrees on what is danced when, and with what was worked out by hand. */

const wording = wordingOf("en");
const routine = withoutDoubts(everyKey);
const record = routineJson(routine, library, everyKeyFindings);
const view = routineView(routine, library, { pictures: new Map(), downloads: [] }, wording);
const plain = (html: string) => html.replace(/<[^>]*>/g, "").replaceAll("&amp;", "&");

/** What the record says of a version: the first group's moves, then the others', each with its group. */
function recorded(id: string) {
  const version = record.versions.find((one) => one.id === id);
  if (version === undefined) throw new Error(`There is no version ${id}.`);
  const own = version.moves.map((move) => ({ group: "Wick", move }));
  const others = (version.groups ?? []).flatMap(({ name, moves }) => moves.map((move) => ({ group: name, move })));
  return { version, moves: [...own, ...others] };
}
const taught = recorded("2");

/** A place in the track as people read it: to five seconds once the guessed tempo of Crossing has begun to tell. */
const shown = (seconds: number, isGuess: boolean) => wording.time.track({ seconds, secondsAreEstimate: isGuess });

describe("the record", () => {
  test("is what was worked out by hand", () => {
    /*
     * From the first count, at 0:20. 120 counts a minute are half a second each: 16 counts of Waking 8 s, Lanterns at half
     * time 8 s, 8 counts at 90 a minute 5 1/3 s, 4 s each of Echo (Flame's last counts are holds) and Your lamp, 6 s of
     * Night watch, 4 s at full time, then 16 2/3 s of waiting until 1:16. The cry lies 12 s before, at 0:08.
     */
    expect(record.sections.map(({ name, counts, start, trackTime }) => [name, counts, start, trackTime])).toEqual([
      ["Street cry", 0, -12, 8],
      ["Waking", 16, 0, 20],
      ["Lanterns", 8, 8, 28],
      ["Crossing", 8, 16, 36],
      ["Echo", 8, 21.333, 41.333],
      ["Your lamp", 8, 25.333, 45.333],
      ["Night watch", 0, 29.333, 49.333],
      ["Lanterns again", 8, 35.333, 55.333],
      ["Lanterns, last", 8, 56, 76],
      ["Going out", 4, 60, 80],
    ]);
    expect([record.counts, record.seconds]).toEqual([68, 62]);
    // At 75 %, all but the 6 s of Night watch is stretched: 56 / 0.75 + 6.
    expect(record.practice.find(({ percent }) => percent === 75)?.seconds).toBe(80.667);
    expect([record.formerly, record.music.pauses, record.video.mirroredBy]).toEqual([["gas-lamps"], [8], "danced"]);
    // Swing: `1&` of Lanterns, again at full time, is two thirds past its count, so a third of a second after 35 1/3.
    const again = taught.moves.find(({ move }) => move.section === 7)?.move;
    expect([again?.on, again?.at, again?.start]).toEqual(["1&", "146/3", 35.667]);
  });

  test("has each version's risks, those that a harder option keeps included, and says whose they are", () => {
    const risks = (id: string) => recorded(id).version.cautions;
    expect(risks("1")).toEqual([]);
    expect(risks("2")).toEqual(["jump", "spin", "kneework", "climb", "throw", "neck"]);
    // Level 3 climbs too, though its own option does not say so, and says of the hat that it is not thrown.
    expect(risks("3")).toEqual(["jump", "spin", "kneework", "climb", "neck"]);
    expect(risks("seated")).toEqual([]);
    expect(taught.version.cautionGroups).toEqual({ kneework: ["Flame"] });
  });

  test("knows no weight after what is the dancers' own, and no side of it", () => {
    const own = taught.moves.flatMap(({ move }) => (move.improvised ? [move] : []));
    expect(own.map(({ do: cue, mirrored, weight }) => [cue, mirrored, weight])).toEqual(
      ["Your lamp", "Leave left or right, as you like", "Your lamp", "Leave left or right, as you like"].map((cue) => [
        cue,
        cue,
        null,
      ]),
    );
  });

  test("nobody who reads what is published learns what its author is not sure of", () => {
    expect(everyKeyFindings.filter(({ rule }) => rule === "doubt")).toHaveLength(3);
    expect(everyKeyFindings.filter(({ severity }) => severity !== "note")).toEqual([]);
    const published = JSON.stringify([record, view]);
    for (const doubt of ["4 or 5?", "long recording", "second half hold"]) expect(published).not.toContain(doubt);
  });
});

/** Whether a row with these classes is there for one of some versions or groups. */
function isShown(classes: string, letter: string, index: number, number: number): boolean {
  const all = Array.from({ length: number }, (_, one) => `${letter}${one}`);
  const named = classes.split(" ").filter((one) => all.includes(one));
  return named.length === 0 || named.includes(`${letter}${index}`);
}

describe("the page", () => {
  test("has every section at its time, with its counts or its seconds", () => {
    expect(view.sections.map(({ name, counts, seconds, times }) => [name, counts, seconds, times[0]?.clock])).toEqual(
      record.sections.map(({ name, counts, seconds, uncounted, trackTime }, index) => [
        name,
        counts,
        uncounted ? seconds : undefined,
        shown(trackTime ?? 0, index > 3 && index < 8),
      ]),
    );
  });

  test("has every move of every version on its counts, in its phrase, with its words, calls and risks", () => {
    for (const [order, { id }] of record.versions.entries()) {
      const { moves } = recorded(id);
      for (const { move, group } of moves) {
        const phrase = view.sections[move.section]?.phrases.find(({ number }) => number === move.phrase);
        const row = pageMoves(phrase).find(
          ({ classes, groups, cue, on }) =>
            isShown(classes, "v", order, record.versions.length) &&
            isShown(classes, "g", routine.groups.indexOf(group), routine.groups.length) &&
            plain(cue.html).includes(move.do) &&
            (on === wording.counts.span(move.on) || groups.includes("own counts")),
        );
        expect(row, `${id} ${group} ${move.section} ${move.on} ${move.do}`).toBeDefined();
        expect(row?.improvised).toBe(move.improvised === true);
        expect(row?.hit).toBe(move.hit);
        expect(row?.say.map(({ html }) => plain(html).slice(0, 4))).toEqual(
          [move.say ?? []].flat().map((call) => call.slice(0, 4)),
        );
        for (const risk of row?.cautions ?? [])
          expect((move.risks ?? []).map((one) => wording.risks.label(one))).toContain(risk);
      }
    }
  });

  test("says beside each move the risks that are its own to say", () => {
    for (const [order, { moves, groups }] of routine.versions.entries())
      for (const move of [moves, ...groups.map((group) => group.moves)].flat()) {
        const phrase = view.sections[move.section]?.phrases.find(({ number }) => number === move.phrase);
        const rows = pageMoves(phrase).filter(
          ({ classes, cue }) =>
            isShown(classes, "v", order, routine.versions.length) && plain(cue.html).includes(move.cue.text),
        );
        const care = rows.flatMap(({ cautions }) => cautions);
        for (const risk of move.cautions)
          expect(care, `${move.on} ${move.cue.text}`).toContain(wording.risks.label(risk));
      }
  });

  test("names the risks of the record", () => {
    const labels = new Set(view.cautions.map(({ value }) => value.label));
    const all = ["jump", "spin", "climb", "throw", "neck"] as const;
    for (const risk of all) expect(labels).toContain(wording.risks.label(risk));
    expect(labels).toContain(wording.risks.of("kneework", ["Flame"]));
  });
});

describe("the paper", () => {
  test.each([
    ["2", false],
    ["2", true],
    ["3", false],
  ])(
    "of version %s (mirrored: %s) has the record's moves in its order, with sections, times and risks",
    async (id, isMirrored) => {
      const dance = isMirrored ? mirror(routine) : routine;
      const version = dance.versions.find((one) => one.id === id);
      if (version === undefined) throw new Error(`There is no version ${id}.`);
      const text = spaced((await muPdfText(await drawHandout(dance, version, library, "sheet"))).join(" "));
      const { moves, version: said } = recorded(id);
      const inOrder = record.sections.flatMap((section, index) => [
        section.name,
        ...(section.uncounted ? [wording.print.uncounted(section.seconds)] : []),
        ...moves
          .filter(({ move, group }) => move.section === index && group === "Wick")
          .flatMap(({ move }) => [
            ...[(isMirrored ? move.mirroredSay : move.say) ?? []].flat(),
            ...(move.improvised ? [wording.print.own.trim()] : []),
            isMirrored ? move.mirrored : move.do,
          ]),
      ]);
      expect(firstOutOfOrder(text, inOrder)).toBeUndefined();
      for (const [index, { trackTime }] of record.sections.entries())
        expect(text).toContain(shown(trackTime ?? 0, index > 3 && index < 8));
      for (const risk of said.cautions) expect(text.toLowerCase()).toContain(wording.risks.label(risk));
      expect(text).toContain("Sink to the knees");
      expect(text).not.toContain("4 or 5?");
    },
  );
});

/* As the file names them, in the order of the counts: level 3 keeps the climb, and does not throw. */
test.each([
  ["2", ["climbing", "throwing", "the neck", "jump"]],
  ["3", ["climbing", "the neck", "jump"]],
])("in all kinds of print the named risks of version %s stand beside their moves", async (id, named) => {
  const version = routine.versions.find((one) => one.id === id);
  if (version === undefined) throw new Error(`There is no version ${id}.`);
  const large = spaced((await muPdfText(await drawHandout(routine, version, library, "large"))).join(" "));
  // After the heading of the section that they stand in, not in the head of the sheet alone.
  expect(firstOutOfOrder(large.slice(large.indexOf("Waking")), named)).toBeUndefined();
  // A card has a sign there, which is said in words to those who listen.
  const card = JSON.stringify(handoutPrint(routine, version, library, "card").elements);
  const told = [...card.matchAll(/"alt":"take care, ([^"]*)"/g)].map((match) => match[1] ?? "");
  expect(firstOutOfOrder(told.join(" "), named)).toBeUndefined();
});

describe("the captions", () => {
  const cues = readCaptions(countCaptions(routine, library));

  test("show every move at its time, with what is called, and silence where nothing is", () => {
    for (const { move, group } of taught.moves) {
      const at = move.trackTime ?? 0;
      const here = cues.filter(({ start, end }) => start <= at + 0.001 && at < end).map(({ text }) => text);
      if (move.say?.length === 0) expect(here.join("\n")).not.toContain(move.do);
      else {
        const found = here.find((text) => text.includes(move.on));
        expect(found, `${group} ${move.on} ${move.do} at ${at}`).toBeDefined();
        for (const call of [move.say ?? []].flat()) expect(found).toContain(call);
        if (move.improvised) expect(found).toContain(wording.captions.own);
      }
    }
    for (const { name, uncounted, trackTime, seconds } of record.sections)
      if (uncounted)
        expect(cues.find(({ text }) => text.startsWith(wording.captions.uncounted(name)))).toMatchObject({
          start: trackTime,
          end: Math.round(((trackTime ?? 0) + seconds) * 1000) / 1000,
        });
  });

  test("count every count of the record at its time, and none where nothing is called", () => {
    const numbers = readCaptions(numberCaptions(routine, library)).filter(({ start }) => start >= 20);
    const silent = taught.moves.find(({ move }) => move.do === "Step down")?.move.trackTime;
    expect(numbers.map(({ start }) => start)).toEqual(
      record.clicks.flatMap(({ trackTime }) => (trackTime === silent ? [] : [trackTime])),
    );
  });
});

describe("the class plan", () => {
  const asked = { starts: "18:30", known: { "lamp-street": ["Waking"] }, lessons: 2 };
  const plan = planClass(workshopOf([routine], 90, asked), libraryWith({}));

  test("has every section of the record, as long and with the risks that the record says", () => {
    const bySection = record.sections;
    const sum = (name: string, of: "counts" | "seconds") =>
      plan.chunks.reduce((all, chunk) => (chunk.section === name ? all + chunk[of] : all), 0);
    for (const { name, counts, seconds } of bySection) {
      expect([name, sum(name, "counts")]).toEqual([name, counts]);
      expect(sum(name, "seconds")).toBeCloseTo(seconds, 2);
    }
    expect(new Set(plan.chunks.map(({ section }) => section)).size).toBe(bySection.length);
    const met = new Set(plan.chunks.flatMap(({ cautions }) => cautions));
    expect([...met].sort()).toEqual([...taught.version.cautions].sort());
  });

  test("drills nothing of the dancers' own, counts the load of the group that has it, and keeps what was asked", () => {
    const own = plan.chunks.filter(({ improvised }) => improvised).map(({ id }) => id);
    expect(own).toHaveLength(1);
    const kinds = stepsOf(plan).filter(({ chunks }) => chunks.length === 1 && own.includes(chunks[0] ?? ""));
    expect(new Set(kinds.map(({ kind }) => kind))).toEqual(new Set(["explain"]));
    const flame = record.versions.find(({ id }) => id === "2")?.groups?.[0];
    expect([taught.version.load, flame?.load]).toEqual([{}, { knees: 1 }]);
    expect(plan.groups?.find(({ group }) => group === "Flame")?.taught.knees).toBeGreaterThan(0);
    expect(plan.groups?.find(({ group }) => group === "Wick")?.taught.knees).toBeUndefined();
    expect(plan.asked).toEqual(asked);
  });
});

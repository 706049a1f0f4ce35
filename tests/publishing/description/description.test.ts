import fc from "fast-check";
import Fraction from "fraction.js";
import { expect, test } from "vitest";
import { descriptionText, leftOutOf } from "../../../src/publishing/description/description.js";
import { optionsInShort } from "../../../src/publishing/description/paragraphs.js";
import { readContent } from "../../../src/reading/read-content.js";
import { lowTide } from "../../fixtures/low-tide.js";
import { danced, library, move, phrase, section } from "../../fixtures/written.js";

const codePoints = (text: string) => [...text].length;
const partsOf = (text: string) => text.trimEnd().split("\n\n");

test("the text reads in the order that a viewer needs it", () => {
  const text = descriptionText(lowTide, library);
  expect(text.split("\n").slice(0, 2)).toEqual([
    "Low Tide: a dance routine by Ines Varga to “Low Tide” by The Ferry Clerks. Jazz, floorwork.",
    "A wall that is not there and a tide that is. Slow enough to learn in one class.",
  ]);
  expect(
    partsOf(text)
      .slice(1)
      .map((part) => /^[A-Z ]{2,}|^#/.exec(part)?.[0] ?? part),
  ).toEqual([
    "MUSIC",
    "WHAT YOU NEED",
    "START",
    "LEVELS AND OPTIONS",
    "WHAT THE OPTIONS REPLACE",
    "CHAPTERS",
    "WHAT CHANGES ON THE WAY",
    "PRACTICE SPEEDS",
    "LINKS",
    "TAKE CARE",
    "CREDIT",
    "#",
  ]);
  expect(text).toContain("Chair (for seated): a steady one without arms");
  expect(text).toContain("1:03 Harbour wall, counts and words");
  // 63.8 s at three quarters of the speed.
  expect(text).toContain("75%: 69 counts a minute, one run in 1:25");
  expect(text).toContain("TAKE CARE: fast to the floor (levels 1, 2 and 3), upside down (level 3)");
  expect(text).toContain("https://saltmarsh.example/routines/low-tide/");
});

test("without chapters the sections stand in order and no time is made up", () => {
  const text = descriptionText({ ...lowTide, video: { chapters: [] } }, library);
  expect(text).toContain(
    "SECTIONS IN ORDER\nHarbour wall: 16 counts\nTag: 4 counts\nHarbour wall again: 16 counts, on the other side, 2 times",
  );
  expect(text).not.toMatch(/^\d+:\d\d /m);
});

test("what the routine does not say is left out, the library's credit stands in for its own", () => {
  const plain = danced({ sections: [section("Walks", [phrase([move("1-8", "Walk")])])] });
  const { url: _, ...offline } = library;
  expect(descriptionText(plain, offline)).toBe(
    [
      "Low Tide: a dance routine by Ines Varga.",
      "8 counts at 92 a minute, one run in 0:05.",
      "",
      "MUSIC: there is none in this video.",
      "",
      "START: facing front, weight on both feet, standing",
      "",
      "SECTIONS IN ORDER",
      "Walks: 8 counts",
      "",
      "PRACTICE SPEEDS",
      "60%: 55.2 counts a minute, one run in 0:09",
      "75%: 69 counts a minute, one run in 0:07",
      "90%: 82.8 counts a minute, one run in 0:06",
      "Full tempo: 92 counts a minute, one run in 0:05",
      "",
      "CREDIT: Choreography by Ines Varga. Please name her when you post it.",
      "",
    ].join("\n"),
  );
});

test("whatever the limit, parts stay whole or go, and those that matter most go last", () => {
  const whole = partsOf(descriptionText(lowTide, library));
  const inShort = optionsInShort(lowTide, library, "plain");
  const claims = [
    ...["TAKE CARE", "CREDIT", "MUSIC", "LINKS", "WHAT YOU NEED", "START", "LEVELS", "WHAT CHANGES", "CHAPTERS"],
    ...["WHAT THE OPTIONS", "PRACTICE", "#"],
  ];
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 2500 }), (outlineLimit) => {
      const text = descriptionText(lowTide, { ...library, outlineLimit });
      const [opening, ...kept] = partsOf(text);
      const firstLine = whole[0]?.split("\n")[0];
      expect([whole[0], firstLine]).toContain(opening);
      if (text !== `${firstLine}\n`) expect(codePoints(text)).toBeLessThanOrEqual(outlineLimit);
      for (const part of kept) expect([...whole, inShort]).toContain(part);
      // A part is only missing where it would not fit beside those with a better claim.
      for (const [rank, claim] of claims.entries()) {
        const missing = whole.find((part) => part.startsWith(claim)) ?? "";
        if (kept.includes(missing)) continue;
        if (kept.includes(inShort) && claim === "WHAT THE OPTIONS") continue;
        const better = kept.filter((part) => claims.findIndex((other) => part.startsWith(other)) < rank);
        const length = codePoints([opening, ...better, missing].join("\n\n")) + 1;
        expect(length).toBeGreaterThan(outlineLimit);
      }
    }),
  );
});

test("a character is a code point: an emoji is one", () => {
  const routine = danced({ title: "🌊".repeat(40), sections: [section("Walks", [phrase([move("1-8", "Walk")])])] });
  const text = descriptionText(routine, library);
  expect(text.length).toBe(codePoints(text) + 40);
  expect(descriptionText(routine, { ...library, outlineLimit: codePoints(text) })).toBe(text);
  expect(descriptionText(routine, { ...library, outlineLimit: codePoints(text) - 1 })).not.toBe(text);
});

test("two hundred sections and two hundred chapters still fit, with care and credit said", () => {
  const names = Array.from({ length: 200 }, (_, index) => `Section ${index + 1}, where the long way round goes on`);
  const chapters = names.map((title, index) => ({ place: title, at: new Fraction(20 * index), title }));
  const sections = names.map((name) => section(name, [phrase([move("1-8", "Leap", { risks: ["jump"] })])]));
  for (const video of [{ chapters: [] }, { chapters }]) {
    const text = descriptionText(danced({ sections, video }), library);
    expect(codePoints(text)).toBeLessThanOrEqual(library.outlineLimit);
    expect(text).toContain("TAKE CARE: jump.");
    expect(text).toContain("CREDIT: ");
    expect(text).toContain("PRACTICE SPEEDS");
    expect(text).not.toContain("Section 1,");
  }
});

test("it survives a box without formatting: no markup, no angle brackets, no stray line breaks", async () => {
  const routine = danced({
    title: "Over <under>",
    summary: "One line,\n  and   another.",
    styles: ["street jazz", "hip-hop", "?!"],
    sections: [section("A > B", [phrase([move("1-8", "Walk")])])],
  });
  const text = descriptionText(routine, library);
  expect(text).toContain("Over ‹under›: a dance routine");
  expect(text).toContain("\nOne line, and another.\n");
  expect(text.trimEnd().endsWith("#streetjazz #hiphop")).toBe(true);

  const { routines, library: demo } = await readContent("content");
  expect(routines.length).toBeGreaterThan(4);
  for (const one of [routine, ...routines]) {
    const shown = descriptionText(one, demo);
    expect(shown).not.toMatch(/[<>*`[\]\t]|\n\n\n|undefined|null/);
    expect(codePoints(shown)).toBeLessThanOrEqual(demo.outlineLimit);
  }
});

test("what finds no room is named, and nothing where all of it does", () => {
  const whole = codePoints(descriptionText(lowTide, library));
  expect(leftOutOf(lowTide, { ...library, outlineLimit: whole })).toEqual([]);
  // The tags give way first.
  expect(leftOutOf(lowTide, { ...library, outlineLimit: whole - 1 })).toEqual(["tags"]);
  for (const outlineLimit of [200, 600, 1500]) {
    const text = descriptionText(lowTide, { ...library, outlineLimit });
    const leftOut = leftOutOf(lowTide, { ...library, outlineLimit });
    expect([leftOut.includes("tags"), leftOut.includes("credit")]).toEqual([
      !/^#/m.test(text),
      !text.includes("CREDIT"),
    ]);
  }
});

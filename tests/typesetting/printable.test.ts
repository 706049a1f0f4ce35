import { describe, expect, it } from "vitest";
import { readRoutine } from "../../src/reading/read-routine.js";
import { drawnArrows, printableRanges, unprintable } from "../../src/routine/printable.js";
import { drawnArrows as arrows } from "../../src/typesetting/arrows.js";
import { inFaces, missingGlyphs } from "../../src/typesetting/faces.js";
import { library } from "../fixtures/written.js";

/** The last code point of the supplementary multilingual plane: beyond it no text of a routine goes. */
const last = 0x1ffff;

function rangesOfFaces(): string {
  const ranges: [number, number][] = [];
  for (let code = 0x21; code <= last; code++) {
    if (code >= 0xd800 && code <= 0xdfff) continue;
    const letter = String.fromCodePoint(code);
    if (/[\s\p{Cf}\p{Cc}\p{Variation_Selector}]/u.test(letter) || !inFaces(letter.normalize("NFC"))) continue;
    const range = ranges.at(-1);
    if (range?.[1] === code - 1) range[1] = code;
    else ranges.push([code, code]);
  }
  const hex = (code: number) => code.toString(16);
  return ranges.map(([from, to]) => (from === to ? hex(from) : `${hex(from)}-${hex(to)}`)).join(" ");
}

describe("characters that paper can show", () => {
  it("are those of the bundled faces: what is received belongs in src/routine/printable.ts", () => {
    expect(printableRanges).toBe(rangesOfFaces());
    expect(drawnArrows).toBe(arrows);
    expect([...arrows].filter(inFaces)).toEqual([]);
  });

  it("are told apart by the core just as the faces tell them, inkless ones included", () => {
    const differ: string[] = [];
    for (let code = 0; code <= last; code++) {
      if (code >= 0xd800 && code <= 0xdfff) continue;
      const letter = String.fromCodePoint(code);
      if (unprintable(letter).length !== missingGlyphs(letter).length) differ.push(code.toString(16));
    }
    expect(differ).toEqual([]);
  });

  it("are told from those that it cannot, however they are composed", () => {
    expect(unprintable("Drag → left 💃, again 💃\u200d")).toEqual(["💃"]);
    expect(unprintable("① twice, ½ ﬁt, Ｈ, ↻ and ✓")).toEqual(["✓"]);
    expect(unprintable("Zażółć, e\u0301 and “Βήμα” — шаг…")).toEqual([]);
  });

  it("are a finding at its key where there is none", () => {
    const text = [
      "---",
      "title: Salt ☂",
      "choreographer: Ines Varga",
      "music: { tempo: 90 }",
      "sections:",
      "  - name: A",
      "    counts:",
      "      - 1-4: Drag to the left",
      "        5-8: { do: Step →, note: soft ❤ }",
      "---",
      "",
    ].join("\n");
    const found = readRoutine(text, "salt", library).findings.filter(({ rule }) => rule === "no-glyph");
    expect(
      found.map(({ line, column, severity, message }) => [line, column, severity, /"(.)"/u.exec(message)?.[1]]),
    ).toEqual([
      [2, 1, "warning", "☂"],
      [9, 28, "warning", "❤"],
    ]);
  });
});

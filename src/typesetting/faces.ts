import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import type { Font } from "fontkit";
import { openFont } from "./adapter.js";
import { arrowLines } from "./arrows.js";
import { rememberShaping } from "./shaping.js";
import { remembered, type Style } from "./style.js";
import { unpackWoff } from "./woff.js";

/** One font file: a family's subset in one style. Its key names it inside a document. */
export interface Face {
  readonly key: string;
  readonly font: Font;
}

interface Family {
  readonly name: string;
  /** Subsets, the likeliest first; each is a file of its own. */
  readonly subsets: readonly string[];
}

/*
 * Atkinson Hyperlegible Next was drawn for readers with low vision, but knows Latin letters only. Source Sans 3 stands in,
 * word by word, for the scripts that it lacks.
 */
const families: readonly Family[] = [
  { name: "atkinson-hyperlegible-next", subsets: ["latin", "latin-ext"] },
  {
    name: "source-sans-3",
    subsets: ["latin", "latin-ext", "vietnamese", "cyrillic", "greek", "cyrillic-ext", "greek-ext"],
  },
];
const cuts: Record<Style, string> = {
  regular: "400-normal",
  bold: "700-normal",
  italic: "400-italic",
  figures: "700-normal",
};
/**
 * Times in a column want digits of one width, which those of Source Sans 3 have; and its zero is plain, where one with a stroke through it
 * is taken for an eight in a poor light.
 */
const inOrder: Record<Style, readonly Family[]> = {
  regular: families,
  bold: families,
  italic: families,
  figures: [...families].reverse(),
};

const require = createRequire(import.meta.url);
const opened = new Map<string, Face>();

function openFace(family: string, subset: string, style: Style): Face {
  const key = `${family}-${subset}-${cuts[style]}`;
  const known = opened.get(key);
  if (known !== undefined) return known;
  // By way of the package's folder: Node takes a star in that folder's path for the one in the package's list of files.
  const path = join(dirname(require.resolve(`@fontsource/${family}/package.json`)), "files", `${key}.woff`);
  const face = { key, font: rememberShaping(openFont(unpackWoff(readFileSync(path)))) };
  opened.set(key, face);
  return face;
}

/** As much of a text as one face can set. */
export interface FaceRun extends Letter {
  /** At a size of 1. */
  readonly width: number;
}

/** Characters that take no ink and no room, and are left out of print: joiners, direction marks, variation selectors. */
const invisible = /[\p{Cf}\p{Cc}\p{Variation_Selector}]/gu;

/** A text as it is printed: composed letters, no white space but plain spaces and those that do not break, nothing invisible. */
export function printable(text: string): string {
  return text
    .normalize("NFC")
    .replace(/\u202f/gu, "\u00a0")
    .replace(/[^\S\u00a0]/gu, " ")
    .replace(invisible, "");
}

/** A word (white space and all) taken apart into runs of one face each; no word mixes the two families. */
export const faceRuns = remembered((word, style): readonly FaceRun[] => {
  const family = inOrder[style].find(({ name, subsets }) =>
    [...word].every((letter) => subsets.some((subset) => has(openFace(name, subset, style), letter))),
  );
  return joinLetters([...word].flatMap((sign) => lettersFor(sign, style, family)));
});

function has({ font }: Face, letter: string): boolean {
  return font.hasGlyphForCodePoint(letter.codePointAt(0) ?? 0);
}

/** What is seen, and in which face. */
interface Letter {
  readonly face: Face;
  readonly text: string;
  /** What it stands for, where that is another sign: who listens or copies gets the real one. */
  readonly actual?: string;
  /** Lines to draw in place of letters. */
  readonly lines?: ReturnType<typeof arrowLines>;
}

/** Stands where a sign can neither be set nor drawn: the sheet stays honest, and never shows an empty box. */
const unknown = "[?]";

const faceWith = (letter: string, style: Style, all: readonly Family[] = families): Face | undefined => {
  for (const { name, subsets } of all)
    for (const subset of subsets) {
      const face = openFace(name, subset, style);
      if (has(face, letter)) return face;
    }
  return undefined;
};

/** A sign that no face has keeps its meaning: as a letter of the same meaning, as a drawn arrow, or else as a mark. */
function lettersFor(sign: string, style: Style, family: Family | undefined): readonly Letter[] {
  const own = faceWith(sign, style, family === undefined ? families : [family]);
  if (own !== undefined) return [{ face: own, text: sign }];
  const plain = openFace("atkinson-hyperlegible-next", "latin", style);
  const lines = arrowLines(sign);
  // A space under an arrow: readers put what stands for it where they find text.
  if (lines !== undefined) return [{ face: plain, text: " ", actual: sign, lines }];
  const compatible = compatibleForm(sign);
  if (compatible === undefined) return [{ face: plain, text: unknown, actual: sign }];
  const face = faceWith(compatible, style) ?? plain;
  if ([...compatible].every((text) => has(face, text))) return [{ face, text: compatible, actual: sign }];
  return [...compatible].map((text, index) => {
    return { face: faceWith(text, style) ?? plain, text, actual: index === 0 ? sign : "" };
  });
}

/** The compatibility form of a sign (Unicode Standard Annex 15: NFKC), if the faces have that. */
function compatibleForm(sign: string): string | undefined {
  const form = sign.normalize("NFKC");
  return form !== sign && [...form].every(inFaces) ? form : undefined;
}

/** Whether any of the faces has a letter of its own for a sign. */
export function inFaces(sign: string): boolean {
  return faceWith(sign, "regular") !== undefined;
}

function joinLetters(letters: readonly Letter[]): readonly FaceRun[] {
  const joined: Letter[] = [];
  for (const letter of letters) {
    const last = joined.at(-1);
    const { face, text, actual = "" } = letter;
    if (last?.text === unknown && text === unknown && last.actual !== undefined)
      joined[joined.length - 1] = { ...last, actual: last.actual + actual };
    else if (last?.face === face && last.actual === undefined && letter.actual === undefined)
      joined[joined.length - 1] = { face, text: last.text + text };
    else joined.push(letter);
  }
  return joined.map((letter) => {
    const { font } = letter.face;
    const width = letter.lines === undefined ? font.layout(letter.text).advanceWidth / font.unitsPerEm : 1;
    return { ...letter, width };
  });
}

/**
 * The characters of a text that paper can show with a mark alone, each once, in order.
 *
 * @example missingGlyphs("Drag → left 💃") // ["💃"]
 */
export function missingGlyphs(text: string): readonly string[] {
  return [...new Set(printable(text))].filter(
    (sign) => !inFaces(sign) && arrowLines(sign) === undefined && compatibleForm(sign) === undefined,
  );
}

/** Width of a word at a size of 1. */
export const unitWidth = remembered((word, style) => faceRuns(word, style).reduce((sum, run) => sum + run.width, 0));

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import type { Font } from "fontkit";
import { openFont } from "./adapter.js";
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
const cuts: Record<Style, string> = { regular: "400-normal", bold: "700-normal", italic: "400-italic" };

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
export interface FaceRun {
  readonly face: Face;
  readonly text: string;
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
  const family = families.find(({ name, subsets }) =>
    [...word].every((letter) => subsets.some((subset) => has(openFace(name, subset, style), letter))),
  );
  return joinLetters([...word].map((letter) => faceOf(letter, style, family)));
});

function has({ font }: Face, letter: string): boolean {
  return font.hasGlyphForCodePoint(letter.codePointAt(0) ?? 0);
}

interface Letter {
  readonly face: Face;
  readonly text: string;
}

/** A letter that no face has is spelt out by its number: the sheet stays honest, and never shows an empty box. */
function faceOf(letter: string, style: Style, family: Family | undefined): Letter {
  for (const { name, subsets } of family === undefined ? families : [family])
    for (const subset of subsets) {
      const face = openFace(name, subset, style);
      if (has(face, letter)) return { face, text: letter };
    }
  const code = (letter.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, "0");
  return { face: openFace("atkinson-hyperlegible-next", "latin", style), text: `[U+${code}]` };
}

function joinLetters(letters: readonly Letter[]): readonly FaceRun[] {
  const joined: Letter[] = [];
  for (const { face, text } of letters) {
    const last = joined.at(-1);
    if (last?.face === face) joined[joined.length - 1] = { face, text: last.text + text };
    else joined.push({ face, text });
  }
  return joined.map(({ face, text }) => ({
    face,
    text,
    width: face.font.layout(text).advanceWidth / face.font.unitsPerEm,
  }));
}

/**
 * The characters of a text that no bundled face can print, each once, in order.
 *
 * @example missingGlyphs("Drag → left 💃") // ["→", "💃"]
 */
export function missingGlyphs(text: string): readonly string[] {
  return [...new Set(printable(text))].filter(
    (letter) =>
      !families.some(({ name, subsets }) => subsets.some((subset) => has(openFace(name, subset, "regular"), letter))),
  );
}

/** Width of a word at a size of 1. */
export const unitWidth = remembered((word, style) => faceRuns(word, style).reduce((sum, run) => sum + run.width, 0));

import type { Font, Glyph, GlyphPosition, GlyphRun } from "fontkit";

/**
 * The same font with shaping kept for as long as the process runs: fontkit takes about 0.1 ms for a word, and the words of
 * a library come again on every sheet. Plain letters need no more than their widths and the kerning of each pair.
 */
export function rememberShaping(font: Font): Font {
  const glyphs = new Map<string, Glyph>();
  const kerns = new Map<string, number>();
  const glyphOf = (letter: string): Glyph => {
    const known = glyphs.get(letter) ?? font.glyphForCodePoint(letter.codePointAt(0) ?? 0);
    glyphs.set(letter, known);
    return known;
  };
  const kernOf = (pair: string, left: Glyph): number => {
    const known = kerns.get(pair) ?? (font.layout(pair).positions[0]?.xAdvance ?? 0) - left.advanceWidth;
    kerns.set(pair, known);
    return known;
  };
  const layout = (text: string): GlyphRun => {
    if (/\p{M}/u.test(text)) return font.layout(text);
    const letters = [...text];
    const run = letters.map(glyphOf);
    const positions = run.map((glyph, index): GlyphPosition => {
      const next = letters[index + 1];
      const kern = next === undefined ? 0 : kernOf(`${letters[index]}${next}`, glyph);
      return { xAdvance: glyph.advanceWidth + kern, yAdvance: 0, xOffset: 0, yOffset: 0 };
    });
    return { glyphs: run, positions, advanceWidth: positions.reduce((sum, { xAdvance }) => sum + xAdvance, 0) };
  };
  return Object.assign(Object.create(font) as Font, { layout });
}

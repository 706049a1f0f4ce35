import type { Font, Glyph, GlyphPosition, GlyphRun } from "fontkit";

/**
 * The same font with shaping kept for as long as the process runs: fontkit takes about 0.1 ms for a word, and the words of
 * a library come again on every sheet. Plain letters need no more than their widths and the kerning of each pair.
 *
 * @param features OpenType features to set it with, beside the usual ones
 */
export function rememberShaping(font: Font, features: readonly string[] = []): Font {
  const glyphs = new Map<string, Glyph>();
  const kerns = new Map<string, number>();
  const shape = (text: string): GlyphRun => font.layout(text, features);
  const find = (letter: string): Glyph => {
    const codePoint = letter.codePointAt(0) ?? 0;
    const [own] = features.length === 0 ? [] : shape(letter).glyphs;
    // A glyph that stands in for another does not know what it says, and who listens or copies would get nothing.
    return own === undefined
      ? font.glyphForCodePoint(codePoint)
      : (Object.create(own, { codePoints: { value: [codePoint] } }) as Glyph);
  };
  const glyphOf = (letter: string): Glyph => {
    const known = glyphs.get(letter) ?? find(letter);
    glyphs.set(letter, known);
    return known;
  };
  const kernOf = (pair: string, left: Glyph): number => {
    const known = kerns.get(pair) ?? (shape(pair).positions[0]?.xAdvance ?? 0) - left.advanceWidth;
    kerns.set(pair, known);
    return known;
  };
  const layout = (text: string): GlyphRun => {
    if (/\p{M}/u.test(text)) return shape(text);
    const letters = [...text];
    const run = letters.map(glyphOf);
    const positions = run.map((glyph, index): GlyphPosition => {
      const next = letters[index + 1];
      const kern = next === undefined ? 0 : kernOf(`${letters[index]}${next}`, glyph);
      return { xAdvance: glyph.advanceWidth + kern, yAdvance: 0, xOffset: 0, yOffset: 0 };
    });
    return { glyphs: run, positions, advanceWidth: positions.reduce((sum, { xAdvance }) => sum + xAdvance, 0) };
  };
  // pdfkit takes fonts of one name for the same, whatever they are set with.
  const postscriptName = [font.postscriptName, ...features].join("-");
  return Object.create(font, { layout: { value: layout }, postscriptName: { value: postscriptName } }) as Font;
}

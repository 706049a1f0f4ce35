/** What is used here of fontkit as its documentation has it: it comes without types of its own. */
declare module "fontkit" {
  export interface Glyph {
    readonly id: number;
    readonly advanceWidth: number;
    readonly codePoints: readonly number[];
    /** Its contours as drawing commands, in font units, y upwards. */
    readonly path: { readonly commands: readonly PathCommand[] };
  }
  export interface PathCommand {
    readonly command: string;
    readonly args: readonly number[];
  }
  export interface GlyphPosition {
    xAdvance: number;
    yAdvance: number;
    xOffset: number;
    yOffset: number;
  }
  export interface GlyphRun {
    readonly glyphs: readonly Glyph[];
    readonly positions: readonly GlyphPosition[];
    readonly advanceWidth: number;
  }
  export interface Font {
    readonly postscriptName: string;
    readonly unitsPerEm: number;
    readonly ascent: number;
    readonly descent: number;
    readonly capHeight: number;
    readonly xHeight: number;
    readonly numGlyphs: number;
    /** Code points that have a glyph, in ascending order. */
    readonly characterSet: readonly number[];
    getGlyph(id: number): Glyph;
    hasGlyphForCodePoint(codePoint: number): boolean;
    glyphForCodePoint(codePoint: number): Glyph;
    layout(text: string): GlyphRun;
  }
  export function create(file: Uint8Array): Font;
}

/**
 * The characters that the faces of the printed sheets have, in ranges of code points (hexadecimal). The core reads no font
 * file, so they are listed here; a test compares the list with the faces.
 */
export const printableRanges =
  "21-7e a1-ac ae-181 186 18a 18d-190 192-194 196-197 19a-19b 19e 1a0-1a1 1af-1b1 1b7 1bf-1c3 1cd-1dd 1e2-1e7 " +
  "1ea-1eb 1ee-1f0 1f4-1f5 1f7-201 204-205 208-209 20c-20d 218-220 222-223 226-227 237 23a-23e 241-245 248-249 " +
  "250-27b 27d-285 287-292 294-295 298-299 29b-29f 2a1-2a8 2b0-2b4 2b7-2b9 2bb-2c1 2c6-2cc 2d0-2d7 2da 2dc-2de " +
  "2e0-2e4 2ed 300-301 303-304 308-309 323 329 340-341 344 374-375 37a 37e 384-38a 38c 38e-3a1 3a3-3d1 3d5 3d7 " +
  "3d9 3db 3dd 3e1 3f4 3f7-3f8 400-45f 462-463 472-475 490-493 496-49b 4a0-4a3 4aa-4ab 4ae-4b3 4b6-4b7 4ba-4bb " +
  "4c0-4c4 4c7-4c8 4cf-4d1 4d4-4d9 4e2-4e3 4e6-4e9 4ee-4ef 4f2-4f3 4f6-4f7 1d25 1d2c 1d2e 1d30-1d31 1d33-1d3a " +
  "1d3c 1d3e-1d43 1d47-1d4b 1d4d 1d4f-1d52 1d56-1d58 1d5b 1d6f-1d70 1d79 1d7b 1d7f 1d9c 1da0 1dac 1dae 1db0 " +
  "1dbb 1dbf 1e02-1e03 1e06-1e07 1e0a-1e11 1e16-1e17 1e1e-1e2b 1e32-1e3b 1e3e-1e49 1e52-1e53 1e56-1e63 " +
  "1e66-1e67 1e6a-1e6f 1e72-1e73 1e7e-1e85 1e8e-1e97 1e9e-1ef9 1f00-1f15 1f18-1f1d 1f20-1f45 1f48-1f4d " +
  "1f50-1f57 1f59 1f5b 1f5d 1f5f-1f7d 1f80-1fb4 1fb6-1fc4 1fc6-1fd3 1fd6-1fdb 1fdd-1fef 1ff2-1ff4 1ff6-1ffe " +
  "2013-2014 2018-201a 201c-201e 2020 2022 2026 2032-2033 2039-203a 2044 20a1 20a3-20a4 20a6-20a7 20a9 " +
  "20ab-20ac 20ae 20b1-20b2 20b4-20b5 20b8-20ba 20bd 2113 2116 2122 2126 212a-212b 2191 2193 2212 2215 " +
  "2c60-2c62 2c65-2c66 2c71 2c7d a722-a725 a74e-a74f a75a-a75b a764-a765 a779-a787 a789 a7ad-a7ae a7b3 a7b5 " +
  "a7f2-a7f4";

const ranges = printableRanges.split(" ").map((range) => {
  const [from = "", to = from] = range.split("-");
  return [Number.parseInt(from, 16), Number.parseInt(to, 16)] as const;
});

/** Arrows that the sheets draw; the same test compares them. */
export const drawnArrows = "⇑⬆▲↗⇗⬈→⇒⟶⟹➔➙➛➜➝➞➡➤▶►↘⇘⬊⇓⬇▼↙⇙⬋←⇐⟵⟸⬅◀◄↖⇖⬉↔⇔⟷⟺⬌↕⇕⬍↻⟳↷↺⟲↶";

/** White space, and what takes no ink: joiners, direction marks, variation selectors. */
const inkless = /[\s\p{Cf}\p{Cc}\p{Variation_Selector}]/u;

/**
 * The characters of a text that no printed sheet can show, each once, in order: not as they are, nor as an arrow that is drawn,
 * nor in their compatibility form (Unicode Standard Annex 15: "①" as "1").
 *
 * @example unprintable("Drag → left 💃") // ["💃"]
 */
export function unprintable(text: string): readonly string[] {
  const found = [...text.normalize("NFC")].filter(
    (letter) => !inkless.test(letter) && !hasLetter(letter) && !drawnArrows.includes(letter) && !hasCompatible(letter),
  );
  return [...new Set(found)];
}

function hasCompatible(letter: string): boolean {
  const form = letter.normalize("NFKC");
  return form !== letter && [...form].every((one) => one === " " || hasLetter(one));
}

function hasLetter(letter: string): boolean {
  const code = letter.codePointAt(0) ?? 0;
  return ranges.some(([from, to]) => from <= code && code <= to);
}

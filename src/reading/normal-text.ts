/*
 * One and the same text can be spelt in several ways: é is one letter, or an e with an accent behind it (a Mac names files the
 * second way). Names are compared all over, so each text is brought to one spelling as it is read.
 */

/** A text in Unicode's form C (UAX #15), its marks of writing direction closed. */
export function normalText(text: string): string {
  return closeDirections(text.normalize("NFC"));
}

/** Signs that open an embedding or an override, and those that open an isolate (UAX #9, 2). */
const embeddings = "\u202a\u202b\u202d\u202e";
const isolates = "\u2066\u2067\u2068";
const endOfEmbedding = "\u202c";
const endOfIsolate = "\u2069";
const opening = /[\u202a\u202b\u202d\u202e\u2066-\u2068]/;

/**
 * Closes marks of writing direction that a paragraph leaves open, each at the end of its line: what stands behind the text on
 * a page is none of theirs. Line numbers stay.
 */
export function closeDirections(text: string): string {
  if (!opening.test(text)) return text;
  return text
    .split(/(\n[ \t]*\n)/)
    .map((paragraph) => (missingEnds(paragraph) === "" ? paragraph : paragraph.split("\n").map(closeLine).join("\n")))
    .join("");
}

/* Spaces or a backslash at the end of a line break it in Markdown, so they stay there. */
function closeLine(line: string): string {
  const ends = missingEnds(line);
  return ends === "" ? line : line.replace(/[ \t]*\\?$/, (breaking) => ends + breaking);
}

/** The ends that are missing, the innermost first. The end of an isolate ends what is open within it as well. */
function missingEnds(text: string): string {
  const open: string[] = [];
  for (const sign of text) {
    if (embeddings.includes(sign)) open.push(endOfEmbedding);
    else if (isolates.includes(sign)) open.push(endOfIsolate);
    else if (sign === endOfEmbedding && open.at(-1) === endOfEmbedding) open.pop();
    else if (sign === endOfIsolate && open.includes(endOfIsolate)) open.length = open.lastIndexOf(endOfIsolate);
  }
  return open.reverse().join("");
}

/** True of a text in which nothing can be seen: spaces, and signs that only steer those around them. */
export function isBlank(text: string): boolean {
  return /^[\s\u2800\p{Z}\p{Default_Ignorable_Code_Point}]*$/u.test(text);
}

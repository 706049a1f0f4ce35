import { PDFParse } from "pdf-parse";
import { getDocument, type PDFDocumentProxy } from "pdfjs-dist/legacy/build/pdf.mjs";

/** A stretch of text on a page as pdf.js finds it; points from the top left corner. */
export interface TextBox {
  readonly text: string;
  readonly size: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface ReadPage {
  readonly width: number;
  readonly height: number;
  readonly boxes: readonly TextBox[];
}

/** Opens a file with pdf.js (Mozilla), which shares no code with what wrote it. */
export async function openPdf<T>(file: Uint8Array, read: (document: PDFDocumentProxy) => Promise<T>): Promise<T> {
  const task = getDocument({ data: new Uint8Array(file), verbosity: 0 });
  try {
    return await read(await task.promise);
  } finally {
    await task.destroy();
  }
}

export function readPages(file: Uint8Array): Promise<readonly ReadPage[]> {
  return openPdf(file, async (document) => {
    const pages: ReadPage[] = [];
    for (let number = 1; number <= document.numPages; number++) {
      const page = await document.getPage(number);
      const [, , width = 0, height = 0] = page.view;
      const { items } = await page.getTextContent();
      const boxes = items.flatMap((item): readonly TextBox[] =>
        "str" in item && item.str.trim() !== "" ? [boxOf(item, height)] : [],
      );
      pages.push({ width, height, boxes });
    }
    return pages;
  });
}

/** From the top of a capital to the foot of a g: about what the bundled faces cover around their base line. */
function boxOf(item: { str: string; width: number; transform: number[] }, height: number): TextBox {
  const [size = 0, , , , left = 0, base = 0] = item.transform;
  return {
    text: item.str,
    size,
    left,
    right: left + item.width,
    top: height - base - size * 0.72,
    bottom: height - base + size * 0.22,
  };
}

/** The text of all pages in the order of the file, as pdf-parse reads it. */
export async function readText(file: Uint8Array): Promise<string> {
  const parser = new PDFParse({ data: new Uint8Array(file), verbosity: 0 });
  try {
    const { text } = await parser.getText({ pageJoiner: "" });
    return text;
  } finally {
    await parser.destroy();
  }
}

/** A text with every run of white space as one space. */
export function spaced(text: string): string {
  return text.normalize("NFC").replace(/\s+/gu, " ").trim();
}

/** The first of the texts that does not follow on those before it; undefined where all stand in order. */
export function firstOutOfOrder(whole: string, texts: readonly string[]): string | undefined {
  let from = 0;
  for (const text of texts) {
    const at = whole.indexOf(spaced(text), from);
    if (at < 0) return text;
    from = at + spaced(text).length;
  }
  return undefined;
}

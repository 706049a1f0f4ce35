import { addLink, collectFile, type Doc, gatherContent, openDocument, setAttributes } from "../adapter.js";
import { type Bookmark, type Mark, type Print, papers, type StructureElement, type Target } from "../print.js";
import type { Shape } from "../shape.js";
import { compactPdf } from "./compact.js";
import { drawMark, type InkState, newInk } from "./ink.js";

/** Writes a tagged PDF (ISO 32000-1 with the PDF/UA-1 identifier of ISO 14289-1). The same print gives the same bytes. */
export async function writePrint(print: Print): Promise<Uint8Array> {
  const doc = openTagged(print);
  const file = collectFile(doc);
  const content = gatherContent(doc);
  for (let page = 0; page < print.pages; page++) doc.addPage({ size: [...papers[print.paper]], margin: 0 });
  const ink = newInk();
  const decorate = (marks: readonly Mark[]) => drawDecoration(doc, marks, print.pages, ink);
  decorate(print.decoration);
  const root = doc.struct("Document");
  doc.addStructure(root);
  for (const element of print.elements) writeElement(doc, root, element, ink);
  root.end();
  if (print.again !== undefined) {
    content.again(print.again.down);
    decorate(print.again.between);
  }
  for (const bookmark of print.bookmarks) addBookmark(doc.outline, bookmark, papers[print.paper][0]);
  content.write();
  doc.end();
  return compactPdf(await file);
}

/** Draws what is seen and never read out. */
function drawDecoration(doc: Doc, decoration: readonly Mark[], pages: number, ink: InkState): void {
  for (let page = 0; page < pages; page++) {
    const marks = decoration.filter((mark) => mark.page === page);
    if (marks.length === 0) continue;
    doc.switchToPage(page);
    doc.markContent("Artifact", { type: "Layout" });
    for (const mark of marks) drawMark(doc, mark, ink);
    doc.endMarkedContent();
  }
}

function openTagged(print: Print): Doc {
  const doc = openDocument({
    autoFirstPage: false,
    bufferPages: true,
    pdfVersion: "1.7",
    tagged: true,
    displayTitle: true,
    lang: print.language,
    font: "",
    info: {
      Title: print.title,
      ...(print.author === undefined ? {} : { Author: print.author }),
      Creator: "countleaf",
      CreationDate: new Date(`${print.date ?? "2000-01-01"}T00:00:00Z`),
    },
  });
  /*
   * pdfkit's own PDF/UA setting would add a CIDSet that leaves out the components of composed letters, which the standard
   * forbids (ISO 14289-1, 7.21.4.2); the identifier is all that is wanted of it.
   */
  doc.appendXML(
    '<rdf:Description rdf:about="" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"><pdfuaid:part>1</pdfuaid:part></rdf:Description>',
  );
  return doc;
}

function writeElement(doc: Doc, parent: PDFKit.PDFStructureElement, element: StructureElement, ink: InkState): void {
  const { tag, alt, lang, box, target } = element;
  const struct = doc.struct(tag, {
    // A link's words are its content: what it says of where it leads goes to its annotation.
    ...(alt !== undefined && target === undefined && { alt }),
    ...(lang !== undefined && { lang }),
    ...(box !== undefined && { bbox: [...box], placement: "Block" }),
  });
  addTableAttributes(struct, element);
  parent.add(struct);
  for (const run of runsOf(element)) {
    const [first] = run;
    if (first === undefined) continue;
    if ("tag" in first) {
      writeElement(doc, struct, first, ink);
      continue;
    }
    doc.switchToPage(first.page);
    struct.add(doc.markStructureContent(element.tag));
    for (const mark of run) if (!("tag" in mark)) drawMark(doc, mark, ink);
    doc.endMarkedContent();
  }
  if (element.target !== undefined) placeLink(doc, struct, element, element.target);
  struct.end();
}

/** An element's content, marks that follow each other on a page together. */
function runsOf({ content }: StructureElement): readonly (readonly (StructureElement | Mark)[])[] {
  const runs: (StructureElement | Mark)[][] = [];
  for (const inner of content) {
    const run = runs.at(-1);
    const last = run?.at(-1);
    const joins = last !== undefined && !("tag" in last) && !("tag" in inner) && last.page === inner.page;
    if (joins) run?.push(inner);
    else runs.push([inner]);
  }
  return runs;
}

function addTableAttributes(struct: PDFKit.PDFStructureElement, { scope, columns, rows }: StructureElement): void {
  if (scope === undefined && columns === undefined && rows === undefined) return;
  setAttributes(struct, {
    O: "Table",
    ...(scope === undefined ? {} : { Scope: scope }),
    ...(columns === undefined ? {} : { ColSpan: columns }),
    ...(rows === undefined ? {} : { RowSpan: rows }),
  });
}

/** Makes all that a link holds, deep inside too, a place to click: one on each page. */
function placeLink(doc: Doc, struct: PDFKit.PDFStructureElement, element: StructureElement, target: Target): void {
  const marks = marksIn(element);
  for (const page of new Set(marks.map((mark) => mark.page))) {
    const boxes = marks.filter((mark) => mark.page === page).map(boxOf);
    const [left, top] = [Math.min(...boxes.map((box) => box.left)), Math.min(...boxes.map((box) => box.top))];
    const [right, bottom] = [Math.max(...boxes.map((box) => box.right)), Math.max(...boxes.map((box) => box.bottom))];
    doc.switchToPage(page);
    const leads = "href" in target ? target.href : target.page;
    addLink(doc, struct, [left, top, right - left, bottom - top], leads, element.alt ?? "");
  }
}

function marksIn({ content }: StructureElement): readonly Mark[] {
  return content.flatMap((inner) => ("tag" in inner ? marksIn(inner) : [inner]));
}

function boxOf(mark: Mark) {
  const [width, height] = "line" in mark ? [mark.line.width, mark.line.size * 1.2] : sizeOf(mark.shapes);
  return { left: mark.x, top: mark.y, right: mark.x + width, bottom: mark.y + height };
}

function sizeOf(shapes: readonly Shape[]): readonly [width: number, height: number] {
  const corners = shapes.flatMap((shape) =>
    shape.kind === "box" ? [[shape.at[0] + shape.width, shape.at[1] + shape.height] as const] : [],
  );
  return [Math.max(...corners.map(([x]) => x)), Math.max(...corners.map(([, y]) => y))];
}

function addBookmark(parent: PDFKit.PDFOutline, bookmark: Bookmark, width: number): void {
  // pdfkit measures `left` from the right edge.
  const options = { pageNumber: bookmark.page, top: bookmark.y, left: width, expanded: true };
  const item = parent.addItem(bookmark.title, options);
  for (const under of bookmark.under) addBookmark(item, under, width);
}

import { create } from "fontkit";
import { beforeAll, describe, expect, it } from "vitest";
import { drawHandout } from "../../../src/publishing/handout/handout.js";
import { drawPack } from "../../../src/publishing/pack/pack.js";
import { readContent as readLibrary } from "../../../src/reading/read-content.js";
import { mirror } from "../../../src/routine/mirror.js";
import type { Routine } from "../../../src/routine/routine.js";
import {
  type PdfDictionary,
  type PdfFile,
  type PdfObject,
  type PdfRef,
  type PdfText,
  readContent,
  readObjects,
} from "../../fixtures/pdf-objects.js";
import { openPdf } from "../../fixtures/read-pdf.js";

/*
 * Conditions that a machine can check, by their numbers in the Matterhorn Protocol 1.1 (PDF Association, 2021), which lists
 * how a file can fail PDF/UA-1 (ISO 14289-1). Left out are those for what these files never have: role maps, formulas,
 * notes, forms, optional content, attachments, encryption, media, XObjects, and fonts of other kinds; the first test says
 * that they have none of it.
 */

interface Element {
  readonly type: string;
  readonly dictionary: PdfDictionary;
  readonly children: readonly Element[];
}

interface Subject {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly file: PdfFile;
  readonly catalog: PdfDictionary;
  readonly pages: readonly PdfDictionary[];
  readonly root: Element;
}

const subjects: Subject[] = [];

const library = await readLibrary("content");
const routine = (slug: string): Routine => {
  const found = library.routines.find((one) => one.slug === slug);
  if (found === undefined) throw new Error(`The demo library has no ${slug}.`);
  return found;
};

beforeAll(async () => {
  const floor = routine("breakwater-letters");
  const [sheet, other] = [floor.versions.at(-2), mirror(floor).versions[1]];
  const walls = routine("fourpenny-gate");
  const [first] = walls.versions;
  const [workshop] = library.workshops;
  if (!sheet || !other || !first || !workshop) throw new Error("The demo library is not what it was.");
  add("sheet", await drawHandout(floor, sheet, library.library, "sheet"));
  add("mirrored", await drawHandout(mirror(floor), other, library.library, "sheet"));
  add("line dance", await drawHandout(walls, first, library.library, "sheet"));
  add("large", await drawHandout(floor, sheet, library.library, "large"));
  add("card", await drawHandout(floor, sheet, library.library, "card"));
  add("pack", await drawPack(workshop, library.library));
});

function add(name: string, bytes: Uint8Array): void {
  const file = readObjects(bytes);
  const catalog = follow(file, file.trailer["/Root"]) as PdfDictionary;
  const tree = follow(file, catalog["/Pages"]) as PdfDictionary;
  const pages = (tree["/Kids"] as PdfObject[]).map((kid) => follow(file, kid) as PdfDictionary);
  const top = follow(file, catalog["/StructTreeRoot"]) as PdfDictionary;
  const [only] = top["/K"] as PdfObject[];
  subjects.push({ name, bytes, file, catalog, pages, root: elementOf(file, only) });
}

function follow(file: PdfFile, object: PdfObject | undefined): PdfObject | undefined {
  return isRef(object) ? file.objects.get(object.ref) : object;
}

const isRef = (object: unknown): object is PdfRef => typeof object === "object" && object !== null && "ref" in object;
const text = (object: PdfObject | undefined): string => (object as PdfText | undefined)?.text ?? "";

function elementOf(file: PdfFile, object: PdfObject | undefined): Element {
  const dictionary = follow(file, object) as PdfDictionary;
  const kids = (dictionary["/K"] ?? []) as readonly PdfObject[];
  const children = kids.filter((kid) => isRef(kid)).map((kid) => elementOf(file, kid));
  return { type: dictionary["/S"] as string, dictionary, children };
}

const all = (element: Element): readonly Element[] => [element, ...element.children.flatMap(all)];
const ofType = ({ root }: Subject, ...types: readonly string[]) => all(root).filter(({ type }) => types.includes(type));

function everySubject(check: (subject: Subject) => void): void {
  expect(subjects).toHaveLength(6);
  for (const subject of subjects) check(subject);
}

/** Fonts by their object numbers, with the font program of each. */
function fontsOf({ file }: Subject) {
  return [...file.objects.values()].flatMap((object) => {
    const font = object as PdfDictionary | null;
    if (font === null || typeof font !== "object" || font["/Subtype"] !== "/Type0") return [];
    const [kid] = font["/DescendantFonts"] as PdfObject[];
    const inner = follow(file, kid) as PdfDictionary;
    const descriptor = follow(file, inner["/FontDescriptor"]) as PdfDictionary;
    const program = create(new Uint8Array(file.streamOf(descriptor["/FontFile2"])));
    const unicode = file.streamOf(font["/ToUnicode"]).toString("latin1");
    return [{ font, inner, descriptor, program, unicode }];
  });
}

/** Walks the content of a page: what is shown or painted, and what marks stand around it. */
function marksOf({ file }: Subject, page: PdfDictionary) {
  const open: { readonly tag: string; readonly id: number | undefined }[] = [];
  const painted: { readonly operator: string; readonly open: readonly { tag: string; id: number | undefined }[] }[] =
    [];
  const nestings: string[] = [];
  const glyphs: { readonly font: string; readonly codes: readonly number[] }[] = [];
  let font = "";
  for (const { operator, operands } of readContent(file.streamOf(page["/Contents"]))) {
    if (operator === "BMC" || operator === "BDC") {
      const properties = operands[1] as PdfDictionary | undefined;
      open.push({ tag: operands[0] as string, id: properties?.["/MCID"] as number | undefined });
      nestings.push(open.map(({ tag }) => tag).join(" "));
    } else if (operator === "EMC") open.pop();
    else if (operator === "Tf") font = operands[0] as string;
    else if (["TJ", "Tj", "f", "f*", "F", "S", "s", "B", "B*", "b", "b*", "Do", "sh"].includes(operator)) {
      painted.push({ operator, open: [...open] });
      if (operator === "TJ") glyphs.push({ font, codes: codesOf(operands[0] as readonly PdfObject[]) });
    }
  }
  return { painted, nestings, glyphs, left: open.length };
}

function codesOf(items: readonly PdfObject[]): readonly number[] {
  return items.flatMap((item) => {
    const bytes = Buffer.from(text(item), "latin1");
    return Array.from({ length: bytes.length / 2 }, (_, index) => bytes.readUInt16BE(index * 2));
  });
}

describe("Matterhorn Protocol 1.1", () => {
  it("has none of what the other conditions are about", () => {
    everySubject(({ catalog, file, pages }) => {
      for (const key of ["/AcroForm", "/OCProperties", "/AF", "/Perms"] as const) expect(catalog[key]).toBeUndefined();
      expect(file.trailer["/Encrypt"]).toBeUndefined();
      expect((follow(file, catalog["/StructTreeRoot"]) as PdfDictionary)["/RoleMap"]).toBeUndefined();
      for (const page of pages) expect((follow(file, page["/Resources"]) as PdfDictionary)["/XObject"]).toBeUndefined();
    });
  });

  it("01-003 no artifact inside tagged content, 01-004 no tagged content inside an artifact", () => {
    everySubject((subject) => {
      for (const page of subject.pages)
        expect(marksOf(subject, page).nestings.filter((one) => one.includes(" "))).toEqual([]);
    });
  });

  it("01-005 all content is an artifact or tagged", () => {
    everySubject((subject) => {
      for (const page of subject.pages) {
        const { painted, left } = marksOf(subject, page);
        expect(left).toBe(0);
        expect(painted.length).toBeGreaterThan(0);
        const bare = painted.filter(({ open }) => !open.some(({ tag, id }) => tag === "/Artifact" || id !== undefined));
        expect(bare).toEqual([]);
      }
    });
  });

  it("01-005 every marked-content id belongs to one structure element, by the parent tree too", () => {
    everySubject(({ file, catalog, pages, root }) => {
      const top = follow(file, catalog["/StructTreeRoot"]) as PdfDictionary;
      const numbers = (follow(file, top["/ParentTree"]) as PdfDictionary)["/Nums"] as readonly PdfObject[];
      const owners = new Map<string, string>();
      for (const { dictionary } of all(root))
        for (const kid of (dictionary["/K"] ?? []) as readonly PdfObject[]) {
          const mark = kid as PdfDictionary | number | PdfRef;
          const page = typeof mark === "number" ? dictionary["/Pg"] : isRef(mark) ? undefined : mark["/Pg"];
          const id = typeof mark === "number" ? mark : isRef(mark) ? undefined : mark["/MCID"];
          if (page === undefined || id === undefined) continue;
          const key = `${(page as PdfRef).ref} ${id}`;
          expect(owners.has(key)).toBe(false);
          owners.set(key, dictionary["/S"] as string);
        }
      const tree = follow(file, catalog["/Pages"]) as PdfDictionary;
      pages.forEach((page, index) => {
        const at = numbers.indexOf(page["/StructParents"] as number);
        const parents = numbers[at + 1] as readonly PdfObject[];
        expect(parents.length).toBeGreaterThan(0);
        const kid = (tree["/Kids"] as PdfRef[])[index];
        for (const [id, parent] of parents.entries()) {
          const owner = follow(file, parent) as PdfDictionary;
          expect(owner["/S"]).toBe(owners.get(`${kid?.ref} ${id}`));
        }
      });
    });
  });

  it("01-007 no suspects; marked as tagged", () => {
    everySubject(({ file, catalog }) => {
      const info = follow(file, catalog["/MarkInfo"]) as PdfDictionary;
      expect(info["/Marked"]).toBe(true);
      expect(info["/Suspects"]).not.toBe(true);
    });
  });

  it("02-001 only standard structure types", () => {
    const standard =
      /^\/(Document|Sect|H[1-6]|P|L|LI|Lbl|LBody|Table|TR|TH|TD|Figure|Link|TOC|TOCI|BlockQuote|Code|Span)$/;
    everySubject(({ root }) => {
      expect(all(root).filter(({ type }) => !standard.test(type))).toEqual([]);
    });
  });

  it("06-001 metadata, 06-002 with the PDF/UA identifier, 06-003 and the title", () => {
    everySubject(({ file, catalog }) => {
      const xml = file.streamOf(catalog["/Metadata"]).toString("utf8");
      expect(xml).toContain("<pdfuaid:part>1</pdfuaid:part>");
      expect(xml).toMatch(/<dc:title>\s*<rdf:Alt>\s*<rdf:li xml:lang="x-default">[^<]+<\/rdf:li>/);
    });
  });

  it("07-001 and 07-002 the window shows the title", () => {
    everySubject(({ file, catalog }) => {
      expect((follow(file, catalog["/ViewerPreferences"]) as PdfDictionary)["/DisplayDocTitle"]).toBe(true);
    });
  });

  it("09-004 tables, 09-005 lists and 09-006 contents are built as ISO 32000-1 says", () => {
    const inside: Record<string, readonly string[]> = {
      "/Table": ["/TR"],
      "/TR": ["/TH", "/TD"],
      "/L": ["/LI"],
      "/LI": ["/Lbl", "/LBody"],
      "/TOC": ["/TOCI"],
    };
    const parents: Record<string, string> = {
      "/TR": "/Table",
      "/TH": "/TR",
      "/TD": "/TR",
      "/LI": "/L",
      "/LBody": "/LI",
      "/TOCI": "/TOC",
    };
    everySubject(({ root }) => {
      for (const { type, children } of all(root))
        for (const child of children) {
          if (inside[type] !== undefined) expect(inside[type], `${child.type} in ${type}`).toContain(child.type);
          if (parents[child.type] !== undefined) expect(type, `${child.type} in ${type}`).toBe(parents[child.type]);
        }
    });
  });

  it("09-004 every row of a table has as many cells, spans counted", () => {
    everySubject((subject) => {
      const tables = ofType(subject, "/Table");
      if (subject.name !== "card" && subject.name !== "large") expect(tables.length).toBeGreaterThan(0);
      for (const table of tables) {
        const span = (cell: Element, key: "/ColSpan" | "/RowSpan") =>
          ((cell.dictionary["/A"] as PdfDictionary | undefined)?.[key] as number | undefined) ?? 1;
        let held: number[] = [];
        const widths = table.children.map((row) => {
          const width = held.length + row.children.reduce((sum, cell) => sum + span(cell, "/ColSpan"), 0);
          const taller = row.children
            .filter((cell) => span(cell, "/RowSpan") > 1)
            .map((cell) => span(cell, "/RowSpan"));
          held = [...held, ...taller].map((rows) => rows - 1).filter((rows) => rows > 0);
          return width;
        });
        expect(held).toEqual([]);
        expect(new Set(widths).size, `${subject.name}: ${widths.join(" ")}`).toBe(1);
      }
    });
  });

  it("11-001 to 11-006 the language is declared", () => {
    everySubject(({ catalog }) => expect(text(catalog["/Lang"])).toBe("en"));
  });

  it("13-004 every figure has a text alternative", () => {
    everySubject((subject) => {
      const figures = ofType(subject, "/Figure");
      expect(figures.filter(({ dictionary }) => text(dictionary["/Alt"]).trim() === "")).toEqual([]);
    });
    expect(subjects.flatMap((subject) => ofType(subject, "/Figure")).length).toBeGreaterThan(50);
  });

  it("14-002 the first heading is H1, 14-003 no level is left out, 14-007 no unnumbered headings", () => {
    everySubject((subject) => {
      const levels = all(subject.root).flatMap(({ type }) => (/^\/H[1-6]$/.test(type) ? [Number(type.slice(2))] : []));
      expect(levels[0]).toBe(1);
      levels.forEach((level, index) => {
        expect(level).toBeLessThanOrEqual((levels[index - 1] ?? 0) + 1);
      });
      expect(ofType(subject, "/H")).toEqual([]);
    });
  });

  it("15-003 every header cell has a scope", () => {
    everySubject((subject) => {
      for (const { dictionary } of ofType(subject, "/TH")) {
        const attributes = dictionary["/A"] as PdfDictionary | undefined;
        expect(attributes?.["/O"]).toBe("/Table");
        expect(["/Row", "/Column"]).toContain(attributes?.["/Scope"]);
      }
    });
  });

  it("28-002 only links are annotated, 28-008 and 28-009 tabbing follows the structure", () => {
    everySubject(({ file, pages }) => {
      for (const page of pages) {
        expect(page["/Tabs"]).toBe("/S");
        for (const annotation of (page["/Annots"] ?? []) as readonly PdfObject[])
          expect((follow(file, annotation) as PdfDictionary)["/Subtype"]).toBe("/Link");
      }
    });
  });

  it("28-011 links stand in Link elements, 28-012 and say in words where they lead", () => {
    let links = 0;
    everySubject(({ file, catalog, pages }) => {
      const top = follow(file, catalog["/StructTreeRoot"]) as PdfDictionary;
      const numbers = (follow(file, top["/ParentTree"]) as PdfDictionary)["/Nums"] as readonly PdfObject[];
      for (const page of pages)
        for (const one of (page["/Annots"] ?? []) as readonly PdfObject[]) {
          const annotation = follow(file, one) as PdfDictionary;
          const owner = numbers[numbers.indexOf(annotation["/StructParent"] as number) + 1];
          expect((follow(file, owner) as PdfDictionary)["/S"]).toBe("/Link");
          expect(text(annotation["/Contents"]).length).toBeGreaterThan(0);
          links += 1;
        }
    });
    expect(links).toBeGreaterThan(5);
  });

  it("28-011 whatever is tagged as a link can be clicked: the code, an address, each entry of the contents", () => {
    everySubject((subject) => {
      const { file, catalog, name } = subject;
      const top = follow(file, catalog["/StructTreeRoot"]) as PdfDictionary;
      const numbers = (follow(file, top["/ParentTree"]) as PdfDictionary)["/Nums"] as readonly PdfObject[];
      const links = ofType(subject, "/Link");
      for (const { dictionary } of links) {
        const kids = (dictionary["/K"] ?? []) as readonly PdfObject[];
        const references = kids.filter((kid) => (follow(file, kid) as PdfDictionary)["/Type"] === "/OBJR");
        expect(references.length, name).toBe(1);
        const annotation = follow(file, (references[0] as PdfDictionary)["/Obj"]) as PdfDictionary;
        const [left = 0, bottom = 0, right = 0, above = 0] = annotation["/Rect"] as readonly number[];
        expect(Math.min(right - left, above - bottom), name).toBeGreaterThan(5);
        const owner = numbers[numbers.indexOf(annotation["/StructParent"] as number) + 1];
        expect(follow(file, owner), name).toBe(dictionary);
      }
      const holding = links.filter(({ children }) => children.some(({ type }) => type === "/Figure"));
      if (["sheet", "mirrored", "line dance"].includes(name)) expect(holding.length, name).toBe(1);
      for (const { children } of ofType(subject, "/TOCI")) expect(children.map(({ type }) => type)).toEqual(["/Link"]);
    });
  });

  it("31-004 to 31-006, 31-009: composite fonts with an identity map, embedded", () => {
    everySubject((subject) => {
      const fonts = fontsOf(subject);
      expect(fonts.length).toBeGreaterThan(0);
      for (const { font, inner, descriptor } of fonts) {
        expect(font["/Encoding"]).toBe("/Identity-H");
        expect(inner["/Subtype"]).toBe("/CIDFontType2");
        expect(inner["/CIDToGIDMap"]).toBe("/Identity");
        expect(descriptor["/FontFile2"]).toBeDefined();
      }
    });
  });

  it("31-011 every glyph shown is in its font, 31-030 and none of them is the empty box", () => {
    everySubject((subject) => {
      for (const page of subject.pages) {
        const fonts = (follow(subject.file, page["/Resources"]) as PdfDictionary)["/Font"] as PdfDictionary;
        for (const { font, codes } of marksOf(subject, page).glyphs) {
          const dictionary = follow(subject.file, fonts[font as "/F1"]) as PdfDictionary;
          const program = fontsOf(subject).find((one) => one.font === dictionary)?.program;
          expect(Math.max(...codes)).toBeLessThan(program?.numGlyphs ?? 0);
          expect(Math.min(...codes)).toBeGreaterThan(0);
        }
      }
    });
  });

  it("31-014 and 31-015 no set of glyphs is claimed that the font would not keep", () => {
    everySubject((subject) => {
      for (const { descriptor } of fontsOf(subject)) expect(descriptor["/CIDSet"]).toBeUndefined();
    });
  });

  it("31-016 widths are those of the font program", () => {
    everySubject((subject) => {
      for (const { inner, program } of fontsOf(subject)) {
        const [first, widths] = inner["/W"] as [number, readonly (number | null)[]];
        expect(first).toBe(0);
        expect(widths.length).toBeGreaterThan(5);
        widths.forEach((width, glyph) => {
          const own = (program.getGlyph(glyph).advanceWidth * 1000) / program.unitsPerEm;
          expect(Math.abs((width ?? own) - own)).toBeLessThanOrEqual(1);
        });
      }
    });
  });

  it("10-001 and 31-027 text maps to Unicode, 31-028 and 31-029 and to no forbidden value", () => {
    everySubject((subject) => {
      for (const { unicode, program } of fontsOf(subject)) {
        const values = [...(/\[(.*)\]/s.exec(unicode)?.[1] ?? "").matchAll(/<([0-9a-f ]+)>/g)].map(
          (match) => match[1] ?? "",
        );
        expect(values.length).toBeGreaterThan(5);
        expect(values.length).toBeLessThanOrEqual(program.numGlyphs);
        expect(values.filter((value) => /^0000$|feff|fffe/.test(value))).toEqual([]);
      }
    });
  });
});

describe("on a printer", () => {
  it("all is grey: no operation names a colour (ISO 32000-1, 8.6.8)", () => {
    everySubject((subject) => {
      const operators = subject.pages.flatMap((page) =>
        readContent(subject.file.streamOf(page["/Contents"])).map(({ operator }) => operator),
      );
      expect(operators).toContain("g");
      if (subject.name !== "card") expect(operators).toContain("G");
      expect(operators.filter((one) => /^(cs|CS|sc|SC|scn|SCN|rg|RG|k|K|sh|ri|Do|BI)$/.test(one))).toEqual([]);
    });
  });
});

describe("what other readers make of it", () => {
  it("pdf.js finds the tags, the title, the language and the bookmarks", async () => {
    for (const { name, bytes, pages, root } of subjects)
      await openPdf(bytes, async (document) => {
        expect((await document.getMarkInfo())?.Marked).toBe(true);
        const { info, metadata } = await document.getMetadata();
        expect((info as { Language?: string }).Language).toBe("en");
        expect(metadata.get("dc:title")).toBe((info as { Title?: string }).Title);
        expect((await document.getOutline())?.length, name).toBeGreaterThan(0);
        const roles: string[] = [];
        for (let number = 1; number <= pages.length; number++) {
          const tree = await (await document.getPage(number)).getStructTree();
          rolesIn(tree, roles);
        }
        for (const tag of ["H1", "H2", "Table", "LI", "Figure"]) {
          const own = all(root).filter(({ type }) => type === `/${tag}`).length;
          expect(roles.filter((role) => role === tag).length, `${name}: ${tag}`).toBeGreaterThanOrEqual(own);
        }
      });
  });
});

function rolesIn(node: unknown, roles: string[]): void {
  const { role, children } = node as { role?: string; children?: readonly unknown[] };
  if (role !== undefined) roles.push(role);
  for (const child of children ?? []) rolesIn(child, roles);
}

import { beforeAll, describe, expect, it } from "vitest";
import { drawPack } from "../../../src/publishing/pack/pack.js";
import { type Content, readContent } from "../../../src/reading/read-content.js";
import { movesIn, sheetSections } from "../../../src/routine/sheet.js";
import { versionAt } from "../../../src/routine/version-at.js";
import { firstOutOfOrder, openPdf, type ReadPage, readPages, readText, spaced } from "../../fixtures/read-pdf.js";
import { danced, move, phrase, section } from "../../fixtures/written.js";

let demo: Content;
const packs: { readonly index: number; readonly file: Uint8Array; readonly pages: readonly ReadPage[] }[] = [];

beforeAll(async () => {
  demo = await readContent("content");
  for (const [index, workshop] of demo.workshops.entries()) {
    const file = await drawPack(workshop, demo.library);
    packs.push({ index, file, pages: await readPages(file) });
  }
});

const textOf = ({ boxes }: ReadPage) => spaced(boxes.map(({ text }) => text).join(" "));

describe("a workshop's pack", () => {
  it("begins with a cover: title, date, place, minutes, level and routines", () => {
    expect(packs.length).toBeGreaterThanOrEqual(2);
    for (const { index, pages } of packs) {
      const workshop = demo.workshops[index];
      const cover = textOf(pages[0] as ReadPage);
      expect(cover).toContain(workshop?.title);
      expect(cover).toContain(workshop?.venue);
      expect(cover).toContain(`${workshop?.minutes} minutes`);
      expect(cover).toContain(workshop?.date?.slice(0, 4));
      for (const { title } of workshop?.routines ?? []) expect(cover).toContain(title);
    }
  });

  it("counts its pages, and lists each chapter with the page where it begins", async () => {
    for (const { file, pages } of packs) {
      pages.forEach((page, number) => {
        expect(textOf(page)).toContain(`page ${number + 1} of ${pages.length}`);
      });
      await openPdf(file, async (document) => {
        const outline = (await document.getOutline()) ?? [];
        const contents = textOf(pages[1] as ReadPage);
        expect(outline.map(({ title }) => title).slice(0, 2)).toEqual(["Cover", "Contents"]);
        for (const { title, dest } of outline.slice(2)) {
          const [page] = dest as [{ num: number; gen: number }];
          const number = (await document.getPageIndex(page)) + 1;
          const name = title.split(", Level")[0] ?? title;
          expect(contents).toContain(`${name} ${number}`);
          expect(textOf(pages[number - 1] as ReadPage)).toContain(name);
        }
      });
    }
  });

  it("has links in the contents that lead where they say", async () => {
    for (const { file } of packs)
      await openPdf(file, async (document) => {
        const links = await (await document.getPage(2)).getAnnotations();
        expect(links.length).toBeGreaterThan(2);
        for (const { dest, contentsObj } of links as {
          dest: [{ num: number; gen: number }];
          contentsObj: { str: string };
        }[]) {
          const page = (await document.getPageIndex(dest[0])) + 1;
          expect(contentsObj.str).toMatch(new RegExp(`, page ${page}$`));
        }
      });
  });

  it("has the gear of all routines in one list, and one page on safety", () => {
    for (const { index, pages } of packs) {
      const items = new Set<string>();
      for (const routine of demo.workshops[index]?.routines ?? [])
        for (const { item } of versionAt(routine, demo.workshops[index]?.level ?? "").gear) items.add(item);
      const gear = pages.map(textOf).filter((text) => /^(page \S+ of \S+ )?.*What to bring •/.test(text));
      expect(gear).toHaveLength(1);
      for (const item of items) expect(gear[0]).toContain(item);
      const safety = pages.map(textOf).filter((text) => text.includes("The venue's rules and local codes come first"));
      expect(safety).toHaveLength(1);
    }
  });

  it("holds every routine at the workshop's level, every cue in order", async () => {
    for (const { index, file } of packs) {
      const workshop = demo.workshops[index];
      const cues = (workshop?.routines ?? []).flatMap((routine) => {
        const version = versionAt(routine, workshop?.level ?? "");
        return sheetSections(routine).flatMap(({ section: at }) => movesIn(version, at).map(({ cue }) => cue.text));
      });
      expect(firstOutOfOrder(spaced(await readText(file)), cues)).toBeUndefined();
    }
  });
});

describe("the level of a routine in a workshop", () => {
  const sections = [section("A", [phrase([move("1-8", "Walk")])])];
  const at = (levels: readonly string[], level: string, taught = levels[0] ?? "") =>
    versionAt(danced({ levels, taught, sections }), level).id;

  it("is the one asked for, or the nearest easier one, or the easiest there is", () => {
    expect(at(["1", "2", "3"], "2")).toBe("2");
    expect(at(["1", "3"], "2")).toBe("1");
    expect(at(["2", "3"], "1")).toBe("2");
    expect(at(["1", "2"], "9")).toBe("2");
  });

  it("is the taught one where levels are names that have no order", () => {
    expect(at(["soft", "sharp"], "2", "sharp")).toBe("sharp");
    expect(at(["1", "2"], "improver", "2")).toBe("2");
  });
});

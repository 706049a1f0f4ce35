import { beforeAll, describe, expect, it } from "vitest";
import { handoutLeaves, packPrint } from "../../../src/publishing/pack/pack.js";
import { pack as publisher } from "../../../src/publishing/pack/publisher.js";
import { packOf } from "../../../src/publishing/site/pack.js";
import { type Content, readContent } from "../../../src/reading/read-content.js";
import type { Workshop } from "../../../src/routine/routine.js";
import { movesIn, sheetSections } from "../../../src/routine/sheet.js";
import { versionAt } from "../../../src/routine/version-at.js";
import { planClass } from "../../../src/teaching/plan.js";
import { writePrint } from "../../../src/typesetting/pdf/write.js";
import type { Print, StructureElement } from "../../../src/typesetting/print.js";
import { en } from "../../../src/wording/en.js";
import { contextOf } from "../../fixtures/context.js";
import { linesIn, rowsIn, tableOn, wordsOf } from "../../fixtures/laid-out.js";
import { firstOutOfOrder, openPdf, type ReadPage, readPages, readText, spaced } from "../../fixtures/read-pdf.js";
import { danced, move, phrase, section } from "../../fixtures/written.js";

let demo: Content;
interface Pack {
  readonly workshop: Workshop;
  readonly file: Uint8Array;
  readonly pages: readonly ReadPage[];
  readonly print: Print;
  readonly handouts: ReturnType<typeof handoutLeaves>;
}
const packs: Pack[] = [];

beforeAll(async () => {
  demo = await readContent("content");
  for (const workshop of demo.workshops) {
    const handouts = handoutLeaves(workshop, demo.library);
    const print = packPrint(workshop, demo.library, "teacher", handouts);
    const file = await writePrint(print);
    packs.push({ workshop, file, pages: await readPages(file), print, handouts });
  }
});

const textOf = ({ boxes }: ReadPage) => spaced(boxes.map(({ text }) => text).join(" "));
const onPage = (pages: readonly ReadPage[], page: number) => textOf(pages[page] ?? { width: 0, height: 0, boxes: [] });

describe("a workshop's pack", () => {
  it("begins with a cover: what, when and where, all to bring, all cautions whole, whom they defer to, and the author's words", () => {
    expect(packs).toHaveLength(3);
    for (const { workshop, pages } of packs) {
      const { library } = demo;
      const cover = onPage(pages, 0);
      expect(cover).toContain(workshop.title);
      expect(cover).toContain(workshop.venue);
      expect(cover).toContain(`${workshop.minutes} minutes`);
      expect(cover).toContain(workshop.date?.slice(0, 4));
      for (const { title } of workshop.routines) expect(cover).toContain(title);
      const versions = workshop.routines.flatMap((routine) => routine.versions);
      for (const { item } of versions.flatMap(({ gear }) => gear)) expect(cover).toContain(item);
      for (const risk of new Set(versions.flatMap(({ cautions }) => cautions)))
        expect(cover).toContain(en.risks.caution(risk));
      expect(cover).toContain(en.risks.generalCaution);
      expect(cover).toContain(spaced(library.cautions ?? "").slice(0, 80));
      expect(cover).toContain(spaced(workshop.prose.split("\n\n").at(-1) ?? "").slice(0, 60));
    }
  });

  it("counts its pages, and lists each part with the page where it begins", async () => {
    for (const { file, pages } of packs) {
      pages.forEach((page, number) => {
        expect(textOf(page)).toContain(`page ${number + 1} of ${pages.length}`);
      });
      await openPdf(file, async (document) => {
        const outline = (await document.getOutline()) ?? [];
        expect(outline.map(({ title }) => title).slice(0, 3)).toEqual([
          "Cover",
          "The class plan",
          "The plan in detail",
        ]);
        for (const { title, dest } of outline.slice(1)) {
          const [page] = dest as [{ num: number; gen: number }];
          const number = (await document.getPageIndex(page)) + 1;
          const name = title.split(", Level")[0] ?? title;
          expect(onPage(pages, 0)).toMatch(new RegExp(`${name} (by .{5,40} counts )?${number} `));
          if (title !== "The class plan") expect(onPage(pages, number - 1)).toContain(name);
        }
      });
    }
  });

  it("has links in the contents that lead where they say", async () => {
    for (const { file } of packs)
      await openPdf(file, async (document) => {
        const annotations = await (await document.getPage(1)).getAnnotations();
        const links = annotations.filter(({ dest }) => dest !== undefined && dest !== null);
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

  it("has the plan on the back of the cover, every activity by its clock in whole minutes that come to the slot", () => {
    for (const { workshop, print, pages } of packs) {
      const { activities, chunks } = planClass(workshop, demo.library);
      const [head = [], ...rows] = tableOn(print, 1);
      expect(head).toEqual(["From", "What", "How, speeds in % of the tempo", "Min"]);
      expect(rows).toHaveLength(activities.length + 1);
      rows.slice(0, -1).forEach(([clock, what = "", , minutes], index) => {
        const { start = 0, seconds = 0, title = "", chunk = "" } = activities[index] ?? {};
        const [hours, rest] = [Math.floor(start / 3600), (start / 60) % 60];
        expect(clock).toBe(`${hours}:${String(rest).padStart(2, "0")}`);
        expect(minutes).toBe(String(seconds / 60));
        // A routine's name stands where it begins, or comes again.
        const before = activities.slice(0, index).findLast((one) => one.title !== undefined);
        expect(what.includes(title)).toBe(title === "" || before?.title !== title);
        const section = chunks.find(({ id }) => id === chunk)?.section ?? "";
        expect(what).toContain(section);
      });
      const minutes = rows.slice(0, -1).map((row) => Number(row.at(-1)));
      expect(minutes.every(Number.isInteger)).toBe(true);
      expect(minutes.reduce((sum, one) => sum + one, 0)).toBe(workshop.minutes);
      expect(rows.at(-1)?.at(-1)).toBe(String(workshop.minutes));
      const everything = onPage(pages, 1);
      // Whoever copies or listens gets its figures as well.
      for (const [clock = ""] of rows) expect(everything).toContain(`${clock} `);
      expect(everything).toContain(workshop.venue);
      expect(everything).toMatch(/Everything fits\.|Not everything fits, \d+ minutes too few/);
      const gear = new Set(workshop.routines.flatMap(({ versions }) => versions.flatMap(({ gear }) => gear)));
      for (const { item } of gear) expect(everything).toContain(item);
    }
  });

  it("sets the clock in 16 points and what in 12, and nothing before the handouts under 9", () => {
    const fullest = packs.at(-1) as Pack;
    // What the handouts are like is a matter of their own tests.
    const letter = packPrint(fullest.workshop, { ...demo.library, paper: "Letter" }, "teacher", fullest.handouts);
    for (const print of [...packs.map((one) => one.print), letter]) {
      const [cover, plan, details] = print.elements;
      const lines = [cover, plan, details].flatMap((part) => (part === undefined ? [] : linesIn(part)));
      expect(Math.min(...lines.map(({ size }) => size))).toBeGreaterThanOrEqual(9);
      const sizes = (column: number) =>
        rowsIn(plan).flatMap((row) => linesIn(row.content[column] as StructureElement).map(({ size }) => size));
      expect(new Set(sizes(0).slice(1))).toEqual(new Set([16]));
      expect(new Set(sizes(1).slice(1))).toEqual(new Set([12]));
      // The cover and the plan are one sheet of paper, and so are the details.
      const begins = print.bookmarks.map(({ page }) => page);
      expect(begins.slice(0, 3)).toEqual([0, 1, 2]);
      expect((begins[3] ?? 0) - 2).toBeLessThanOrEqual(2);
    }
  });

  it("says in detail what each activity takes care of, under its clock", () => {
    for (const { workshop, pages, print } of packs) {
      const handouts = print.bookmarks[3]?.page ?? 0;
      const details = pages.slice(2, handouts).map(textOf).join(" ");
      for (const { start, cautions, kind } of planClass(workshop, demo.library).activities) {
        if (cautions.length === 0) continue;
        const clock = en.plan.clock(start);
        const own = details.slice(details.indexOf(`${clock} `)).split(/ \d:\d\d /)[0] ?? "";
        for (const risk of cautions) expect(own, `${clock} ${kind}`).toContain(en.risks.label(risk));
      }
    }
  });

  it("without the plan is the dancers' own: the cover and every handout, and nothing of the plan", () => {
    for (const { workshop, print, handouts: sheets } of packs) {
      const dancers = packPrint(workshop, demo.library, "dancers", sheets);
      const named = (one: Print) => one.bookmarks.map(({ title }) => title);
      expect(named(dancers)).toEqual(["Cover", ...named(print).slice(3)]);
      // The counts of a handout are a table; the cover and lines to write on have none.
      const own = dancers.elements.filter((part) => rowsIn(part).length === 0);
      const text = own.flatMap(linesIn).map(wordsOf).join(" ");
      expect(text).toContain("Contents");
      expect(text).not.toMatch(/class plan|plan in detail|Everything fits|too few/i);
      const handouts = (one: Print) =>
        one.elements
          .filter((part) => rowsIn(part).length > 0)
          .slice(-workshop.routines.length)
          .map((part) => linesIn(part).length);
      expect(handouts(dancers)).toEqual(handouts(print));
      expect(dancers.elements.filter((part) => rowsIn(part).length > 0)).toHaveLength(workshop.routines.length);
    }
  });

  it("is offered on the workshop's page under two names, the teacher's and the dancers'", () => {
    const { workshop } = packs[0] as Pack;
    const files = publisher.declare?.(workshop, contextOf(demo.library)) ?? [];
    expect(files.map(({ path, kind }) => [path, kind])).toEqual([
      [`workshops/${workshop.slug}/pack.pdf`, "handout"],
      [`workshops/${workshop.slug}/pack-dancers.pdf`, "handout"],
    ]);
    const { downloads } = packOf({ ...contextOf(demo.library), files });
    expect(downloads.map(({ file, name, kind }) => [file, name, kind])).toEqual([
      ["pack.pdf", "The teacher's pack: plan and handouts", "PDF"],
      ["pack-dancers.pdf", "The dancers' pack: handouts alone", "PDF"],
    ]);
  });

  it("holds every routine at the workshop's level, every cue in order", async () => {
    for (const { workshop, file } of packs) {
      const cues = workshop.routines.flatMap((routine) => {
        const version = versionAt(routine, workshop.level);
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

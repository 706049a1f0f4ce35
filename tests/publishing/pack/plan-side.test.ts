import { expect, test } from "vitest";
import { packPrint } from "../../../src/publishing/pack/pack.js";
import { detailsSheet } from "../../../src/publishing/paper/plan-details.js";
import { planSheet } from "../../../src/publishing/paper/plan-side.js";
import type { Library, Workshop } from "../../../src/routine/routine.js";
import type { ClassPlan } from "../../../src/teaching/class-plan.js";
import { planClass } from "../../../src/teaching/plan.js";
import { textWidth } from "../../../src/typesetting/text.js";
import { en } from "../../../src/wording/en.js";
import { linesIn, rowsIn, tableOn, wordsOf } from "../../fixtures/laid-out.js";
import { eights, library, libraryWith, routineOf, workshopOf } from "../../teaching/builder.js";

const about = { title: ", class plan", bookmark: "The class plan", gear: ["mat (level 2)"] };
const sideOf = (plan: ClassPlan, on: Library = library) => {
  const sheet = planSheet(plan, about, on, en);
  const table = sheet.elements.find(({ tag }) => tag === "Table");
  return { sheet, table, rows: table ? tableOn({ elements: [table] }, 0) : [] };
};

const short = (slug: string, number: number) =>
  routineOf({
    slug,
    tempo: 120,
    sections: Array.from({ length: number }, (_, index) => eights(`${slug} ${String.fromCharCode(65 + index)}`, 1)),
  });
const classOf = (
  minutes: number,
  number: number,
  extra: Partial<Workshop> = {},
  slugs: readonly string[] = ["tide"],
  on: Library = library,
) => {
  const routines = slugs.map((slug) => short(slug, number));
  return planClass(workshopOf(routines, minutes, { warmUp: 5, coolDown: 5, breaks: 4, ...extra }), on);
};
/** Of somebody who explains little, and so has many activities in an hour and a half. */
const crowded = classOf(90, 22, {}, ["tide", "gate"], libraryWith({ explain: 1, questions: 0 }));

test("a class of one routine names it once, in its first row, and shows the time of day where it starts at one", () => {
  const { rows } = sideOf(classOf(60, 3, { starts: "18:50" }));
  expect(rows[0]?.[0]).toBe("Clock");
  expect(rows.slice(1, 3).map((row) => row.slice(0, 2))).toEqual([
    ["18:50", "Warm-up"],
    ["18:55", "Title of tide, the whole dance"],
  ]);
  expect(rows.at(-1)).toEqual(["19:50", "End", "", "60"]);
  expect(rows.slice(3).flat().join()).not.toContain("Title of tide");
  const names = rows.slice(1, -1).map(([, what]) => what);
  expect(names).toContain("In groups");
  expect(names.filter((name, index) => name === names[index - 1])).toEqual([]);
  // Shown, marked, drilled at the library's speeds, each in a word: the first chunk has nothing to be linked to.
  const first = rows.find(([, what]) => what === "tide A");
  expect(first?.[2]).toMatch(/^show · mark( × \d)? · (\d\d( × \d)? · )*full( × \d)?$/);
});

test("its figures are of one width, whatever the time, so that they stand under each other", () => {
  const widths = ["0:00", "1:11", "4:47"].map((clock) => textWidth(clock, 16, "figures"));
  expect(Math.max(...widths) - Math.min(...widths)).toBeLessThan(0.01);
});

test("more activities than a side has room for share rows, and none is left out", () => {
  const plan = crowded;
  expect(plan.activities.length).toBeGreaterThan(36);
  const { sheet, rows: all } = sideOf(plan);
  expect(sheet.pages).toBe(1);
  const rows = all.slice(1, -1);
  expect(rows.length).toBeLessThan(plan.activities.length);
  const taught = plan.chunks.filter((chunk) => chunk.taught);
  for (const { section } of taught) expect(rows.map(([, what]) => what).join("; ")).toContain(section);
  expect(rows.reduce((sum, row) => sum + Number(row.at(-1)), 0)).toBe(90);
  const clocks = plan.activities.map(({ start }) => en.plan.clock(start));
  for (const [clock = ""] of rows) expect(clocks).toContain(clock);
  expect(Math.min(...sheet.elements.flatMap(linesIn).map(({ size }) => size))).toBeGreaterThanOrEqual(9);
});

test("a class of hours goes on over the page after water or a full hour, with its heads and the routine's name, and fills its pages", () => {
  const plan = classOf(180, 7, { breaks: 12 }, ["tide", "gate", "wall"]);
  const { sheet, table } = sideOf(plan);
  expect(sheet.pages).toBeGreaterThan(1);
  const rows = rowsIn(table).slice(1, -1);
  expect(rows).toHaveLength(plan.activities.length);
  const pageOf = (row: (typeof rows)[number]) =>
    row.content
      .flatMap((cell) => ("tag" in cell ? cell.content : []))
      .flatMap((one) => ("page" in one ? [one.page] : []))[0];
  const pages = rows.map(pageOf);
  pages.forEach((page, index) => {
    if (index === 0 || page === pages[index - 1]) return;
    const [before, here] = [plan.activities[index - 1], plan.activities[index]];
    const full = Math.floor((here?.start ?? 0) / 3600) > Math.floor((before?.start ?? 0) / 3600);
    expect(before?.kind === "water" || full).toBe(true);
    const what = rows[index]?.content[1];
    if (here?.title !== undefined && what !== undefined && "tag" in what)
      expect(linesIn(what).map(wordsOf).join(" ")).toContain(here.title);
  });
  const onPage = Array.from({ length: sheet.pages }, (_, page) => pages.filter((one) => one === page).length);
  expect(Math.min(...onPage)).toBeGreaterThan(Math.max(...onPage) / 2);
  const words = sheet.decoration.flatMap((mark) => ("line" in mark ? [wordsOf(mark.line)] : []));
  expect(words.filter((text) => text.includes("(continued)"))).toHaveLength(sheet.pages - 1);
  expect(words.filter((text) => text === "What")).toHaveLength(sheet.pages - 1);
});

test("a library that plans by five seconds has whole minutes on the side, which come to the slot", () => {
  const fine = libraryWith({ unit: 5 });
  const plan = planClass(workshopOf([short("tide", 6)], 45, { warmUp: 5 }), fine);
  expect(plan.activities.some(({ start }) => start % 60 !== 0)).toBe(true);
  const rows = sideOf(plan, fine).rows.slice(1, -1);
  for (const [clock] of rows) expect(clock).toMatch(/^0:\d\d$/);
  expect(rows.reduce((sum, row) => sum + (row.at(-1) === "–" ? 0 : Number(row.at(-1))), 0)).toBe(45);
});

test("the details of ninety minutes take two sides at the most; what is called gives way first, and it is said where it stands", () => {
  const full = classOf(90, 5);
  expect(
    linesIn({ tag: "Sect", content: detailsSheet(full, "Details", library, en).elements })
      .map(wordsOf)
      .join(" "),
  ).toMatch(/Call 1–2\u00a0tide A/);
  for (const paper of ["A4", "Letter"] as const) {
    const sheet = detailsSheet(crowded, "Details", { ...library, paper }, en);
    expect(sheet.pages).toBeLessThanOrEqual(2);
    const text = sheet.elements.flatMap(linesIn).map(wordsOf).join(" ");
    if (!text.includes("Call 1–2\u00a0")) expect(text).toContain("What is called stands in the handouts.");
    for (const { start, kind } of crowded.activities)
      if (kind === "teach") expect(text).toContain(`${en.plan.clock(start)} `);
  }
});

test("the details name a routine wherever another one was danced before it, as the side does", () => {
  const plan = classOf(90, 3, {}, ["tide", "gate"]);
  const details = linesIn({ tag: "Sect", content: detailsSheet(plan, "Details", library, en).elements }).map(wordsOf);
  const danced = plan.activities.filter(({ routine }) => routine !== undefined);
  const changes = danced.filter(({ routine }, index) => routine !== danced[index - 1]?.routine);
  // Each is taught, and at the end each is danced once more.
  expect(changes.map(({ routine }) => routine)).toEqual(["tide", "gate", "tide", "gate"]);
  for (const { start, title } of changes)
    expect(details.some((line) => line.startsWith(en.plan.clock(start)) && line.includes(`${title}, `))).toBe(true);
  expect(details.filter((line) => /^\d:\d\d +Title of/.test(line))).toHaveLength(changes.length);
});

test("handouts of two sides begin on a sheet of their own: the back of what stands before them has lines to write on", () => {
  const workshop = workshopOf([short("tide", 2)], 60, { warmUp: 5, coolDown: 5, breaks: 4 });
  const handout = (pages: number) => ({
    title: "Tide",
    sheet: { elements: [], decoration: [], pages, bookmarks: [{ title: "Tide", page: 0, y: 0, under: [] }] },
  });
  const printed = (reader: "teacher" | "dancers", ...pages: readonly number[]) =>
    packPrint(workshop, library, reader, pages.map(handout));
  const begins = (...asked: Parameters<typeof printed>) =>
    printed(...asked).bookmarks.flatMap(({ title, page }) => (title === "Tide" ? [page] : []));
  // Counted from 0: a front is even. Cover, its back, then the sheet.
  expect(begins("dancers", 2)).toEqual([2]);
  // Cover and plan, the details, their back.
  expect(begins("teacher", 2)).toEqual([4]);
  // A single side goes on the back of the cover; after another one a sheet begins with the next front.
  expect(begins("dancers", 1, 2)).toEqual([1, 2]);
  expect(begins("dancers", 1, 1, 2, 2)).toEqual([1, 2, 4, 6]);
  const words = printed("dancers", 2).elements.map((part) => linesIn(part).map(wordsOf).join());
  expect(words[1]).toBe("My notes");
});

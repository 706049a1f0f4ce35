import { describe, expect, test } from "vitest";
import { coursePrint, drawCourse, drawLesson, lessonPrint } from "../../../src/publishing/course/course.js";
import { course as publisher } from "../../../src/publishing/course/publisher.js";
import { packPrint } from "../../../src/publishing/pack/pack.js";
import { courseSheet } from "../../../src/publishing/paper/course-sheet.js";
import { plan as planPublisher } from "../../../src/publishing/plan/publisher.js";
import { workshopFacts } from "../../../src/publishing/site/library-view.js";
import { packOf } from "../../../src/publishing/site/pack.js";
import { workshopData } from "../../../src/publishing/site/structured-data.js";
import { workshopView } from "../../../src/publishing/site/workshop-view.js";
import type { Workshop } from "../../../src/routine/routine.js";
import { planCourse } from "../../../src/teaching/course/plan.js";
import { en } from "../../../src/wording/en.js";
import { contextOf } from "../../fixtures/context.js";
import { linesIn, tableOn, wordsOf } from "../../fixtures/laid-out.js";
import { readText, spaced } from "../../fixtures/read-pdf.js";
import { sixEvenings } from "../../fixtures/six-evenings.js";
import { library } from "../../teaching/builder.js";

const plan = planCourse(sixEvenings, library);
const read = async (file: Promise<Uint8Array>) => spaced(await readText(await file));

describe("a course of six lessons on paper", () => {
  test("all of it stands on one page, a row a lesson, with its day and what it needs; then the plan of each on its side", async () => {
    const print = coursePrint(plan, sixEvenings, library);
    expect(print.bookmarks.map(({ page }) => page)).toEqual([0, 1, 2, 3, 4, 5, 6]);
    for (const [lesson, { activities }] of plan.lessons.entries()) {
      const [, ...rows] = tableOn(print, lesson + 1);
      expect(rows.at(-1)).toEqual(["1:00", "End", "", "60"]);
      expect(rows.slice(0, -1).map(([clock]) => clock)).toEqual(activities.map(({ start }) => en.plan.clock(start)));
    }
    expect(Math.min(...print.elements.flatMap(linesIn).map(({ size }) => size))).toBeGreaterThanOrEqual(9);
    const text = await read(drawCourse(plan, sixEvenings, library));
    for (const [index, day] of ["7", "14", "21", "28"].entries())
      expect(text).toContain(`Lesson ${index + 1} Thursday ${day} January 2027`);
    expect(text).toContain("6 lessons of 60 minutes, and everything fits.");
    // Six sections over five lessons, and the last for whole runs: the shawl belongs to the second section alone.
    const rows = text.split(/(?=Lesson \d Thursday)/).slice(1, 7);
    expect(rows.map((row) => row.includes("shawl"))).toEqual([false, true, true, true, true, true]);
    expect(rows[5]).toContain("Nothing: time for whole runs, and for what you find hard");
    expect(rows[5]).toContain("Title of first, all of it");
  });

  test("says where there is no time to recall what is due", () => {
    const said = (of: typeof plan, workshop: Workshop) =>
      courseSheet(of, workshop, library, en).elements.flatMap(linesIn).map(wordsOf).join(" ");
    expect(said(plan, sixEvenings)).not.toContain("in the run alone");
    // As short as lessons can be that hold all of it: the second has no minute left for the first one's section.
    const fits = (minutes: number) => planCourse({ ...sixEvenings, minutes }, library).fit.fits;
    const least = Array.from({ length: 60 }, (_, minutes) => minutes + 1).find(fits) ?? 0;
    const tight = { ...sixEvenings, minutes: least };
    expect(said(planCourse(tight, library), tight)).toMatch(
      /Lessons? [\d, and]+ ha(s|ve) no time to go through all that is due on its own/,
    );
  });

  test("forty lessons take as many pages as they need, and a row is never broken", () => {
    const forty = { ...sixEvenings, dates: undefined, lessons: 40 };
    const { dates: _, ...undated } = forty;
    const sheet = courseSheet(planCourse(undated, library), undated, library, en);
    expect(sheet.pages).toBeGreaterThan(1);
    // A row a lesson under the heads.
    expect(sheet.elements.find(({ tag }) => tag === "Table")?.content).toHaveLength(41);
  });

  test("the sheet of a lesson: what was danced so far, what is new with its counts, what comes again next time", async () => {
    const text = await read(drawLesson(plan, 1, sixEvenings, library));
    expect(text).toContain("Lesson 2 of 6 · Thursday 14 January 2027 · The net loft");
    // At which level, and of which state: the mark is that of the handout in the pack.
    const [, mark = ""] = /Title of first \(Level \d, mark (\w{4})\): “A” and “B” \(new today: “B”\)/.exec(text) ?? [];
    const feet = packPrint(sixEvenings, library).decoration.flatMap((one) =>
      "line" in one ? [wordsOf(one.line)] : [],
    );
    expect(feet.join()).toContain(`mark ${mark} ·`);
    expect(text).toContain("Practise until Thursday 21 January 2027");
    expect(text).toContain("“B” in Title of first: a little every day.");
    expect(text).toContain("1–2 B 1 1-2");
    expect(text).not.toContain("1–2 A 1 1-2");
    // The third lesson recalls the second's; the first's comes again in the fourth.
    const third = await read(drawLesson(plan, 2, sixEvenings, library));
    expect(third).toContain("“A” in Title of first: once or twice, since it comes again next time.");
    expect(lessonPrint(plan, 5, sixEvenings, library).pages).toBe(1);
    const last = await read(drawLesson(plan, 5, sixEvenings, library));
    expect(last).toContain("Keep it");
    expect(last).toMatch(/Title of first \(Level \d, mark \w{4}\): “A”(, “\w”)* and “\w”, which is all of it/);
  });

  test("the pack has the page on the back of the cover, and the plan of every lesson with its details on the back of that", () => {
    const { bookmarks } = packPrint(sixEvenings, library);
    const days = ["7 January", "14 January", "21 January", "28 January", "4 February", "11 February"];
    expect(bookmarks.slice(1, 14).map(({ title, page }) => [title, page + 1])).toEqual([
      ["The course", 2],
      ...days.flatMap((day, index) => [
        [`Lesson ${index + 1} · Thursday ${day} 2027`, 3 + 2 * index],
        [`Lesson ${index + 1} in detail`, 4 + 2 * index],
      ]),
    ]);
  });
});

test("its files are those that were said before", async () => {
  const names = ["course", ...[1, 2, 3, 4, 5, 6].map((number) => `lesson-${number}`)];
  const context = contextOf(library);
  const paths = names.map((name) => `workshops/class/${name}.pdf`);
  expect(publisher.declare?.(sixEvenings, context).map(({ path }) => path)).toEqual(paths);
  const { lessons: _, dates: __, ...once } = sixEvenings;
  expect(publisher.declare?.(once, context)).toEqual([]);
  expect(await publisher.publish(once, context)).toEqual([]);
});

test("plan.json has a plan a lesson, and the page shows the same", () => {
  const [file] = planPublisher.publish(sixEvenings, contextOf(library)) as readonly { content: string }[];
  const written = JSON.parse(file?.content ?? "");
  expect(written).toEqual(JSON.parse(JSON.stringify(plan)));
  for (const lesson of written.lessons)
    expect(lesson.activities.reduce((sum: number, { seconds }: { seconds: number }) => sum + seconds, 0)).toBe(3600);
  const files = [{ path: "workshops/class/plan.json", kind: "plan", mediaType: "application/json" }] as const;
  const sheets = publisher.declare?.(sixEvenings, contextOf(library)) ?? [];
  const pack = packOf({ ...contextOf(library), files: [...files, ...sheets], textOf: () => file?.content ?? "" });
  const { course, plan: single } = workshopView(sixEvenings, library, pack, en);
  expect(single).toBeUndefined();
  expect(course?.lessons.map(({ saveAs }) => saveAs).slice(0, 2)).toEqual([
    "Six evenings, lesson 1.pdf",
    "Six evenings, lesson 2.pdf",
  ]);
  expect(
    course?.lessons.map(({ sheet, columns, plan }) => [sheet, columns[0]?.texts[0], plan.activities.length > 0]),
  ).toEqual(
    ["“A”", "“B”", "“C”", "“X”", "“Y” and “Z”"]
      .map((name, index) => [`lesson-${index + 1}.pdf`, `${name} in Title of ${index < 3 ? "first" : "second"}`, true])
      .concat([["lesson-6.pdf", "Nothing: time for whole runs, and for what you find hard", true]]),
  );
});

test("each lesson is an event of its own to whoever reads the page's data, and library.json has its days", () => {
  const dates = sixEvenings.dates ?? [];
  expect(workshopData(sixEvenings, library)).toMatchObject({
    startDate: dates[0],
    endDate: dates[5],
    subEvent: dates.map((startDate) => ({ "@type": "EducationEvent", startDate, duration: "PT1H" })),
  });
  expect(workshopFacts(sixEvenings)).toMatchObject({ date: dates[0], lessons: 6, dates });
});

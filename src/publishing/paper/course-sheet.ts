import type { Library, Workshop } from "../../routine/routine.js";
import type { CoursePlan } from "../../teaching/course/course-plan.js";
import { type Block, textBlock } from "../../typesetting/block.js";
import { flow } from "../../typesetting/flow.js";
import { papers } from "../../typesetting/print.js";
import type { Span } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { courseText } from "../course-text.js";
import { margin, notesUnder } from "./page.js";
import type { Sheet } from "./sheet.js";
import { placeTable, type TextTable } from "./table.js";
import { theirs } from "./theirs.js";

/** Type sizes to try for the table, roomy ones first. */
const sizes = [10.5, 10, 9.5, 9];

/** A course on one page: a row a lesson. One of very many lessons goes on over the page. */
export function courseSheet(plan: CoursePlan, workshop: Workshop, library: Library, wording: Wording): Sheet {
  const [pageWidth, pageHeight] = papers[library.paper];
  const width = pageWidth - 2 * margin.side;
  const bottom = pageHeight - margin.bottom;
  const area = { left: margin.side, width, columns: 1, gutter: 0, top: margin.top, bottom, tail: 0 };
  const { summary, lessons } = courseText(plan, workshop, wording);
  const head = flow(headBlocks(workshop, summary, library, width, wording), { page: 0, y: margin.top }, area);
  const start = { page: head.page, y: head.y + 14 };
  const table = tableOf(lessons, wording);
  const place = (size: number) => placeTable(table, { ...area, start, size });
  const size = sizes.find((one) => place(one).page === head.page) ?? 9;
  const placed = place(size);
  const own = notesUnder(placed, bottom - 10, width, wording);
  return {
    elements: [...head.draw(), placed.element, ...own.elements],
    decoration: [...placed.decoration, ...own.decoration],
    pages: placed.page + 1,
    bookmarks: [{ title: wording.course.title, page: 0, y: 0, under: [] }],
  };
}

function headBlocks(
  { title, venue, starts, minutes, level }: Workshop,
  summary: readonly string[],
  library: Library,
  width: number,
  wording: Wording,
): readonly Block[] {
  const { pack, versions } = wording;
  const place: readonly Span[] = venue === undefined ? [] : [theirs(venue, wording), { text: " · " }];
  const about = [...place, { text: pack.class(starts, minutes, versions.name(level)) }];
  return [
    textBlock([theirs(library.name, wording, { tone: "soft" })], { size: 10, width }),
    textBlock([theirs(title, wording, { style: "bold" })], { size: 24, width, tag: "H1", before: 2 }),
    textBlock(about, { size: 11, width, before: 2 }),
    ...summary.map((text) => textBlock([{ text }], { size: 10.5, width: width * 0.85, before: 4 })),
  ];
}

/** A column that is empty in every lesson is left out. */
function tableOf(lessons: ReturnType<typeof courseText>["lessons"], { course, dates }: Wording): TextTable {
  const [first] = lessons;
  const columns = (first?.columns ?? []).flatMap(({ head }, index) => {
    const cells = lessons.map((lesson) => lesson.columns[index]?.texts ?? []);
    return cells.some((texts) => texts.length > 0) ? [{ head, cells }] : [];
  });
  return {
    heads: [course.columns.lesson, ...columns.map(({ head }) => head)],
    widths: [0.9, ...columns.map(() => 1)],
    rows: lessons.map(({ name, date }, row) => [
      [[{ text: name, style: "bold" }], ...(date === undefined ? [] : [[{ text: dates.weekday(date) }]])],
      ...columns.map(({ cells }) => (cells[row] ?? []).map((text) => [{ text }])),
    ]),
  };
}

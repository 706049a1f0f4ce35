import type { Library, Workshop } from "../../routine/routine.js";
import type { CoursePlan, CourseSection, KnownRoutine } from "../../teaching/course/course-plan.js";
import { type Block, textBlock } from "../../typesetting/block.js";
import { columnWidth, flow } from "../../typesetting/flow.js";
import { papers } from "../../typesetting/print.js";
import type { Wording } from "../../wording/wording.js";
import { countsMarks } from "../counts-mark.js";
import { gearBySection, sectionTexts } from "../course-text.js";
import { type Offered, offeredIn, risksIn } from "../offered.js";
import { canonFacts, sheetBands } from "../paper/bands.js";
import { routineAddress } from "../paper/credit.js";
import { linkTo } from "../paper/link.js";
import { bold, bullet, headingBlock, type NoteStyle, plain, under } from "../paper/note-style.js";
import { layoutOwnNotes, margin } from "../paper/page.js";
import { cautionBlocks } from "../paper/preparation.js";
import { bandRows } from "../paper/row-list.js";
import type { Sheet } from "../paper/sheet.js";
import { theirs } from "../paper/theirs.js";

/** Sizes to try, so that a lesson is one page where it can be. */
const sizes = [10.5, 10, 9.5, 9];
/** A heading and two lines for the dancer's own notes; where there is less room, there are none. */
const ownNotes = 62;

/** What dancers take home after a lesson: what they have danced so far, what to practise until the next, and the counts of what is new. */
export function lessonSheet(
  plan: CoursePlan,
  lesson: number,
  workshop: Workshop,
  library: Library,
  wording: Wording,
): Sheet {
  const [pageWidth, pageHeight] = papers[library.paper];
  const width = pageWidth - 2 * margin.side;
  const bottom = pageHeight - margin.bottom;
  const page = { left: margin.side, width, columns: 1, gutter: 0, top: margin.top, bottom, tail: 0 };
  const here = plan.lessons[lesson];
  if (!here) throw new RangeError(`No lesson ${lesson}`);
  const dances = offeredIn(workshop).flatMap((one): readonly Offered[] => {
    const known = here.lesson.run.find(({ routine }) => routine === one.routine.slug);
    return known ? [{ ...one, sections: known.sections }] : [];
  });
  const columns = { ...page, columns: 2, gutter: 22 };
  const place = (size: number) => {
    const style = { size, width, wording };
    const text = flow(
      [
        ...headBlocks(plan, lesson, workshop, library, style),
        ...cautionBlocks(dances, library, style),
        ...soFarBlocks(plan, lesson, dances, style),
        ...practiceBlocks(plan, lesson, dances, library, style),
        ...bringBlocks(plan, lesson, workshop, style),
      ],
      { page: 0, y: margin.top },
      page,
    );
    const half = { ...style, size: Math.max(9, size - 1), width: columnWidth(columns) };
    const start = { page: text.page, y: text.y + 14 };
    return { text, counts: flow(countBlocks(here.lesson.fresh, dances, half), start, columns) };
  };
  const roomy = place(sizes[0] ?? 9);
  const { text, counts } =
    [roomy, ...(roomy.counts.page === 0 ? [] : sizes.slice(1).map(place))].find((one) => one.counts.page === 0) ??
    roomy;
  const end = { page: counts.page, x: margin.side, y: counts.y + 16 };
  const own = end.y + ownNotes > bottom ? undefined : layoutOwnNotes(end, width, bottom - 10, wording);
  return {
    elements: [...text.draw(), ...counts.draw(), ...(own ? [own.element] : [])],
    decoration: own?.decoration ?? [],
    pages: counts.page + 1,
    bookmarks: [{ title: wording.course.sheet(lesson + 1), page: 0, y: 0, under: [] }],
  };
}

function headBlocks(
  { lessons }: CoursePlan,
  lesson: number,
  { title, venue, starts }: Workshop,
  library: Library,
  { width, wording }: NoteStyle,
): readonly Block[] {
  const { course, dates, workshop } = wording;
  const date = lessons[lesson]?.date;
  const about = [
    course.home.of(lesson + 1, lessons.length),
    ...(date === undefined ? [] : [dates.weekday(date)]),
    ...(starts === undefined ? [] : [workshop.startsAt(starts)]),
  ];
  return [
    textBlock([theirs(library.name, wording, { tone: "soft" })], { size: 10, width }),
    textBlock([theirs(title, wording, { style: "bold" })], { size: 24, width, tag: "H1", before: 2 }),
    textBlock(
      [{ text: about.join(" · ") }, ...(venue === undefined ? [] : [{ text: " · " }, theirs(venue, wording)])],
      { size: 11, width, before: 2 },
    ),
  ];
}

/** Routine by routine, at which level and of which state, what the dancers know by now, and what of it is new. */
function soFarBlocks(
  { lessons }: CoursePlan,
  lesson: number,
  dances: readonly Offered[],
  style: NoteStyle,
): readonly Block[] {
  const { course, versions } = style.wording;
  const { run = [], fresh = [] } = lessons[lesson]?.lesson ?? {};
  const items = run.map((known) => {
    const today = fresh.filter(({ routine }) => routine === known.routine).map(({ section }) => section);
    const aside = today.length === 0 ? "" : ` (${course.home.freshIs(today)})`;
    const of = dances.flatMap(({ routine, version }) =>
      routine.slug === known.routine
        ? [course.home.state(versions.name(version.id), countsMarks(routine).get(version.id))]
        : [],
    );
    return bullet([bold(known.title), plain(`${of.join("")}: `), plain(`${course.home.known(known)}${aside}`)], style);
  });
  return under(course.home.soFar, items, style);
}

/** What is new every day, what comes again next time a few times, the rest once. */
function practiceBlocks(
  { lessons }: CoursePlan,
  lesson: number,
  dances: readonly Offered[],
  library: Library,
  style: NoteStyle,
): readonly Block[] {
  const { wording } = style;
  const { home } = wording.course;
  const here = lessons[lesson]?.lesson;
  const next = lessons[lesson + 1];
  if (!here) return [];
  const isNew = (one: CourseSection) => isIn(here.fresh, one);
  const again = (next?.lesson.recalled ?? []).filter((one) => !isNew(one));
  const rest = here.run.flatMap(sectionsOf).filter((one) => !isNew(one) && !isIn(again, one));
  const say = (sections: readonly CourseSection[], said: (what: string) => string) =>
    sectionTexts(sections, here.run, wording).map((what) => bullet([plain(said(what))], style));
  const careful = risksIn(dances).length > 0;
  const addresses = dances.flatMap(({ routine }) => {
    const address = routineAddress(routine, library);
    return address === undefined ? [] : [{ title: routine.title, address }];
  });
  const title =
    next === undefined ? home.afterwards : next.date === undefined ? home.practise : home.practiseUntil(next.date);
  return [
    headingBlock(title, style),
    ...say(here.fresh, home.new),
    ...say(again, home.again),
    ...say(rest, home.rest),
    ...(careful ? [textBlock([plain(home.careful)], style)] : []),
    ...addresses.map(({ title, address }) =>
      bullet([plain(home.page(title)), { text: address.replace(/^https?:\/\//, ""), ...linkTo(address) }], style),
    ),
  ];
}

/** What the next lesson needs. */
function bringBlocks({ lessons }: CoursePlan, lesson: number, workshop: Workshop, style: NoteStyle): readonly Block[] {
  const { wording } = style;
  const run = lessons[lesson + 1]?.lesson.run ?? [];
  const items = gearBySection(workshop, wording)(run);
  if (items.length === 0) return [];
  return [
    textBlock([bold(wording.course.home.bring), plain(items.join(", "))], { ...style, before: style.size * 0.5 }),
  ];
}

const sectionsOf = ({ routine, title, sections }: KnownRoutine): readonly CourseSection[] =>
  sections.map((section) => ({ routine, title, section }));

const isIn = (sections: readonly CourseSection[], { routine, section }: CourseSection): boolean =>
  sections.some((one) => one.routine === routine && one.section === section);

/** The counts of some sections, as lists. */
function countBlocks(
  sections: readonly CourseSection[],
  dances: readonly Offered[],
  style: NoteStyle,
): readonly Block[] {
  const { wording } = style;
  return dances.flatMap(({ routine, version }) => {
    const bands = sheetBands(routine, version, wording).filter(({ section }) =>
      isIn(sections, { routine: routine.slug, title: routine.title, section: section.name }),
    );
    return bands.flatMap((band) => [
      headingBlock(theirs(wording.course.hard(routine.title, band.section.name), wording), style),
      ...[
        ...(band.section.words === undefined ? [] : [wording.print.quoted(band.section.words)]),
        ...(band.section.mirrored ? [wording.print.otherSide] : []),
        ...canonFacts(band, wording),
        ...(band.again === "" ? [] : [band.again]),
      ].map((text) => textBlock([{ text, tone: "soft" }], { ...style, before: 2, keepNext: true })),
      ...bandRows(band, style).flat(),
    ]);
  });
}

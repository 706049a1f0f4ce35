import { wholeRun } from "../../routine/clock.js";
import type { Library, Workshop } from "../../routine/routine.js";
import type { ClassPlan } from "../../teaching/class-plan.js";
import type { Wording } from "../../wording/wording.js";
import { courseText, type LessonText } from "../course-text.js";
import { lessonSheetName } from "../lesson-sheet-name.js";
import { gearIn, type Offered, offeredIn, riskName, risksIn } from "../offered.js";
import { planText, type SaidStep } from "../plan-text.js";
import type { Html } from "./html.js";
import { markdownHtml } from "./markdown.js";
import { type Download, type PackFiles, savable } from "./pack.js";

/** A workshop's page as data. */
export interface WorkshopView {
  readonly title: string;
  /** Of a course the day of each lesson. */
  readonly days: readonly string[];
  /** Of a course. */
  readonly lessons?: number;
  /** The time of day at which it begins. */
  readonly starts?: string;
  readonly venue?: string;
  readonly minutes: number;
  readonly level: string;
  readonly routines: readonly {
    readonly slug: string;
    readonly title: string;
    readonly choreographer: string;
    readonly counts: number;
    readonly run: string;
    readonly tempo: string;
  }[];
  readonly prose: Html;
  /** What all of its routines need together, in every version that it offers; with each whose it is where not all need it. */
  readonly gear: readonly { readonly item: string; readonly required: boolean; readonly routines: readonly string[] }[];
  readonly cautions: readonly {
    readonly classes: string;
    readonly value: { readonly label: string; readonly text: string };
  }[];
  readonly generalCaution: string;
  readonly houseRules: Html;
  readonly plan?: PlanView;
  /** Of a course, in place of a plan. */
  readonly course?: CourseView;
  /** Files to take away. */
  readonly downloads: readonly Download[];
}

/** A course: its lessons, each with its running order. */
export interface CourseView {
  readonly summary: readonly string[];
  readonly lessons: readonly LessonView[];
}

export interface LessonView extends LessonText {
  /** The name of the sheet that goes home after it. */
  readonly sheet?: string;
  /** The name that it is saved under. */
  readonly saveAs?: string;
  readonly plan: PlanView;
}

/** The running order, with times from the beginning of the slot. */
export interface PlanView {
  readonly summary: readonly string[];
  readonly activities: readonly {
    readonly clock: string;
    readonly label: string;
    readonly length: string;
    /** Short names of all risks that it meets. */
    readonly cautions: readonly string[];
    readonly steps: readonly Omit<SaidStep, "cautions">[];
  }[];
}

export function workshopView(workshop: Workshop, library: Library, pack: PackFiles, wording: Wording): WorkshopView {
  const { title, date, dates, lessons, starts, venue, minutes, level, routines } = workshop;
  const danced = offeredIn(workshop);
  return {
    title,
    days: dates ?? (date === undefined ? [] : [date]),
    ...(lessons === undefined ? {} : { lessons }),
    ...(starts === undefined ? {} : { starts }),
    ...(venue === undefined ? {} : { venue }),
    minutes,
    level: wording.versions.name(level),
    routines: routines.map((routine) => ({
      slug: routine.slug,
      title: routine.title,
      choreographer: routine.choreographer,
      counts: routine.counts,
      run: wording.time.run(wholeRun(routine)),
      tempo: wording.time.tempo(routine.music),
    })),
    prose: markdownHtml(workshop.prose),
    gear: gearOf(danced, wording),
    cautions: risksIn(danced).map((risk) => ({
      classes: "",
      value: { label: riskName(danced, risk, wording), text: wording.risks.caution(risk) },
    })),
    generalCaution: wording.risks.generalCaution,
    houseRules: markdownHtml(library.cautions ?? ""),
    ...planned(workshop, pack, wording),
    downloads: pack.downloads,
  };
}

function planned(
  workshop: Workshop,
  { plan, names }: PackFiles,
  wording: Wording,
): Pick<WorkshopView, "plan" | "course"> {
  if (plan === undefined) return {};
  if (!("lessons" in plan)) return { plan: planView(plan, wording) };
  const { summary, lessons } = courseText(plan, workshop, wording);
  const { title } = wording.course.home;
  return {
    course: {
      summary,
      lessons: plan.lessons.flatMap((lesson, index): LessonView[] => {
        const text = lessons[index];
        const sheet = lessonSheetName(index + 1);
        return text === undefined
          ? []
          : [
              {
                ...text,
                ...(names?.has(sheet) && { sheet, saveAs: `${savable(title(workshop.title, index + 1))}.pdf` }),
                plan: planView(lesson, wording),
              },
            ];
      }),
    },
  };
}

function planView(plan: ClassPlan, wording: Wording): PlanView {
  const text = planText(plan, wording);
  return {
    summary: text.summary,
    activities: plan.activities.map((activity) => ({
      clock: text.clock(activity),
      label: text.label(activity),
      length: wording.plan.span(activity.seconds),
      cautions: text.cautions([activity]),
      steps: text.steps(activity).map(({ label, instruction, load }) => ({ label, instruction, load })),
    })),
  };
}

function gearOf(danced: readonly Offered[], wording: Wording): WorkshopView["gear"] {
  const items = new Map<string, { required: boolean; routines: string[] }>();
  for (const one of danced)
    for (const { item, optional, only } of gearIn(one, wording)) {
      const entry = items.get(item) ?? { required: false, routines: [] };
      entry.required ||= !optional;
      entry.routines.push(wording.print.item(one.routine.title, false, only));
      items.set(item, entry);
    }
  return [...items.entries()]
    .map(([item, entry]) => ({ item, ...entry }))
    .sort((a, b) => Number(b.required) - Number(a.required));
}

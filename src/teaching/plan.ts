import { definedOnly } from "../routine/defined-only.js";
import type { Library, Routine, Workshop } from "../routine/routine.js";
import { type Block, blocksOf, leastBlocks, lengthOf } from "./blocks.js";
import { type ClassLoad, differ, mostOf, withRuns } from "./class-load.js";
import type { ClassPlan, DividedClass, Fit, PlannedGroup, PlannedRoutine } from "./class-plan.js";
import { classSteps, type Reach, taughtChunks } from "./class-steps.js";
import type { RatedMove } from "./difficulty.js";
import { type ClassShare, divisions, freshIn, type Pricing, pricing, reachable } from "./divide.js";
import { ease, limitOutcomes } from "./ease.js";
import { fill } from "./fill.js";
import { replacedIn } from "./hard-moves.js";
import type { ActivityKind } from "./kinds.js";
import { type Lesson, lessonOf, type SectionUse, useOf } from "./lesson.js";
import type { Material } from "./material.js";
import { materialOf } from "./material-of.js";
import { chunkIds, plannedChunks } from "./planned-chunks.js";
import { activityOf, endOf, loadsAsPlanned, type PlannedStep } from "./running-order.js";
import { type ClassSettings, settingsFor } from "./settings.js";
import { talkSeconds } from "./talk.js";
import { type Slot, slotOf, timetable } from "./timetable.js";
import { versionsFor } from "./versions.js";

/**
 * Plans a class, or one lesson of a course: what is taught when, in whole minutes that add up to the slot. First the least that teaches everything
 * (or, where that is too long, as many sections as fit), then further runs where they help most; the rest is free practice.
 * The method is part by part with linking (common practice, no source); every figure comes from counts, tempo and the
 * library's `teaching` settings.
 *
 * @param lesson sections by routine: those taught now, those recalled first, and those that the runs dance along with them;
 *   absent: what the workshop's file asks for. A run goes as far as what is known and taught by then, and the last run of
 *   each routine dances all that this lesson has of it. One call a lesson, with nothing kept between two.
 */
export function planClass(workshop: Workshop, library: Library, lesson: Lesson = lessonOf(workshop)): ClassPlan {
  const { slug, title, date, venue, minutes, level, routines } = workshop;
  const settings = settingsFor(library);
  const material = materialOf(routines, level, settings, lesson);
  const slot = slotOf(workshop);
  const price = pricing(material, settings);
  const reach = reachOf(material, price, slot, settings);
  const fit = fitOf(material, price, slot, reach);

  const { steps, planned, blocks, talk, eased } = filled(material, reach, slot, settings);
  const easiest = easiestLoad(planned);
  const offered = planned.some(({ step }) => step.loads.some((one) => one.offered));
  const load = {
    ...{ easiest: mostOf(easiest), taught: mostOf(eased.after) },
    ...(offered && { offered: mostOf(eased.offered.after) }),
  };
  const groups = groupLoads(routines, easiest, eased.after);

  const context = { material, ids: chunkIds(material), settings };
  const activities = timetable(slot, steps, blocks, talk, settings).map((place) => activityOf(place, planned, context));
  const lasting = (wanted: ActivityKind) =>
    activities.reduce((sum, { kind, seconds }) => (kind === wanted ? sum + seconds : sum), 0);
  return {
    ...{ slug, title, minutes, level },
    ...(date !== undefined && { date }),
    ...(venue !== undefined && { venue }),
    ...askedOf(workshop),
    activities,
    load,
    ...(groups.length > 0 && { groups }),
    limits: limitOutcomes(eased, load.easiest, routines, settings),
    routines: routines.map((routine) => plannedRoutine(routine, level, lesson)),
    chunks: plannedChunks(context, reach, planned),
    fit,
    freePractice: lasting("free-practice"),
    questions: lasting("questions"),
    settings,
  };
}

/**
 * The steps with their runs, within the limits as far as may be. A hard move is not taken on its own where all the runs of that would
 * dance something else in its place; the time goes into other runs.
 */
function filled(material: Material, reach: Reach, slot: Slot, settings: ClassSettings) {
  const replaced = new Set<RatedMove>();
  const fresh = taughtChunks(material, reach).reduce((sum, chunk) => sum + freshIn(material, chunk), 0);
  const talkIn = (blocks: readonly Pick<Block, "seconds" | "floor">[]) =>
    talkSeconds(fresh, slot.seconds, blocks, settings);
  for (;;) {
    const steps = classSteps(material, reach, settings, replaced);
    const seconds = slot.teaching - practiceSeconds(material, slot);
    const runs = fill({ steps, material, seconds, talk: talkIn }, settings);
    const eased = ease(steps, runs, settings);
    const planned = steps.map(
      (step, index): PlannedStep => ({
        step,
        runs: runs[index] ?? 0,
        easier: eased.easier[index] ?? 0,
        spared: eased.spared[index] ?? 0,
        asTaught: eased.asTaught[index] ?? 0,
      }),
    );
    const more = planned.flatMap((one) =>
      one.runs > 0 && one.easier === one.runs ? replacedIn(one.step, material) : [],
    );
    if (more.length === 0) {
      const blocks = blocksOf(steps, runs, material, settings);
      return { steps, planned, blocks, talk: talkIn(blocks), eased };
    }
    for (const move of more) replaced.add(move);
  }
}

/** Seconds that a course's lesson without anything new keeps free of runs, for what the group finds hard: a sixth, our own choice. */
function practiceSeconds({ parts, endsInRun }: Material, slot: Slot): number {
  const isNew = parts.some(({ chunks }) => chunks.length > 0);
  return endsInRun && !isNew ? Math.floor(slot.teaching / 360) * 60 : 0;
}

/** Of a dancer who stays at the easiest level. */
function easiestLoad(planned: readonly PlannedStep[]): ClassLoad {
  return planned.reduce<ClassLoad>(
    (sum, one) =>
      withRuns(
        sum,
        one.step.routine,
        loadsAsPlanned(one).map(({ easiest }) => easiest),
      ),
    new Map(),
  );
}

/** What each group meets, of routines whose groups differ. */
function groupLoads(routines: Workshop["routines"], easiest: ClassLoad, taught: ClassLoad): readonly PlannedGroup[] {
  return routines.flatMap(({ slug, title, groups }) => {
    const [own, easier] = [taught.get(slug) ?? [], easiest.get(slug) ?? []];
    if (!differ(own) && !differ(easier)) return [];
    return groups.map((group, index) => ({
      ...{ routine: slug, title, group, taught: own[index] ?? {}, easiest: easier[index] ?? {} },
    }));
  });
}

function plannedRoutine(routine: Routine, level: string, lesson: Lesson): PlannedRoutine {
  const { slug, title, sections } = routine;
  const { taught, easiest } = versionsFor(routine, level);
  const names = [...new Set(sections.map(({ name }) => name))];
  const used = (use: SectionUse | undefined) => names.filter((name) => useOf(lesson, slug, name) === use);
  const [recalled, leftOut] = [used("recalled"), used(undefined)];
  return {
    ...{ slug, title, version: taught.id, easiest: easiest.id },
    ...(taught.kind === "adaptation" && { adaptation: true as const }),
    ...(recalled.length > 0 && { recalled }),
    ...(leftOut.length > 0 && { leftOut }),
    ...(routine.music.pauses.length > 0 && { pauses: routine.music.pauses }),
  };
}

/** What a file asks for beyond what is planned by, where it does. */
export function askedOf({ starts, sections, known, lessons, dates }: Workshop): Pick<ClassPlan, "asked"> {
  const asked = definedOnly<NonNullable<ClassPlan["asked"]>>({ starts, sections, known, lessons, dates });
  return Object.keys(asked).length === 0 ? {} : { asked };
}

function reachOf(material: Material, price: Pricing, slot: Slot, settings: ClassSettings): Reach {
  const parts = reachable((from, to) => price(from, to, slot.seconds), material.parts.length, 0, slot.teaching);
  let chunks = 0;
  if (parts === 0) {
    const there = material.parts[0]?.chunks.length ?? 0;
    const takes = (number: number) => {
      const reach = { parts: 0, chunks: number };
      const blocks = leastBlocks(classSteps(material, reach, settings), material, settings);
      const fresh = taughtChunks(material, reach).reduce((sum, chunk) => sum + freshIn(material, chunk), 0);
      return lengthOf(blocks) + talkSeconds(fresh, slot.seconds, blocks, settings);
    };
    while (chunks < there && takes(chunks + 1) <= slot.teaching) chunks++;
  }
  return { parts, chunks };
}

function fitOf(material: Material, price: Pricing, slot: Slot, reach: Reach): Fit {
  const { parts } = material;
  const leastIn = (seconds: number) => price(0, parts.length, seconds);
  const least = leastIn(slot.seconds);
  const fits = least <= slot.teaching;
  const last = parts[reach.parts - 1];
  const classOf = ({ from, to, seconds }: ClassShare): DividedClass[] => {
    const sections = parts.slice(from, to).map(endOf);
    const ends = sections.at(-1);
    return ends ? [{ sections, ends, least: seconds, spare: slot.teaching - seconds }] : [];
  };
  // A longer slot has more time for questions.
  let minutesNeeded = Math.ceil((slot.frame + least) / 60);
  while (slot.frame + leastIn(minutesNeeded * 60) > minutesNeeded * 60) minutesNeeded++;
  const divided = (from: number, to: number) => price(from, to, slot.seconds);
  return {
    fits,
    least,
    available: slot.teaching,
    short: Math.max(0, least - slot.teaching),
    minutesNeeded,
    ...(last && { upTo: endOf(last) }),
    left: parts.slice(reach.parts).map(endOf),
    divisions: fits
      ? []
      : divisions(divided, parts.length, slot.teaching).map((shares) => ({ classes: shares.flatMap(classOf) })),
  };
}

import { definedOnly } from "../routine/defined-only.js";
import type { Library, Workshop } from "../routine/routine.js";
import { type ClassLoad, differ, mostOf, withRuns } from "./class-load.js";
import type { ClassPlan, DividedClass, Fit, PlannedGroup } from "./class-plan.js";
import { classSteps, leastSeconds, type Reach } from "./class-steps.js";
import type { RatedMove } from "./difficulty.js";
import { type ClassShare, divisions, type Pricing, pricing, reachable } from "./divide.js";
import { ease, limitOutcomes } from "./ease.js";
import { fill } from "./fill.js";
import { type Material, materialOf } from "./material.js";
import {
  activityOf,
  blocksOf,
  chunkIds,
  endOf,
  loadsAsPlanned,
  type PlannedStep,
  plannedChunks,
} from "./running-order.js";
import { type ClassSettings, settingsFor } from "./settings.js";
import { replacedIn, secondsOf } from "./steps.js";
import { type Slot, slotOf, timetable } from "./timetable.js";
import { versionsFor } from "./versions.js";

/**
 * Plans a class: what is taught when, in whole seconds that add up to the slot. First the least that teaches everything
 * (or, where that is too long, as many sections as fit), then further runs where they help most; the rest is free practice.
 * The method is part by part with linking (common practice, no source); every figure comes from counts, tempo and the
 * library's `teaching` settings.
 */
export function planClass(workshop: Workshop, library: Library): ClassPlan {
  const { slug, title, date, venue, minutes, level, routines } = workshop;
  const settings = settingsFor(library);
  const material = materialOf(routines, level, settings);
  const slot = slotOf(workshop);
  const price = pricing(material, settings);
  const reach = reachOf(material, price, slot, settings);
  const fit = fitOf(material, price, slot, reach);

  const { steps, planned, before, after } = filled(material, reach, slot, settings);
  const easiest = easiestLoad(planned);
  const load = { easiest: mostOf(easiest), taught: mostOf(after) };
  const groups = groupLoads(routines, easiest, after);

  const context = { material, ids: chunkIds(material), settings, load: load.taught };
  const lengths = planned.map(({ step, runs }) => secondsOf(step, runs, settings));
  const places = timetable(slot, steps, lengths, settings);
  const activities = places.map((place) => activityOf(place, planned, context));
  const freePractice = activities.find(({ kind }) => kind === "free-practice")?.seconds ?? 0;
  return {
    ...{ slug, title, minutes, level },
    ...(date !== undefined && { date }),
    ...(venue !== undefined && { venue }),
    ...askedOf(workshop),
    activities,
    blocks: blocksOf(activities),
    load,
    ...(groups.length > 0 && { groups }),
    limits: limitOutcomes(before, after, routines, settings),
    routines: routines.map((routine) => {
      const { taught, easiest } = versionsFor(routine, level);
      const { pauses } = routine.music;
      return {
        ...{ slug: routine.slug, title: routine.title, version: taught.id, easiest: easiest.id },
        ...(pauses.length > 0 && { pauses }),
      };
    }),
    chunks: plannedChunks(context, reach, planned),
    fit,
    freePractice,
    settings,
  };
}

/**
 * The steps with their runs, within the limits as far as may be. A hard move is not taken on its own where all the runs of that would
 * dance something else in its place; the time goes into other runs.
 */
function filled(material: Material, reach: Reach, slot: Slot, settings: ClassSettings) {
  const replaced = new Set<RatedMove>();
  for (;;) {
    const steps = classSteps(material, reach, settings, replaced);
    const runs = fill(steps, material, slot.teaching, settings);
    const { easier, before, after } = ease(steps, runs, settings);
    const planned = steps.map((step, index) => ({ step, runs: runs[index] ?? 0, easier: easier[index] ?? 0 }));
    const more = planned.flatMap((one) =>
      one.runs > 0 && one.easier === one.runs ? replacedIn(one.step, material) : [],
    );
    if (more.length === 0) return { steps, planned, before, after };
    for (const move of more) replaced.add(move);
  }
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

/** What a file asks for beyond what is planned by, where it does. */
function askedOf({ starts, sections, known, lessons, dates }: Workshop): Pick<ClassPlan, "asked"> {
  const asked = definedOnly<NonNullable<ClassPlan["asked"]>>({ starts, sections, known, lessons, dates });
  return Object.keys(asked).length === 0 ? {} : { asked };
}

function reachOf(material: Material, price: Pricing, slot: Slot, settings: ClassSettings): Reach {
  const parts = reachable(price, material.parts.length, 0, slot.teaching);
  let chunks = 0;
  if (parts === 0) {
    const there = material.parts[0]?.chunks.length ?? 0;
    const takes = (number: number) =>
      leastSeconds(classSteps(material, { parts: 0, chunks: number }, settings), settings);
    while (chunks < there && takes(chunks + 1) <= slot.teaching) chunks++;
  }
  return { parts, chunks };
}

function fitOf(material: Material, price: Pricing, slot: Slot, reach: Reach): Fit {
  const { parts } = material;
  const least = price(0, parts.length);
  const fits = least <= slot.teaching;
  const last = parts[reach.parts - 1];
  const classOf = ({ from, to, seconds }: ClassShare): DividedClass[] => {
    const sections = parts.slice(from, to).map(endOf);
    const ends = sections.at(-1);
    return ends ? [{ sections, ends, least: seconds, spare: slot.teaching - seconds }] : [];
  };
  return {
    fits,
    least,
    available: slot.teaching,
    short: Math.max(0, least - slot.teaching),
    minutesNeeded: Math.ceil((slot.frame + least) / 60),
    ...(last && { upTo: endOf(last) }),
    left: parts.slice(reach.parts).map(endOf),
    divisions: fits
      ? []
      : divisions(price, parts.length, slot.teaching).map((shares) => ({ classes: shares.flatMap(classOf) })),
  };
}

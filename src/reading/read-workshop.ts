import { definedOnly } from "../routine/defined-only.js";
import type { Routine, Workshop } from "../routine/routine.js";
import { dateFindings } from "./class-dates.js";
import { knownFindings, sectionChoiceFindings, sectionsOf } from "./class-sections.js";
import type { TextFinding } from "./finding.js";
import { eitherOf, nearest, quoted } from "./nearest.js";
import type { NothingLeft } from "./nothing-left.js";
import { placeOf } from "./place.js";
import { readProse } from "./prose.js";
import { readKeys } from "./read-keys.js";
import { type WorkshopKeys, workshopSchema } from "./schema/workshop.js";
import { split } from "./split.js";
import type { Front } from "./yaml.js";

/** A workshop, with what is known of its routines. */
export type WorkshopOf<R> = Omit<Workshop, "routines"> & { readonly routines: readonly R[] };

/** What a workshop's file is checked against. */
export type RoutineInClass = Pick<Routine, "slug" | "title" | "levels" | "taught" | "date"> & {
  readonly draft?: boolean;
} & (
    | Pick<Routine, "versions" | "sections">
    | { readonly adaptations: readonly string[]; readonly sections: readonly string[] }
  );

/**
 * Reads a workshop from its file's text (line ends "\n") and looks its routines up.
 *
 * @param routines those that could be read whole
 * @param slugs the names of all there are, since one with errors is not unknown; absent where nobody knows them
 */
export function readWorkshop<R extends RoutineInClass>(
  text: string,
  slug: string,
  routines: readonly R[],
  slugs: readonly string[] | undefined,
): { readonly workshop?: WorkshopOf<R>; readonly findings: readonly TextFinding[] } {
  const { halves, findings: splitting } = split(text);
  if (!halves) return { findings: splitting };
  const { front, keys, remaining, findings } = readKeys(halves.yaml, workshopSchema);
  const usable = keys ?? remaining;
  const { findings: prose } = readProse(halves.body, halves.bodyLine);
  if (!usable) return { findings: [...findings, ...prose] };
  const found = usable.routines.flatMap((name) => routines.filter((routine) => routine.slug === name));
  const all = [
    ...findings,
    ...prose,
    ...unknownRoutines(usable, slugs, front),
    ...drafts(usable, found, front),
    ...unknownLevels(usable, found, front),
    ...sectionFindings(usable, found, front),
    ...dateFindings(usable, front.locate),
  ];
  const sound = found.length === usable.routines.length && !all.some(({ severity }) => severity === "error");
  if (!sound || !keys) return { findings: all };
  return { workshop: writeWorkshop(slug, keys, found, halves.body), findings: all };
}

/** What is said of a class that has no time to teach anything, and would need so many minutes. */
export function nothingTaught(text: string, needed: number): TextFinding {
  const { halves } = split(text);
  const { front, remaining, keys } = readKeys(halves?.yaml ?? "", workshopSchema);
  const { "warm-up": warmUp = 0, "cool-down": coolDown = 0, breaks = 0, minutes = 0 } = keys ?? remaining ?? {};
  const frame = warmUp + coolDown + breaks;
  const left = `of its ${minutes} minutes, warm-up, breaks and cool-down leave ${Math.max(0, minutes - frame)} for teaching`;
  const longer = needed > 600 ? `All of it would take ${needed} minutes` : `For all of it write \`minutes: ${needed}\``;
  const message = `Nothing can be taught in this class: ${left}. ${longer}; or make warm-up, breaks and cool-down shorter, or teach fewer \`sections\`.`;
  return { severity: "warning", rule: "nothing-taught", message, ...front.locate(placeOf(["minutes"]), "value") };
}

/** The slugs of the routines that a workshop's file names, as far as it can be read. */
export function routinesNamed(text: string): readonly string[] {
  const { halves } = split(text);
  const { keys, remaining } = halves ? readKeys(halves.yaml, workshopSchema) : {};
  return (keys ?? remaining)?.routines ?? [];
}

function unknownRoutines(keys: WorkshopKeys, slugs: readonly string[] | undefined, front: Front): TextFinding[] {
  if (!slugs) return [];
  return keys.routines.flatMap((name, index) => {
    if (slugs.includes(name)) return [];
    const near = nearest(name, slugs);
    const hint = near
      ? `Did you mean ${quoted(near)}?`
      : slugs.length > 0
        ? `There are ${eitherOf(slugs.map(quoted), "and")}.`
        : "";
    const message = `There is no routine ${quoted(name)}. Write the name of its file without \`.md\`. ${hint}`.trim();
    return [
      { severity: "error", rule: "unknown-routine", message, ...front.locate(placeOf(["routines", index]), "value") },
    ];
  });
}

function drafts(keys: WorkshopKeys, routines: readonly RoutineInClass[], front: Front): TextFinding[] {
  return keys.routines.flatMap((name, index) => {
    if (!routines.some(({ slug, draft }) => slug === name && draft)) return [];
    const message = `${quoted(name)} is a draft, so this workshop is not published either. Take \`draft: yes\` out of the routine when it is ready, or take the routine out here.`;
    return [{ severity: "warning", rule: "draft", message, ...front.locate(placeOf(["routines", index]), "value") }];
  });
}

function unknownLevels(keys: WorkshopKeys, routines: readonly RoutineInClass[], front: Front): TextFinding[] {
  const { level } = keys;
  if (level === undefined) return [];
  return routines.flatMap((routine) => {
    const versions = [...routine.levels, ...adaptationsOf(routine)];
    if (versions.includes(level)) return [];
    const near = nearest(level, versions) ?? eitherOf(versions.map(quoted));
    const message = `${quoted(routine.title)} has no level ${quoted(level)}. Write ${near}, or add the level to the routine.`;
    return [{ severity: "error", rule: "unknown-version", message, ...front.locate(placeOf(["level"]), "value") }];
  });
}

function adaptationsOf(routine: RoutineInClass): readonly string[] {
  if ("adaptations" in routine) return routine.adaptations;
  return routine.versions.filter(({ kind }) => kind === "adaptation").map(({ id }) => id);
}

function sectionFindings(
  { routines: slugs, sections, known }: WorkshopKeys,
  routines: readonly RoutineInClass[],
  { locate }: Front,
): readonly TextFinding[] {
  const wrong = [
    ...sectionChoiceFindings("sections", sections, slugs, routines, locate),
    ...sectionChoiceFindings("known", known, slugs, routines, locate),
  ];
  if (wrong.length > 0 || known === undefined) return wrong;
  const path = (slug: string, index: number) => ("by" in known ? ["known", slug, index] : ["known", index]);
  return knownFindings(sectionsOf(sections, slugs), sectionsOf(known, slugs), path, locate);
}

function writeWorkshop<R extends RoutineInClass>(
  slug: string,
  keys: WorkshopKeys,
  routines: readonly R[],
  body: string,
): WorkshopOf<R> {
  const { title, date, venue, minutes, level, routines: _names, "warm-up": warmUp, ...more } = keys;
  const { "cool-down": coolDown, breaks, starts, sections, known, lessons, dates, ...left } = more;
  left satisfies NothingLeft;
  const slugs = keys.routines;
  return {
    slug,
    title,
    ...definedOnly<Workshop>({
      ...{ venue, starts, dates },
      date: date ?? dates?.[0],
      sections: sectionsOf(sections, slugs),
      known: sectionsOf(known, slugs),
      lessons: dates?.length ?? lessons,
    }),
    minutes,
    level: level ?? routines[0]?.taught ?? "1",
    routines,
    warmUp,
    coolDown,
    breaks,
    prose: body.trim(),
  };
}

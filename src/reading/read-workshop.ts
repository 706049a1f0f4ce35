import { definedOnly } from "../routine/defined-only.js";
import type { Routine, Workshop } from "../routine/routine.js";
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
export type RoutineInClass = Pick<Routine, "slug" | "title" | "levels" | "taught"> & { readonly draft?: boolean };

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
  ];
  const sound = found.length === usable.routines.length && !all.some(({ severity }) => severity === "error");
  return { ...(sound && keys ? { workshop: writeWorkshop(slug, keys, found, halves.body) } : {}), findings: all };
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
  return routines.flatMap(({ title, levels }) => {
    if (levels.includes(level)) return [];
    const near = nearest(level, levels) ?? eitherOf(levels.map(quoted));
    const message = `${quoted(title)} has no level ${quoted(level)}. Write ${near}, or add the level to the routine.`;
    return [{ severity: "error", rule: "unknown-version", message, ...front.locate(placeOf(["level"]), "value") }];
  });
}

function writeWorkshop<R extends RoutineInClass>(
  slug: string,
  keys: WorkshopKeys,
  routines: readonly R[],
  body: string,
): WorkshopOf<R> {
  const { title, date, venue, minutes, level, routines: _names, "warm-up": warmUp, ...more } = keys;
  const { "cool-down": coolDown, breaks, ...left } = more;
  left satisfies NothingLeft;
  return {
    slug,
    title,
    ...definedOnly<Workshop>({ date, venue }),
    minutes,
    level: level ?? routines[0]?.taught ?? "1",
    routines,
    warmUp,
    coolDown,
    breaks,
    prose: body.trim(),
  };
}

import type { Routine } from "../routine/routine.js";
import { type Risk, risks } from "../routine/vocabulary.js";
import { differ } from "./class-load.js";
import type { Activity, GroupCaution, GroupLoad } from "./class-plan.js";
import { type GroupLoads, heaviest, type Load } from "./load.js";
import type { Chunk } from "./material.js";

export type Level = "taught" | "easiest";

/** The risks that some chunks of a routine meet at these levels, and whose they are where not all of its groups meet them. */
export function cautionsOf(
  chunks: readonly Pick<Chunk, "routine" | "dancers">[],
  levels: readonly Level[],
): Pick<Activity, "cautions" | "cautionGroups"> {
  const names = chunks[0]?.routine.groups ?? [];
  const meets = (risk: Risk, group: number) =>
    chunks.some(({ dancers }) =>
      levels.some((level) => dancers[group]?.[level].some((move) => move.risks.includes(risk))),
    );
  const met = risks.flatMap((risk): readonly GroupCaution[] => {
    const numbers = (chunks[0]?.dancers ?? []).flatMap((_, group) => (meets(risk, group) ? [group] : []));
    if (numbers.length === 0) return [];
    return [{ risk, groups: numbers.length < names.length ? numbers.flatMap((group) => names[group] ?? []) : [] }];
  });
  const apart = met.filter(({ groups }) => groups.length > 0);
  return { cautions: met.map(({ risk }) => risk), ...(apart.length > 0 && { cautionGroups: apart }) };
}

/** Those of some loads that tell the groups apart, by their names; nothing where all are the same. */
export function byGroup(names: readonly string[], loads: readonly Load[]): readonly GroupLoad[] | undefined {
  if (!differ(loads)) return undefined;
  return names.map((group, index) => ({ group, load: loads[index] ?? {} }));
}

/** What the dancers meet, and what each group does where groups differ. */
export function heaviestAndGroups(
  { groups: names }: Routine,
  loads: GroupLoads,
): Pick<Activity, "load" | "easiest" | "groups"> {
  const taught = loads.map((one) => one.taught);
  const groups = byGroup(names, taught);
  return {
    load: heaviest(taught),
    easiest: heaviest(loads.map(({ easiest }) => easiest)),
    ...(groups && { groups }),
  };
}

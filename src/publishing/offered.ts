import { dancersOf } from "../routine/chart.js";
import type { Routine, Version, Workshop } from "../routine/routine.js";
import { versionAt } from "../routine/version-at.js";
import { type Risk, risks } from "../routine/vocabulary.js";
import { whoMeets } from "../routine/whose.js";
import type { Wording } from "../wording/wording.js";
import { versionNames } from "./met-cautions.js";

/** A routine as a class dances it: the version it is taught in, all versions that somebody in it may dance, and how much of it. */
export interface Offered {
  readonly routine: Routine;
  readonly version: Version;
  /** Whose options the class is shown. */
  readonly versions: readonly Version[];
  /** Names of the sections that it dances; absent where it dances all. */
  readonly sections?: readonly string[];
}

/** What a class dances. A level's class is shown the options of every other version; one that dances an adaptation is shown none. */
export function offeredIn({ routines, level, sections }: Workshop): readonly Offered[] {
  return routines.map((routine): Offered => {
    const version = versionAt(routine, level);
    const versions = version.kind === "level" ? routine.versions : [version];
    const only = sections !== undefined && Object.hasOwn(sections, routine.slug) ? sections[routine.slug] : undefined;
    return { routine, version, versions, ...(only && { sections: only }) };
  });
}

/** One version of a routine, danced whole. */
export function offeredAlone(routine: Routine, version: Version): Offered {
  return { routine, version, versions: [version] };
}

/** The versions that meet a risk in what is danced; where none of its moves brings it along, it is worn or done throughout. */
export function meeting({ routine, versions, sections }: Offered, risk: Risk): readonly Version[] {
  return versions.filter((version) => {
    if (!version.cautions.includes(risk)) return false;
    const moves = dancersOf(routine, version).flatMap((one) => one.moves.filter((move) => move.risks.includes(risk)));
    const isDanced = (index: number) => sections?.includes(routine.sections[index]?.name ?? "") ?? true;
    return moves.length === 0 || moves.some((move) => isDanced(move.section));
  });
}

/** The risks that are met in what is danced, in their order. */
export function risksIn(all: readonly Offered[]): readonly Risk[] {
  return risks.filter((risk) => all.some((one) => meeting(one, risk).length > 0));
}

/** A risk by its short name, with the groups and the versions whose it is where not all who may meet it do. */
export function riskName(all: readonly Offered[], risk: Risk, { risks: said, description }: Wording): string {
  const met = all.flatMap((one) => meeting(one, risk).map((version) => ({ routine: one.routine, version })));
  const whole = all.some((one) => meeting(one, risk).length === one.versions.length);
  const names = new Map(met.map(({ version }) => [version.id, version]));
  const sorted = [...names.values()].sort((one, other) => one.id.localeCompare(other.id, "en", { numeric: true }));
  const only = whole ? undefined : versionNames(sorted, description);
  return said.of(risk, whoMeets(met, risk), only);
}

/** A thing that a routine needs as a class dances it. */
export interface OfferedGear {
  readonly item: string;
  readonly optional: boolean;
  readonly why?: string;
  /** The versions that need it, where not all do: "level 3". */
  readonly only?: string;
}

/** What is needed for all versions of a routine that a class dances, each item once (letter case aside). */
export function gearIn({ versions }: Offered, { description }: Wording): readonly OfferedGear[] {
  const names = new Set(versions.flatMap(({ gear }) => gear.map(({ item }) => item.toLowerCase())));
  return [...names].flatMap((name): readonly OfferedGear[] => {
    const by = versions.filter(({ gear }) => gear.some(({ item }) => item.toLowerCase() === name));
    const uses = by.flatMap(({ gear }) => gear.filter(({ item }) => item.toLowerCase() === name));
    const why = uses.find((one) => one.why !== undefined)?.why;
    const optional = uses.every(({ need }) => need === "optional");
    return uses.slice(0, 1).map(({ item }) => ({
      ...{ item, optional },
      ...(why !== undefined && { why }),
      ...(by.length < versions.length && { only: versionNames(by, description) }),
    }));
  });
}

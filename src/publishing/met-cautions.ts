import type { Library, Routine, Version } from "../routine/routine.js";
import { risks as riskOrder } from "../routine/vocabulary.js";
import { whoMeets } from "../routine/whose.js";
import { type Wording, wordingOf } from "../wording/wording.js";
import { plain } from "./plain.js";

/** The risks, with the groups and the versions that meet them where not all do. */
export function metCautions(routine: Routine, library: Library): readonly string[] {
  const { versions } = routine;
  const { description: said, risks } = wordingOf(library.language);
  return riskOrder.flatMap((risk) => {
    const by = versions.filter((version) => version.cautions.includes(risk));
    const only = by.length < versions.length ? versionNames(by, said) : undefined;
    if (by.length === 0) return [];
    const dances = by.map((version) => ({ routine, version }));
    return [risks.of(risk, whoMeets(dances, risk), only)];
  });
}

/** "levels 1 and 2, seated" */
export function versionNames(versions: readonly Version[], said: Wording["description"]): string {
  const named = (wanted: Version["kind"]) => versions.filter(({ kind }) => kind === wanted).map(({ id }) => plain(id));
  return said.versions(named("level"), named("adaptation"));
}

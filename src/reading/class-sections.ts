import type { Routine } from "../routine/routine.js";
import type { TextFinding } from "./finding.js";
import { eitherOf, nearest, quoted } from "./nearest.js";
import { type Path, placeOf } from "./place.js";
import type { SectionChoice } from "./schema/workshop.js";
import type { Front } from "./yaml.js";

/** Names of sections, by the slug of their routine. */
export type SectionsByRoutine = Readonly<Record<string, readonly string[]>>;

interface Sectioned {
  readonly slug: string;
  readonly title: string;
  readonly sections: Routine["sections"] | readonly string[];
}

/** Some sections that a class names, and where. */
interface Named {
  readonly routine: Sectioned;
  readonly section: string;
  readonly path: Path;
}

/** Which sections of which routine a class means; of several routines it has to say whose they are. */
export function sectionsOf(choice: SectionChoice | undefined, slugs: readonly string[]): SectionsByRoutine | undefined {
  if (choice === undefined) return undefined;
  const [only] = slugs;
  return "by" in choice ? choice.by : only === undefined ? {} : { [only]: choice.all };
}

/** Checks that a class names sections that there are, of its own routines, each once. */
export function sectionChoiceFindings(
  key: "sections" | "known",
  choice: SectionChoice | undefined,
  slugs: readonly string[],
  routines: readonly Sectioned[],
  locate: Front["locate"],
): readonly TextFinding[] {
  const error = (path: Path, message: string, part: "key" | "value" = "value"): TextFinding => {
    return { severity: "error", rule: "class-sections", message, ...locate(placeOf(path), part) };
  };
  if (choice === undefined) return [];
  if ("all" in choice && slugs.length > 1) {
    const example = `\`${key}: { ${slugs[0]}: [${choice.all[0]}] }\``;
    return [error([key], `There are several routines here, so say whose sections these are: write ${example}.`)];
  }
  const strangers = Object.keys("by" in choice ? choice.by : {}).filter((slug) => !slugs.includes(slug));
  const foreign = strangers.map((slug) => {
    const message = `${quoted(slug)} is none of this class's routines. Write ${eitherOf(slugs.map(quoted))}, or add it to \`routines\`.`;
    return error([key, slug], message, "key");
  });
  const named = routines.flatMap((routine) => namedOf(key, choice, routine));
  return [...foreign, ...named.flatMap((one, index) => wrongWith(one, named.slice(0, index), error))];
}

function namedOf(key: string, choice: SectionChoice, routine: Sectioned): readonly Named[] {
  const list = "all" in choice ? choice.all : Object.hasOwn(choice.by, routine.slug) ? choice.by[routine.slug] : [];
  const path = "all" in choice ? [key] : [key, routine.slug];
  return (list ?? []).map((section, index) => ({ routine, section, path: [...path, index] }));
}

function wrongWith(
  { routine, section, path }: Named,
  before: readonly Named[],
  error: (path: Path, message: string) => TextFinding,
): readonly TextFinding[] {
  const names = [...new Set(routine.sections.map((one) => (typeof one === "string" ? one : one.name)))];
  if (!names.includes(section)) {
    const near = nearest(section, names);
    const hint = near === undefined ? `It has ${eitherOf(names.map(quoted), "and")}.` : `Did you mean ${quoted(near)}?`;
    return [error(path, `${quoted(routine.title)} has no section ${quoted(section)}. ${hint}`)];
  }
  const again = before.some((one) => one.routine === routine && one.section === section);
  return again ? [error(path, `${quoted(section)} stands here twice: keep one of the two.`)] : [];
}

/** Checks that what is known already is danced at all. */
export function knownFindings(
  sections: SectionsByRoutine | undefined,
  known: SectionsByRoutine | undefined,
  path: (slug: string, index: number) => Path,
  locate: Front["locate"],
): readonly TextFinding[] {
  return Object.entries(known ?? {}).flatMap(([slug, names]) => {
    const danced = sections !== undefined && Object.hasOwn(sections, slug) ? sections[slug] : undefined;
    return names.flatMap((name, index) =>
      danced === undefined || danced.includes(name)
        ? []
        : [
            {
              severity: "error" as const,
              rule: "class-sections",
              message: `${quoted(name)} is known, and not among this class's \`sections\`: add it there, or take it out here.`,
              ...locate(placeOf(path(slug, index)), "value"),
            },
          ],
    );
  });
}

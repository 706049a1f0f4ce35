import type { Routine } from "../../routine/routine.js";
import type { RoutineFacts } from "./routine-facts.js";

/**
 * The classes of something that holds for some versions only: the style sheet hides it while another version is chosen.
 * What holds for all of them needs none.
 *
 * @example classesFor(routine, new Set(["1", "3"])) // "of v0 v2"
 */
export function classesFor({ versions }: Routine, ids: ReadonlySet<string>): string {
  return marked(
    "of",
    "v",
    versions.map(({ id }) => ids.has(id)),
  );
}

/** The same for something that some groups dance: "by g1". */
export function groupClasses({ groups }: Routine, names: ReadonlySet<string>): string {
  return marked(
    "by",
    "g",
    groups.map((name) => names.has(name)),
  );
}

/** The class of what one group dances, where another row tells it while all groups are shown. */
export const alone = "alone";

function marked(kind: string, letter: string, held: readonly boolean[]): string {
  if (held.every((holds) => holds)) return "";
  return [kind, ...held.flatMap((holds, index) => (holds ? [`${letter}${index}`] : []))].join(" ");
}

/**
 * The part of the style sheet that makes the choice of a version and of a group work, without any script: one rule each. An engine
 * that lacks `:has` shows the taught version, and what the page's script writes into `data-shown` where there is one.
 *
 * @param routines of the whole library: there are as many rules as the one with the most versions needs
 */
export function choiceStyle(routines: readonly RoutineFacts[]): string {
  const most = (size: (routine: RoutineFacts) => number) =>
    routines.reduce((sum, routine) => Math.max(sum, size(routine)), 0);
  const rules = (kind: string, letter: string, count: number) =>
    Array.from({ length: count }, (_, index) => {
      const own = `${letter}${index}`;
      const others = `.${kind}:not(.${own}){display:none!important}\n`;
      return { chosen: `body:has(#${own}:checked) ${others}`, shown: `[data-shown~="${own}"] ${others}` };
    });
  const all = [
    ...rules(
      "of",
      "v",
      most(({ levels, adaptations }) => levels.length + adaptations.length),
    ),
    ...rules(
      "by",
      "g",
      most(({ groups }) => groups.length),
    ),
  ];
  const withoutHas = all.map(({ shown }) => shown).join("");
  return [...all.map(({ chosen }) => chosen), `@supports not selector(:has(*)){${withoutHas}}\n`].join("");
}

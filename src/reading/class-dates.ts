import type { TextFinding } from "./finding.js";
import { quoted } from "./nearest.js";
import { placeOf } from "./place.js";
import type { WorkshopKeys } from "./schema/workshop.js";
import type { Front } from "./yaml.js";

/** Checks that a course's lessons and dates do not contradict each other. */
export function dateFindings({ date, lessons, dates }: WorkshopKeys, locate: Front["locate"]): readonly TextFinding[] {
  const error = (message: string, ...path: readonly (string | number)[]): TextFinding => {
    return { severity: "error", rule: "class-dates", message, ...locate(placeOf(path), "value") };
  };
  if (dates === undefined) return [];
  const [first = ""] = dates;
  const outOfOrder = dates.flatMap((day, index) => {
    const before = dates[index - 1];
    if (before === undefined || before < day) return [];
    const what =
      before === day
        ? "stands here twice: one lesson a day"
        : `comes after ${quoted(before)}: write the earlier day first`;
    return [error(`${quoted(day)} ${what}.`, "dates", index)];
  });
  const wrongNumber =
    lessons === undefined || lessons === dates.length
      ? []
      : [
          error(
            `There are ${lessons} lessons and ${dates.length} dates: correct one of them, or leave \`lessons\` out, since \`dates\` says how many there are.`,
            "lessons",
          ),
        ];
  const wrongDay =
    date === undefined || date === first
      ? []
      : [error(`The first of the \`dates\` is ${quoted(first)}: write that here too, or leave \`date\` out.`, "date")];
  return [...outOfOrder, ...wrongNumber, ...wrongDay];
}

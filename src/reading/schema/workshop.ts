import * as z from "zod";
import { date, key, line, listOf, name, timeOfDay, versionName, whole } from "./values.js";

const minutes = (least: number) => whole(least, 600, " minutes");

const names = listOf(name).refine((list) => list.length > 0, "Name at least one section, or leave the key out.");
/** Sections of the one routine, or of each of several. */
const sections = z
  .union([names.transform((all) => ({ all })), z.record(z.string(), names).transform((by) => ({ by }))])
  .meta({ wants: "a list of sections, or one for each routine" });

/** The front matter of a class or workshop. */
export const workshopSchema = z.strictObject({
  title: key(line, "the workshop's name", "Winter floorwork"),
  date: key(date, "when it takes place", "2027-01-16").optional(),
  venue: key(line, "where", "Saltmarsh Dance Room, upper studio").optional(),
  minutes: key(minutes(5).meta({ standIn: "60" }), "how long the slot is", "90"),
  starts: key(timeOfDay, "the time of day (default: the plan counts from 0:00)").optional(),
  level: key(versionName, "the level that is taught, or an adaptation that the whole class dances", "2").optional(),
  routines: key(
    listOf(name).refine((names) => names.length > 0, "Name at least one routine."),
    "the routines, by the names of their files",
    "[low-tide]",
  ),
  sections: key(sections, "only these; of several routines, by the routine: `{ low-tide: [Tag] }`", "[Tag]").optional(),
  known: key(sections, "sections that were danced before: a recap, not taught again", "[Harbour wall]").optional(),
  lessons: key(whole(2, 60), "how many times the same slot: a course, shared out over its lessons", "6").optional(),
  dates: key(
    z.array(date).superRefine((days, context) => {
      if (days.length > 1) return;
      const here = days.length === 0 ? "none" : "one";
      const sentence = `\`dates\` must be two dates or more; here is ${here}. For one day, write \`date\`.`;
      context.addIssue({ code: "custom", params: { sentence } });
    }),
    "in place of `lessons`: one a lesson",
    "[2027-01-16, 2027-01-23]",
  ).optional(),
  "warm-up": key(minutes(0), "minutes", "12").default(0),
  "cool-down": key(minutes(0), "minutes", "6").default(0),
  breaks: key(minutes(0), "minutes", "5").default(0),
});

export type WorkshopKeys = z.output<typeof workshopSchema>;
export type SectionChoice = z.output<typeof sections>;

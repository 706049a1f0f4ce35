import { z } from "zod";
import { date, key, line, listOf, versionName, whole } from "./values.js";

const minutes = (least: number) => whole(least, 600, " minutes");

/** The front matter of a class or workshop. */
export const workshopSchema = z.strictObject({
  title: key(line, "the workshop's name", "Winter floorwork"),
  date: key(date, "when it takes place", "2027-01-16").optional(),
  venue: key(line, "where", "Saltmarsh Dance Room, upper studio").optional(),
  minutes: key(minutes(5), "how long the slot is", "90"),
  level: key(versionName, "the level that is taught", "2").optional(),
  routines: key(
    listOf(line).refine((names) => names.length > 0, "Name at least one routine."),
    "the routines, by the names of their files",
    "[low-tide]",
  ),
  "warm-up": key(minutes(0), "minutes (default 0)", "12").optional(),
  "cool-down": key(minutes(0), "minutes (default 0)", "6").optional(),
  breaks: key(minutes(0), "minutes (default 0)", "5").optional(),
});

export type WorkshopKeys = z.output<typeof workshopSchema>;

import * as z from "zod";
import { date, key, line, listOf, name, versionName, whole } from "./values.js";

const minutes = (least: number) => whole(least, 600, " minutes");

/** The front matter of a class or workshop. */
export const workshopSchema = z.strictObject({
  title: key(line, "the workshop's name", "Winter floorwork"),
  date: key(date, "when it takes place", "2027-01-16").optional(),
  venue: key(line, "where", "Saltmarsh Dance Room, upper studio").optional(),
  minutes: key(minutes(5).meta({ standIn: "60" }), "how long the slot is", "90"),
  level: key(versionName, "the level that is taught", "2").optional(),
  routines: key(
    listOf(name).refine((names) => names.length > 0, "Name at least one routine."),
    "the routines, by the names of their files",
    "[low-tide]",
  ),
  "warm-up": key(minutes(0), "minutes", "12").default(0),
  "cool-down": key(minutes(0), "minutes", "6").default(0),
  breaks: key(minutes(0), "minutes", "5").default(0),
});

export type WorkshopKeys = z.output<typeof workshopSchema>;

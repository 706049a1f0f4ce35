import * as z from "zod";
import { planningLimits } from "../../routine/teaching-settings.js";
import { type DancedKind, dancedKinds, loadParts, recordingStyles } from "../../routine/vocabulary.js";
import { amount, key, whole, word } from "./values.js";

/* Every default here is this project's own choice, made from teaching habit (common practice, no source). */

const seconds = (least: number, most: number) => whole(least, most, " seconds");
const points = (most: number) => amount(0, most, " points");
const percent = whole(20, 100, " per cent of the tempo");
const share = amount(0, 1, " of a new move");

/* Without these nothing is taught. */
const asked: readonly DancedKind[] = ["show", "drill", "again", "explain"];

type NumberSchema = ReturnType<typeof amount>;

/** A number for each activity of a class. */
function byActivity(setting: (activity: DancedKind) => NumberSchema, presets: Readonly<Record<DancedKind, number>>) {
  const keys = dancedKinds.map((activity) => [activity, setting(activity).default(presets[activity])] as const);
  return z
    .strictObject(Object.fromEntries(keys) as Record<DancedKind, z.ZodDefault<NumberSchema>>)
    .meta({ wants: "a mapping from activities to numbers", example: "{ drill: 3 }" });
}

/** What `teaching:` in `library.yaml` may say: what the class planner counts with. */
export const teachingSchema = z.strictObject({
  unit: key(seconds(1, 60), "seconds that every activity is rounded up to", "30").default(60),
  "chunk-counts": key(whole(4, 128, " counts"), "the longest chunk that is taught in one go, in counts", "8").default(
    16,
  ),
  "chunk-points": key(amount(1, 1000, " points"), "the fullest chunk, in points", "12").default(16),
  points: key(
    z.strictObject({
      move: key(points(100), "a move", "1").default(1),
      turn: key(points(100), "a turn in it", "1").default(0.5),
      drop: key(points(100), "a way down in it", "1").default(0.5),
      "part-count": key(points(100), "a start between two counts", "0.5").default(0.25),
      risk: key(points(100), "a risk in it", "1").default(0.5),
      "other-side": key(share, "a move known on its other side, as a share of a new one", "0.4").default(0.5),
      repeat: key(share, "a move known just so, as a share of a new one", "0.1").default(0.2),
    }),
    "points that make a chunk full",
    "{ turn: 1 }",
  ).prefault({}),
  explain: key(amount(0, 120, " seconds a point"), "seconds of explaining a point", "4").default(5),
  "mark-speed": key(percent, "per cent of the tempo while a chunk is marked", "60").default(50),
  "link-speed": key(percent, "per cent of the tempo while chunks are linked", "80").default(75),
  "drill-speeds": key(
    z.array(percent).meta({ wants: "a list of per cents" }),
    "per cent of the tempo, one after the other; 100 is always among them (default: the practice speeds up to 100)",
    "[60, 80, 100]",
  ).optional(),
  again: key(seconds(0, 600), "seconds to get back to the place after a run", "10").default(5),
  overhead: key(
    byActivity(() => seconds(0, 600), {
      "show-all": 10,
      recap: 20,
      show: 10,
      mark: 10,
      options: 5,
      detail: 15,
      drill: 5,
      again: 10,
      explain: 20,
      link: 5,
      "from-the-top": 10,
      "run-through": 15,
      "away-from-mirror": 15,
      mirrored: 20,
      groups: 20,
    }),
    "seconds around each of these, beside what rounding up gives",
    "{ drill: 20 }",
  ).prefault({}),
  least: key(
    byActivity((activity) => whole(asked.includes(activity) ? 1 : 0, 20, " runs"), {
      "show-all": 1,
      recap: 1,
      show: 1,
      mark: 1,
      options: 1,
      detail: 0,
      drill: 1,
      again: 1,
      explain: 1,
      link: 1,
      "from-the-top": 1,
      "run-through": 1,
      "away-from-mirror": 0,
      mirrored: 0,
      groups: 0,
    }),
    "how often each is done at the least",
    "{ drill: 2 }",
  ).prefault({}),
  most: key(
    byActivity(() => whole(0, 20, " runs"), {
      "show-all": 1,
      recap: 2,
      show: 2,
      mark: 3,
      options: 1,
      detail: 3,
      drill: 4,
      again: 2,
      explain: 2,
      link: 3,
      "from-the-top": 4,
      "run-through": 4,
      "away-from-mirror": 2,
      mirrored: 1,
      groups: 2,
    }),
    "how often each is done where time is left",
    "{ drill: 3 }",
  ).prefault({}),
  worth: key(
    byActivity(() => amount(0, 100, " times the usual worth"), {
      "show-all": 0,
      recap: 1.2,
      show: 0.4,
      mark: 1.2,
      options: 0.4,
      detail: 1.2,
      drill: 1,
      again: 1,
      explain: 0.5,
      link: 1,
      "from-the-top": 1.5,
      "run-through": 1.5,
      "away-from-mirror": 0.8,
      mirrored: 0.3,
      groups: 0.7,
    }),
    "what one more of each is worth, beside the others",
    "{ mirrored: 1 }",
  ).prefault({}),
  "lead-in": key(seconds(0, 600), "longest wait for the song's first count, in seconds", "20").default(15),
  groups: key(whole(2, 10, " groups"), "groups that dance one after the other", "3").default(2),
  "water-every": key(whole(5, 600, " minutes"), "minutes of dancing between water breaks", "45").default(35),
  questions: key(seconds(0, 60), "seconds for questions for every move that is new", "6").default(4),
  "breathe-every": key(
    whole(5, 60, " minutes"),
    "minutes of floor work after which there is water or talk at the latest",
    "10",
  ).default(15),
  limits: key(
    z
      .partialRecord(word([...loadParts, "inversion"]), whole(0, 100_000, " times"))
      .meta({ wants: "a part of the body or a risk, and a number of times" }),
    `how often a part of the body may take weight in a class, or a risk be met; the planner then swaps runs to the easier option, or leaves out a lift and its kind, and says so (default: ${Object.entries(
      planningLimits,
    )
      .map(([part, limit]) => `\`${part}: ${limit}\``)
      .join(" and ")}, planning defaults of ours and no safety figure)`,
    "{ knees: 60, lift: 8 }",
  ).default({}),
  recording: key(
    z.strictObject({
      style: key(
        word(recordingStyles),
        "`one-go`: one continuous recording in the order of teaching (default) | `takes`: shot take by take and cut",
        "takes",
      ).default("one-go"),
      takes: key(whole(1, 20, " takes"), "how often each take is shot, where it is shot in takes", "3").default(2),
      setup: key(seconds(0, 600), "seconds to place the camera", "90").default(60),
      talk: key(seconds(0, 600), "seconds of talking for each thing said", "15").default(10),
    }),
    "how a breakdown video is recorded, and what that is counted with",
    "{ style: takes }",
  ).prefault({}),
});

export type TeachingKeys = z.output<typeof teachingSchema>;

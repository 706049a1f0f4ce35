import { z } from "zod";
import type { Library } from "../routine/routine.js";
import { dancedKinds } from "./kinds.js";
import { loadParts } from "./load.js";

/* Every default here is this project's own choice, made from teaching habit (common practice, no source). */

/** A number as a file gives it: a text, since front matter is read as it was written. */
function number(unit: string, from: number, to: number, preset: number, whole = true) {
  const error = `write ${whole ? "a whole number" : "a number"} of ${unit} from ${from} to ${to}`;
  return z
    .union([z.number(), z.string().regex(/^\s*\d+(\.\d+)?\s*$/, error)], { error })
    .transform(Number)
    .refine((value) => value >= from && value <= to && (!whole || Number.isInteger(value)), error)
    .default(preset);
}

const percent = (preset: number) => number("per cent of the tempo", 20, 100, preset);
const mapping = (what: string) => ({ error: `write ${what}` });
const byKind = mapping("a mapping from activities to numbers, such as { drill: 3 }");

/** Runs of an activity: what a class has at the least, and what it has at the most where time is left. */
const runs = (preset: number, from = 0) => number("runs", from, 20, preset);
const seconds = (preset: number) => number("seconds", 0, 600, preset);
const worth = (preset: number) => number("times the usual worth", 0, 100, preset, false);
const points = (preset: number) => number("points", 0, 100, preset, false);

const schema = z
  .strictObject(
    {
      unit: number("seconds", 1, 60, 5),
      "chunk-counts": number("counts", 4, 128, 16),
      "chunk-points": number("points", 1, 1000, 16, false),
      points: z
        .strictObject(
          {
            move: points(1),
            turn: points(0.5),
            drop: points(0.5),
            "part-count": points(0.25),
            risk: points(0.5),
            "other-side": number("parts of a new move", 0, 1, 0.5, false),
            repeat: number("parts of a new move", 0, 1, 0.2, false),
          },
          mapping("a mapping, such as { turn: 1 }"),
        )
        .prefault({}),
      explain: number("seconds a point", 0, 120, 5, false),
      "mark-speed": percent(50),
      "link-speed": percent(75),
      "drill-speeds": z.array(percent(100), mapping("a list of per cents, such as [60, 80, 100]")).optional(),
      again: seconds(5),
      overhead: z
        .strictObject(
          {
            show: seconds(15),
            mark: seconds(15),
            detail: seconds(20),
            drill: seconds(10),
            link: seconds(10),
            "from-the-top": seconds(15),
            "run-through": seconds(20),
            "away-from-mirror": seconds(20),
            mirrored: seconds(30),
            groups: seconds(30),
          },
          byKind,
        )
        .prefault({}),
      least: z
        .strictObject(
          {
            show: runs(1, 1),
            mark: runs(1),
            detail: runs(0),
            drill: runs(1, 1),
            link: runs(1),
            "from-the-top": runs(1),
            "run-through": runs(1),
            "away-from-mirror": runs(0),
            mirrored: runs(0),
            groups: runs(0),
          },
          byKind,
        )
        .prefault({}),
      most: z
        .strictObject(
          {
            show: runs(2),
            mark: runs(3),
            detail: runs(3),
            drill: runs(4),
            link: runs(3),
            "from-the-top": runs(4),
            "run-through": runs(4),
            "away-from-mirror": runs(2),
            mirrored: runs(1),
            groups: runs(2),
          },
          byKind,
        )
        .prefault({}),
      worth: z
        .strictObject(
          {
            show: worth(0.4),
            mark: worth(1.2),
            detail: worth(1.2),
            drill: worth(1),
            link: worth(1),
            "from-the-top": worth(1.5),
            "run-through": worth(1.5),
            "away-from-mirror": worth(0.8),
            mirrored: worth(0.3),
            groups: worth(0.7),
          },
          byKind,
        )
        .prefault({}),
      "lead-in": seconds(15),
      groups: number("groups", 2, 10, 2),
      "water-every": number("minutes", 5, 600, 35),
      limits: z
        .partialRecord(z.enum(loadParts), number("times", 0, 100_000, 0), mapping("a mapping, such as { knees: 60 }"))
        .default({}),
      recording: z
        .strictObject(
          { takes: number("takes", 1, 20, 2), setup: seconds(60), talk: seconds(20) },
          mapping("a mapping, such as { takes: 3 }"),
        )
        .prefault({}),
    },
    mapping("a mapping of the class planner's settings"),
  )
  .transform((read) => ({
    /** Seconds: every activity is rounded up to a multiple of it. */
    unit: read.unit,
    /** Longest chunk, in counts. */
    chunkCounts: read["chunk-counts"],
    /** Fullest chunk, in points. */
    chunkPoints: read["chunk-points"],
    /** What makes a move hard, and what share of it a known move costs. */
    points: { ...read.points, partCount: read.points["part-count"], otherSide: read.points["other-side"] },
    /** Seconds of explaining a point while a chunk is marked. */
    explain: read.explain,
    markSpeed: read["mark-speed"],
    linkSpeed: read["link-speed"],
    /** Absent: the library's practice speeds. */
    drillSpeeds: read["drill-speeds"],
    /** Seconds after a run to get back to the place. */
    again: read.again,
    /** Seconds that an activity takes beside its runs. */
    overhead: read.overhead,
    least: read.least,
    most: read.most,
    /** How much a further run helps, against others of the same density. */
    worth: read.worth,
    /** Longest stretch of the song that is listened to before the first count, in seconds. */
    leadIn: read["lead-in"],
    groups: read.groups,
    /** Minutes of dancing between water breaks. */
    waterEvery: read["water-every"],
    /** The library's own limits for a class. */
    limits: read.limits,
    recording: read.recording,
  }));

/** The class planner's settings, every one filled in. Speeds are per cent of the tempo. */
export type TeachingSettings = z.output<typeof schema>;

/** The same with the drill's speeds filled in, rising to full tempo. */
export type ClassSettings = TeachingSettings & { readonly drillSpeeds: readonly number[] };

export function settingsFor(library: Library): ClassSettings {
  const { settings } = teachingSettings(library.teaching);
  const wanted = settings.drillSpeeds ?? library.practiceSpeeds;
  const speeds = new Set([...wanted.filter((speed) => speed < 100), 100]);
  return { ...settings, drillSpeeds: [...speeds].sort((a, b) => a - b) };
}

/** Something wrong with a setting: its key, with dots into a mapping, and what to write instead. */
export interface SettingProblem {
  readonly key: string;
  readonly message: string;
}

/** Reads what `teaching:` says. A setting that is wrong is a problem and has its default. */
export function teachingSettings(raw: Readonly<Record<string, unknown>>): {
  readonly settings: TeachingSettings;
  readonly problems: readonly SettingProblem[];
} {
  const read = schema.safeParse(raw);
  if (read.success) return { settings: read.data, problems: [] };
  const problems = read.error.issues.flatMap((issue): SettingProblem[] => {
    const path = issue.path.map(String);
    if (issue.code === "unrecognized_keys")
      return issue.keys.map((key) => ({ key: [...path, key].join("."), message: unknownKey(key, path) }));
    if (issue.code === "invalid_key")
      return [{ key: path.join("."), message: unknownKey(path.at(-1) ?? "", path.slice(0, -1)) }];
    return [{ key: path.join("."), message: `${path.join(".")} is not understood: ${issue.message}` }];
  });
  const wrong = new Set(problems.map((problem) => problem.key.split(".")[0]));
  const sound = Object.fromEntries(Object.entries(raw).filter(([key]) => !wrong.has(key)));
  return { settings: schema.parse(sound), problems };
}

function unknownKey(key: string, path: readonly string[]): string {
  const known = {
    "": Object.keys(schema.in.shape),
    points: ["move", "turn", "drop", "part-count", "risk", "other-side", "repeat"],
    limits: loadParts,
    recording: ["takes", "setup", "talk"],
  }[path[0] ?? ""];
  return `${[...path, key].join(".")} is no setting; there are ${(known ?? dancedKinds).join(", ")}`;
}

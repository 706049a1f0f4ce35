import { definedOnly } from "../routine/defined-only.js";
import type { MovePoints, RecordingSettings, TeachingSettings } from "../routine/teaching-settings.js";
import type { NothingLeft } from "./nothing-left.js";
import type { TeachingKeys } from "./schema/teaching.js";

/** The class planner's settings, from a mapping that fits the schema. */
export function writeTeaching(keys: TeachingKeys): TeachingSettings {
  const { unit, points, explain, again, overhead, least, most, worth, groups, limits, recording, ...more } = keys;
  const { "chunk-counts": chunkCounts, "chunk-points": chunkPoints, "drill-speeds": drillSpeeds, ...others } = more;
  const { "mark-speed": markSpeed, "link-speed": linkSpeed, "lead-in": leadIn, ...last } = others;
  const { "water-every": waterEvery, "breathe-every": breatheEvery, questions, ...left } = last;
  left satisfies NothingLeft;
  return {
    ...{ unit, chunkCounts, chunkPoints },
    points: writePoints(points),
    ...{ explain, markSpeed, linkSpeed },
    ...definedOnly<TeachingSettings>({ drillSpeeds }),
    ...{ again, overhead, least, most, worth, leadIn, groups, waterEvery, breatheEvery, questions },
    limits: writeLimits(limits),
    recording: writeRecording(recording),
  };
}

/** A risk and what it loads have one limit, whichever word it goes by. */
function writeLimits({ inversion, ...limits }: TeachingKeys["limits"]): TeachingSettings["limits"] {
  if (inversion === undefined) return limits;
  return { ...limits, inversions: Math.min(inversion, limits.inversions ?? inversion) };
}

function writePoints(points: TeachingKeys["points"]): MovePoints {
  const { move, turn, drop, "part-count": partCount, risk, "other-side": otherSide, repeat, ...left } = points;
  left satisfies NothingLeft;
  return { move, turn, drop, partCount, risk, otherSide, repeat };
}

function writeRecording({ style, takes, setup, talk, ...left }: TeachingKeys["recording"]): RecordingSettings {
  left satisfies NothingLeft;
  return { style, takes, setup, talk };
}

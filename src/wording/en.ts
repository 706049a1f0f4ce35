import { counts } from "./en/counts.js";
import { outputs } from "./en/outputs.js";
import { risks } from "./en/risks.js";
import { stance } from "./en/stance.js";
import { time } from "./en/time.js";
import { versions } from "./en/versions.js";

/** The English catalogue: plain strings and functions, grouped by what they speak of. */
export const en = { counts, outputs, risks, stance, time, versions };

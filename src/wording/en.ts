import { counts } from "./en/counts.js";
import { drawing } from "./en/drawing.js";
import { pack } from "./en/pack.js";
import { preview } from "./en/preview.js";
import { print } from "./en/print.js";
import { risks } from "./en/risks.js";
import { stance } from "./en/stance.js";
import { time } from "./en/time.js";
import { versions } from "./en/versions.js";

/** The English catalogue: plain strings and functions, grouped by what they speak of. */
export const en = { counts, drawing, pack, preview, print, risks, stance, time, versions };

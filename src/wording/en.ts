import { captions } from "./en/captions.js";
import { counts } from "./en/counts.js";
import { description } from "./en/description.js";
import { drawing } from "./en/drawing.js";
import { pack } from "./en/pack.js";
import { plan } from "./en/plan.js";
import { preview } from "./en/preview.js";
import { print } from "./en/print.js";
import { risks } from "./en/risks.js";
import { run } from "./en/run.js";
import { stance } from "./en/stance.js";
import { takes } from "./en/takes.js";
import { time } from "./en/time.js";
import { versions } from "./en/versions.js";

/** The English catalogue: plain strings and functions, grouped by what they speak of. */
export const en = {
  captions,
  counts,
  description,
  drawing,
  pack,
  plan,
  preview,
  print,
  risks,
  run,
  stance,
  takes,
  time,
  versions,
};

import { captions } from "./en/captions.js";
import { card } from "./en/card.js";
import { click } from "./en/click.js";
import { counts } from "./en/counts.js";
import { course } from "./en/course.js";
import { dates } from "./en/dates.js";
import { description } from "./en/description.js";
import { draft } from "./en/draft.js";
import { drawing } from "./en/drawing.js";
import { feed } from "./en/feed.js";
import { library } from "./en/library.js";
import { notices } from "./en/notices.js";
import { outputs } from "./en/outputs.js";
import { pack } from "./en/pack.js";
import { plan } from "./en/plan.js";
import { planSide } from "./en/plan-side.js";
import { player } from "./en/player.js";
import { practice } from "./en/practice.js";
import { preview } from "./en/preview.js";
import { print } from "./en/print.js";
import { risks } from "./en/risks.js";
import { routine } from "./en/routine.js";
import { run } from "./en/run.js";
import { sections } from "./en/sections.js";
import { site } from "./en/site.js";
import { song } from "./en/song.js";
import { stance } from "./en/stance.js";
import { takes } from "./en/takes.js";
import { time } from "./en/time.js";
import { versions } from "./en/versions.js";
import { videos } from "./en/videos.js";
import { workshop } from "./en/workshop.js";

/** The English catalogue: plain strings and functions, grouped by what they speak of. */
export const en = {
  /** BCP 47 tag of the language that it is said in. */
  language: "en" as string,
  captions,
  card,
  click,
  counts,
  course,
  dates,
  description,
  draft,
  drawing,
  feed,
  library,
  notices,
  outputs,
  pack,
  plan,
  planSide,
  player,
  practice,
  preview,
  print,
  risks,
  routine,
  run,
  sections,
  site,
  song,
  stance,
  takes,
  time,
  versions,
  videos,
  workshop,
};

import { counts } from "./en/counts.js";
import { dates } from "./en/dates.js";
import { feed } from "./en/feed.js";
import { library } from "./en/library.js";
import { notices } from "./en/notices.js";
import { player } from "./en/player.js";
import { practice } from "./en/practice.js";
import { risks } from "./en/risks.js";
import { routine } from "./en/routine.js";
import { sections } from "./en/sections.js";
import { site } from "./en/site.js";
import { stance } from "./en/stance.js";
import { time } from "./en/time.js";
import { versions } from "./en/versions.js";
import { videos } from "./en/videos.js";
import { workshop } from "./en/workshop.js";

/** The English catalogue: plain strings and functions, grouped by what they speak of. */
export const en = {
  counts,
  dates,
  feed,
  library,
  notices,
  player,
  practice,
  risks,
  routine,
  sections,
  site,
  stance,
  time,
  versions,
  videos,
  workshop,
};

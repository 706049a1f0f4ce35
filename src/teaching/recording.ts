import type { Library, Routine } from "../routine/routine.js";
import { partTakes } from "./chunk-takes.js";
import { type Load, plus } from "./load.js";
import { materialOf } from "./material-of.js";
import { type ClassSettings, settingsFor } from "./settings.js";
import type { CameraPlace, Draft, Take } from "./take.js";
import { endingTakes, openingTakes } from "./takes.js";

/** A breakdown video, danced on the counts, since the song is not the teacher's to publish. */
export interface RecordingPlan {
  readonly slug: string;
  readonly title: string;
  readonly version: string;
  /** Its levels, easiest first; every other version is an adaptation. */
  readonly levels: readonly string[];
  /** In the order of the finished video, which is that of teaching; of a recording in one go, what follows what in it. */
  readonly takes: readonly Take[];
  /** In the order of shooting: one for each place of the camera, with the numbers of its takes; a single one of a recording in one go. */
  readonly setups: readonly Setup[];
  /** Seconds of the finished video. */
  readonly videoSeconds: number;
  /** Seconds of shooting: every take as often as the settings say, one go once, and the time to place the camera. */
  readonly daySeconds: number;
  /** Of the teacher, over all that is shot. */
  readonly load: Load;
  readonly settings: ClassSettings;
}

export interface Setup {
  /** Absent where the camera stays and the teacher turns. */
  readonly camera?: CameraPlace;
  readonly takes: readonly number[];
  readonly seconds: number;
}

/* Seconds that every take is rounded up to. */
const unit = 5;

/** Lays out a breakdown video of the taught level, in one go or in takes, and the time to record it in. */
export function planRecording(routine: Routine, library: Library): RecordingPlan {
  const settings = settingsFor(library);
  const material = materialOf([routine], routine.taught, settings);
  const drafts = [
    ...openingTakes(routine, material, settings),
    ...material.parts.flatMap((part) => partTakes(part, material, settings)),
    ...endingTakes(routine, material, library, settings),
  ];
  const { style } = settings.recording;
  const takes = placed(drafts, ({ exact, around }) => (style === "one-go" ? exact : exact - around));
  const videoSeconds = takes.reduce((sum, { seconds }) => sum + seconds, 0);
  const again = style === "one-go" ? 1 : settings.recording.takes;
  const setups =
    style === "one-go"
      ? [{ takes: takes.map(({ number }) => number), seconds: settings.recording.setup + videoSeconds }]
      : setupsOf(takes, settings);
  return {
    ...{ slug: routine.slug, title: routine.title, version: routine.taught, levels: routine.levels },
    ...{ takes, setups, videoSeconds },
    daySeconds: setups.reduce((sum, { seconds }) => sum + seconds, 0),
    load: takes.reduce<Load>((sum, take) => plus(sum, take.load, again), {}),
    settings,
  };
}

function placed(drafts: readonly Draft[], lasts: (draft: Draft) => number): readonly Take[] {
  let start = 0;
  return drafts.map((draft, index): Take => {
    // Sums of seconds are as exact as numbers are.
    const seconds = Math.ceil(lasts(draft) / unit - 1e-6) * unit;
    start += seconds;
    const { exact: _, around: __, ...rest } = draft;
    return { number: index + 1, ...rest, start: start - seconds, seconds };
  });
}

function setupsOf(takes: readonly Take[], settings: ClassSettings): readonly Setup[] {
  return [...new Set(takes.map(({ camera }) => camera))].map((camera) => {
    const here = takes.filter((take) => take.camera === camera);
    const seconds = here.reduce((sum, take) => sum + take.seconds * settings.recording.takes, settings.recording.setup);
    return { camera, takes: here.map(({ number }) => number), seconds };
  });
}

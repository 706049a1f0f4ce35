import type { Library, Routine } from "../routine/routine.js";
import { type Load, plus } from "./load.js";
import { materialOf } from "./material-of.js";
import { type ClassSettings, settingsFor } from "./settings.js";
import { type CameraPlace, endingTakes, openingTakes, partTakes, type Take } from "./takes.js";

/** The takes of a breakdown video, danced on the counts, since the song is not the teacher's to publish. */
export interface RecordingPlan {
  readonly slug: string;
  readonly title: string;
  readonly version: string;
  /** Its levels, easiest first; every other version is an adaptation. */
  readonly levels: readonly string[];
  /** In the order of the finished video. */
  readonly takes: readonly Take[];
  /** In the order of shooting: one for each place of the camera, with the numbers of its takes. */
  readonly setups: readonly Setup[];
  /** Seconds of the finished video. */
  readonly videoSeconds: number;
  /** Seconds of shooting: every take as often as the settings say, and the time to place the camera. */
  readonly daySeconds: number;
  /** Of the teacher, over all takes. */
  readonly load: Load;
  readonly settings: ClassSettings;
}

export interface Setup {
  readonly camera: CameraPlace;
  readonly takes: readonly number[];
  readonly seconds: number;
}

/* Seconds that every take is rounded up to. */
const unit = 5;

/** Lays out the takes of a breakdown video of the taught level, and a day to shoot them on. */
export function planRecording(routine: Routine, library: Library): RecordingPlan {
  const settings = settingsFor(library);
  const material = materialOf([routine], routine.taught, settings);
  const drafts = [
    ...openingTakes(routine, material, settings),
    ...material.parts.flatMap((part) => partTakes(part, material, settings)),
    ...endingTakes(routine, material, library, settings),
  ];
  let start = 0;
  const takes = drafts.map((draft, index): Take => {
    const seconds = draft.exact.div(unit).ceil().valueOf() * unit;
    start += seconds;
    const { exact: _, ...rest } = draft;
    return { number: index + 1, ...rest, start: start - seconds, seconds };
  });
  const setups = setupsOf(takes, settings);
  const again = settings.recording.takes;
  const load = takes.reduce((sum, take) => plus(sum, take.load, again), {} as Load);
  const daySeconds = setups.reduce((sum, { seconds }) => sum + seconds, 0);
  return {
    ...{ slug: routine.slug, title: routine.title, version: routine.taught, levels: routine.levels },
    ...{ takes, setups, videoSeconds: start, daySeconds, load, settings },
  };
}

function setupsOf(takes: readonly Take[], settings: ClassSettings): readonly Setup[] {
  return [...new Set(takes.map(({ camera }) => camera))].map((camera) => {
    const here = takes.filter((take) => take.camera === camera);
    const seconds = here.reduce((sum, take) => sum + take.seconds * settings.recording.takes, settings.recording.setup);
    return { camera, takes: here.map(({ number }) => number), seconds };
  });
}

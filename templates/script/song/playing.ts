import { overSong } from "../practice/over-song.js";
import type { Beat } from "./laid.js";

/** The song as it is heard, with clicks over it. */
export interface Playing {
  readonly audio: HTMLAudioElement;
  /** Plays from where it is, or stops; to be called from a touch or a key. */
  readonly toggle: () => void;
  readonly seek: (at: number) => void;
  /** The place in the song that was heard when something happened. */
  readonly heardAt: (event: Event) => number;
  /** How loud the clicks are. */
  readonly setLevel: (level: number) => void;
  /** Leaves the clicks away for a while, so that nobody taps to them. */
  readonly hush: () => void;
}

/** Milliseconds between looks at where the song is, so that clicks are ahead of it. */
const look = 50;
/** Milliseconds without clicks after each tap: longer than the slowest counts are apart. */
const hushFor = 2500;

/** @param beats what is clicked: asked for anew each time, so that a change is heard at once */
export function playing(beats: () => readonly Beat[]): Playing {
  const audio = new Audio();
  let context: AudioContext | undefined;
  let level = 1;
  let hushedAt = Number.NEGATIVE_INFINITY;
  const clicks = overSong(
    audio,
    (from, to) =>
      beats()
        .filter(({ at }) => at >= from && at < to)
        .map(({ at, accent }) => ({ at, sound: accent ? ("accent" as const) : ("count" as const) })),
    (its) => {
      context = its;
      return its.destination;
    },
  );
  const loud = () => clicks.setLevel(performance.now() - hushedAt < hushFor ? 0 : level);
  setInterval(() => {
    if (audio.paused) return;
    loud();
    clicks.wake();
  }, look);
  return {
    audio,
    toggle: () => {
      if (!audio.paused) return audio.pause();
      // Song and clicks begin in the touch that asked for them: browsers let nothing sound else.
      void clicks.begin();
      audio.play().catch(() => undefined);
    },
    seek: (at) => {
      const last = Number.isFinite(audio.duration) ? audio.duration : 0;
      audio.currentTime = Math.max(0, Math.min(last, at));
    },
    heardAt: ({ timeStamp }) => {
      if (audio.paused) return audio.currentTime;
      // The event is a little older than this line, and what left the graph took a while to the ear: through the system and the device,
      // as far as the browser knows of it.
      const handled = Math.max(0, (performance.now() - timeStamp) / 1000);
      const late = handled + (context?.outputLatency ?? 0);
      return Math.max(0, audio.currentTime - audio.playbackRate * late);
    },
    setLevel: (wanted) => {
      level = wanted;
      loud();
    },
    hush: () => {
      hushedAt = performance.now();
      loud();
    },
  };
}

import { type OverSong, overSong } from "../practice/over-song.js";
import type { Beat } from "./laid.js";

/** The song as it is heard, with clicks over it. */
export interface Playing {
  readonly audio: HTMLAudioElement;
  /** Plays from where it is, or stops; to be called from a touch or a key. */
  readonly toggle: () => void;
  readonly seek: (at: number) => void;
  /** The place in the song that was heard when something happened. */
  readonly heardAt: (event: Event) => number;
  /** How fast it plays, at the same pitch: 1 as it is. */
  readonly setRate: (rate: number) => void;
  /** How loud the clicks are. */
  readonly setLevel: (level: number) => void;
  /** Leaves the clicks away for a while, so that nobody taps to them. */
  readonly hush: () => void;
}

/** Milliseconds between looks at where the song is, so that clicks are ahead of it. */
const look = 50;
/** Milliseconds without clicks after each tap: longer than the slowest counts are apart. */
const hushFor = 2500;

type Trouble = NonNullable<ReturnType<OverSong["trouble"]>>;

/**
 * @param beats what is clicked: asked for anew each time, so that a change is heard at once
 * @param troubled told why something can't be heard, once
 */
export function playing(beats: () => readonly Beat[], troubled: (why: Trouble) => void): Playing {
  const audio = new Audio();
  let level = 1;
  let trouble: Trouble | undefined;
  let hushedAt = Number.NEGATIVE_INFINITY;
  const clicks = overSong(audio, (from, to) =>
    beats()
      .filter(({ at }) => at >= from && at < to)
      .map(({ at, accent }) => ({ at, sound: accent ? ("accent" as const) : ("count" as const) })),
  );
  const loud = () => clicks.setLevel(performance.now() - hushedAt < hushFor ? 0 : level);
  setInterval(() => {
    if (audio.paused) return;
    loud();
    clicks.wake();
    const now = clicks.trouble();
    if (now !== undefined && now !== trouble) troubled(now);
    trouble = now;
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
      // Past its end it stays at its end by itself.
      audio.currentTime = Math.max(0, at);
    },
    heardAt: ({ timeStamp }) => {
      if (audio.paused) return audio.currentTime;
      // What the ear hears lies behind what the element reports: by the way through the graph, which is measured, and through the device, as
      // far as the browser knows of it. Before that is known, the report has to do. And the event is a little older than this line.
      const now = clicks.heard() ?? audio.currentTime;
      return Math.max(0, now - (audio.playbackRate * Math.max(0, performance.now() - timeStamp)) / 1000);
    },
    setRate: (rate) => {
      audio.playbackRate = rate;
      // So does a song that is chosen later.
      audio.defaultPlaybackRate = rate;
      clicks.prepare(rate);
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

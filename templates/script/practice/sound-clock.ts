/** The clock that clicks are timed by, in seconds, and whether they sound. */
export interface SoundClock {
  readonly now: () => number;
  /** Seconds until what is played now reaches the ear, as far as the browser knows them. */
  readonly latency: () => number;
  readonly isSilent: () => boolean;
  readonly start: () => Promise<void>;
  readonly stop: () => void;
  /** To be called several times a second while it runs: it looks whether the audio moves. */
  readonly look: () => void;
}

/** Milliseconds after which an audio clock that has not moved is taken for one that never will. */
const patience = 1000;
/** A longer gap between two looks, in milliseconds, says nothing of the audio: the device slept. */
const longestGap = 250;

/**
 * A context's clock. A browser that finds no audio device has the context stand still for ever: from then on the page's own clock
 * goes on from there, and nothing sounds.
 *
 * @param onChange told whether it is silent, whenever that changes
 */
export function soundClock(
  context: AudioContext | OfflineAudioContext,
  onChange: (silent: boolean) => void,
): SoundClock {
  let silentFrom: { readonly audio: number; readonly page: number } | undefined;
  let seen = { audio: context.currentTime, page: performance.now() };
  let stood = 0;
  let giveUp = () => {};

  const turnSilent = (from: typeof silentFrom) => {
    if ((from === undefined) !== (silentFrom === undefined)) onChange(from !== undefined);
    silentFrom = from;
  };
  return {
    now: () => (silentFrom ? silentFrom.audio + (performance.now() - silentFrom.page) / 1000 : context.currentTime),
    latency: () =>
      silentFrom || !(context instanceof AudioContext) ? 0 : context.outputLatency || context.baseLatency || 0,
    isSilent: () => silentFrom !== undefined,
    start: async () => {
      if (!(context instanceof AudioContext)) return;
      const started = context.resume();
      // Audio that has stood still is believed again once it has moved.
      if (silentFrom?.audio === context.currentTime) return;
      turnSilent(undefined);
      seen = { audio: context.currentTime, page: performance.now() };
      stood = 0;
      // Where there is no device, a browser may never say that it has started.
      await Promise.race([started, new Promise<void>((done) => (giveUp = done))]);
    },
    stop: () => {
      // An idle audio clock would keep the phone's sound hardware awake.
      if (context instanceof AudioContext) void context.suspend();
    },
    look: () => {
      if (silentFrom || !(context instanceof AudioContext)) return;
      const now = { audio: context.currentTime, page: performance.now() };
      stood = now.audio === seen.audio ? stood + Math.min(now.page - seen.page, longestGap) : 0;
      seen = now;
      if (stood < patience) return;
      turnSilent(now);
      giveUp();
    },
  };
}

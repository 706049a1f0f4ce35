import { type Knock, knocks } from "./knock.js";
import { lagOf } from "./lag.js";
import type { Sound } from "./schedule.js";

/** A click at a place in the song, in seconds. */
export interface SongClick {
  readonly at: number;
  readonly sound: Sound;
}

/** Clicks over a song that an audio element plays, at any speed. */
export interface OverSong {
  /** Begins to sound them; to be called from a touch of the learner's, since the sound of the song is taken over. */
  readonly begin: () => Promise<void>;
  /** Leaves the song alone. */
  readonly end: () => void;
  /** How loud they are beside the song: 1 as they are made, 0 not at all. */
  readonly setLevel: (level: number) => void;
  /** To be called on every picture, or several times a second: it looks where the song is, and keeps the clicks ahead of it. */
  readonly wake: () => void;
}

/** Seconds by which clicks are scheduled before they sound: the song may be moved, and they go with it. */
const lookahead = 0.4;
/** So many looks at where the song is make one opinion; a few must be there before anything sounds. */
const looks = 40;
const fewest = 4;
/** A song that lies farther than this from where it was expected, in seconds, was moved. */
const moved = 0.06;

/**
 * Puts clicks over a song. Song and clicks go through one audio graph, so that they leave the device together; the element's own report of
 * where it is comes in steps, and the middle of many of them tells it to a millisecond or two. At another speed browsers keep the
 * pitch with a delay that they do not report: it is measured (`lag.ts`).
 *
 * @param clicksIn the clicks from one place in the song up to another, in seconds, the second one left out
 * @param via a node that hears what is heard, for tests
 */
export function overSong(
  audio: HTMLAudioElement,
  clicksIn: (from: number, to: number) => readonly SongClick[],
  via?: (context: AudioContext) => AudioNode,
): OverSong {
  let graph: Graph | undefined;
  let on = false;
  /** Where the song is while the context's clock stands at 0, by each look: it goes on at its rate from there. */
  let origins: number[] = [];
  let rate = 1;
  let upTo: number | undefined;
  let scheduled: { readonly time: number; readonly cancel: () => void }[] = [];
  let level = 1;

  const forget = () => {
    for (const { cancel } of scheduled) cancel();
    scheduled = [];
    origins = [];
    upTo = undefined;
  };
  const open = async (): Promise<Graph> => {
    const context = new AudioContext({ latencyHint: "interactive" });
    // A song that is led into a graph which stands still is silent: it is led there only once that runs.
    await context.resume();
    const out = via?.(context) ?? context.destination;
    const gain = new GainNode(context, { gain: level });
    gain.connect(out);
    context.createMediaElementSource(audio).connect(out);
    return { context, gain, knock: knocks(context, gain), lag: lagOf(context) };
  };
  const look = ({ context }: Graph): number | undefined => {
    if (rate !== audio.playbackRate) forget();
    rate = audio.playbackRate;
    const origin = audio.currentTime - rate * context.currentTime;
    if (Math.abs(origin - middle(origins.length > 0 ? origins : [origin])) > moved) forget();
    origins = [...origins.slice(1 - looks), origin];
    return origins.length < fewest ? undefined : middle(origins);
  };
  return {
    begin: async () => {
      on = true;
      graph ??= await open();
      void graph.context.resume();
    },
    end: () => {
      on = false;
      forget();
    },
    setLevel: (wanted) => {
      level = wanted;
      if (graph) graph.gain.gain.value = wanted;
    },
    wake: () => {
      if (!on || !graph) return;
      if (audio.paused || audio.seeking) return forget();
      const { context, knock } = graph;
      const lag = graph.lag(audio.playbackRate);
      const origin = look(graph);
      if (origin === undefined || lag === undefined) return;
      const now = context.currentTime;
      const placeAt = (time: number) => origin + rate * (time - lag);
      const from = upTo ?? placeAt(now);
      const to = Math.max(from, placeAt(now + lookahead));
      for (const { at, sound } of clicksIn(from, to)) {
        const time = (at - origin) / rate + lag;
        // What is late already is left out rather than heard in the wrong place.
        if (time >= now) scheduled.push({ time, cancel: knock(sound, time) });
      }
      upTo = to;
      scheduled = scheduled.filter(({ time }) => time > now);
    },
  };
}

interface Graph {
  readonly context: AudioContext;
  readonly gain: GainNode;
  readonly knock: Knock;
  /** Seconds by which the song is heard later than the element reports, at a rate; none while that is being measured. */
  readonly lag: (rate: number) => number | undefined;
}

function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? 0;
}

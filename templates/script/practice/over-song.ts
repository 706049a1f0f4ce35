import { median } from "../../../src/hearing/song/numbers.js";
import type { FreshAudio } from "./fresh-audio.js";
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
  /** Gets ready for a rate at which the song will be played: what is measured only once it plays is late for the first clicks. */
  readonly prepare: (rate: number) => void;
  /** To be called on every picture, or several times a second: it looks where the song is, and keeps the clicks ahead of it. */
  readonly wake: () => void;
  /** Whether the song goes through the graph, and clicks are wanted. */
  readonly isOn: () => boolean;
  /** Seconds into the song that reach the ear now; none while the graph does not tell. */
  readonly heard: () => number | undefined;
  /** `no-clicks`: the song sounds without them. `silent`: the graph that it was led into stands still, and there is no fresh element. */
  readonly trouble: () => "no-clicks" | "silent" | undefined;
}

/** Seconds by which clicks are scheduled before they sound, since the song may be moved; in a page out of sight timers are slow. */
const lookahead = () => (document.hidden ? 1.5 : 0.4);
/** So many looks at where the song is make one opinion; a few must be there before anything sounds. */
const looks = 40;
const fewest = 4;
/** A click that is farther than this from where it is known to belong by now is put there, as long as that is to come. In seconds. */
const [astray, ahead] = [0.001, 0.03];
/** A song that lies farther than this from where it was expected, in seconds, was moved. */
const moved = 0.06;
/** Milliseconds after which a graph that stands still is taken for one that can't run. */
const patience = 1500;
/** Milliseconds of rest after which the graph rests too: it would keep the phone's sound hardware awake. */
const idle = 30_000;

/**
 * Puts clicks over a song. Song and clicks go through one audio graph, so that they leave the device together; the element's own report of
 * where it is comes in steps, and the middle of many of them tells it to a millisecond or two. At another speed browsers keep the
 * pitch with a delay that they do not report: it is measured (`lag.ts`).
 *
 * @param clicksIn the clicks from one place in the song up to another, in seconds, the second one left out
 * @param via a node that hears what is heard, for tests
 * @param fresh changes the element for one that was led nowhere, and says which one plays
 */
export function overSong(
  audio: HTMLAudioElement,
  clicksIn: (from: number, to: number) => readonly SongClick[],
  via?: (context: AudioContext) => AudioNode,
  fresh?: Pick<FreshAudio, "element" | "change">,
): OverSong {
  let context: AudioContext | undefined;
  let opening: Promise<void> | undefined;
  let listens = false;
  let graph: Graph | undefined;
  let on = false;
  /** Where the song is while the context's clock stands at 0, by each look: it goes on at its rate from there. */
  let origins: number[] = [];
  let rate = 1;
  let upTo: number | undefined;
  let scheduled: (SongClick & { readonly time: number; readonly cancel: () => void })[] = [];
  let level = 1;
  /** When the context's clock was last seen to move, and where it stood. */
  let alive = { since: 0, at: 0 };

  const forget = () => {
    // What sounds already was right, and is not cut off.
    for (const { time, cancel } of scheduled) if (time > (context?.currentTime ?? 0)) cancel();
    scheduled = [];
    origins = [];
    upTo = undefined;
  };
  const rouse = () => {
    if (context?.state !== "running") context?.resume().catch(() => {});
  };
  const open = async () => {
    const opened = context ?? new AudioContext({ latencyHint: "interactive" });
    context = opened;
    // A song that is led into a graph which stands still is silent: it is led there only once that runs.
    await opened.resume();
    if (!on) return;
    graph = graphOf(opened, fresh?.element() ?? audio, via?.(opened) ?? opened.destination, level);
    if (listens) return;
    listens = true;
    audio.addEventListener("play", rouse);
    audio.addEventListener("pause", () =>
      setTimeout(() => {
        if (audio.paused) context?.suspend().catch(() => {});
      }, idle),
    );
  };
  const begin = async () => {
    on = true;
    rouse();
    if (graph) return;
    opening ??= open().finally(() => (opening = undefined));
    await opening;
  };
  const stands = () => performance.now() - alive.since >= patience;
  /** Leaves a graph that stands still, with the song, and looks whether another one runs. */
  const leave = ({ change }: Pick<FreshAudio, "change">) => {
    forget();
    context?.close().catch(() => {});
    [context, graph] = [undefined, undefined];
    change();
    if (on) begin().catch(() => {});
  };
  const look = (now: number): number | undefined => {
    if (rate !== audio.playbackRate) forget();
    rate = audio.playbackRate;
    const origin = audio.currentTime - rate * now;
    if (Math.abs(origin - median(origins.length > 0 ? origins : [origin])) > moved) forget();
    origins = [...origins.slice(1 - looks), origin];
    return origins.length < fewest ? undefined : median(origins);
  };
  const schedule = ({ context, knock, lag: lagAt }: Graph) => {
    const lag = lagAt(audio.playbackRate);
    const now = context.currentTime;
    const origin = look(now);
    if (origin === undefined || lag === undefined) return;
    const placeAt = (time: number) => origin + rate * (time - lag);
    const timeOf = (at: number) => (at - origin) / rate + lag;
    // A song that has just begun reports itself up to 20 ms off, and its delay is known better with time.
    scheduled = scheduled.map((one) => {
      const time = timeOf(one.at);
      if (Math.abs(time - one.time) < astray || Math.min(time, one.time) < now + ahead) return one;
      one.cancel();
      return { ...one, time, cancel: knock(one.sound, time) };
    });
    const from = upTo ?? placeAt(now);
    const to = Math.max(from, placeAt(now + lookahead()));
    for (const { at, sound } of clicksIn(from, to)) {
      const time = timeOf(at);
      // What is late already is left out rather than heard in the wrong place.
      if (time >= now) scheduled.push({ at, sound, time, cancel: knock(sound, time) });
    }
    upTo = to;
    scheduled = scheduled.filter(({ time }) => time > now);
  };
  return {
    begin: () => {
      alive = { ...alive, since: performance.now() };
      return begin();
    },
    end: () => {
      on = false;
      forget();
    },
    setLevel: (wanted) => {
      level = wanted;
      if (graph) graph.gain.gain.value = wanted;
    },
    prepare: (wanted) => {
      if (!on || !graph) return;
      rouse();
      graph.lag(wanted);
    },
    wake: () => {
      const at = context?.currentTime ?? 0;
      if (audio.paused || at !== alive.at) alive = { since: performance.now(), at };
      if ((on || graph) && !audio.paused) rouse();
      if (graph && fresh && stands()) leave(fresh);
      if (!on || !graph) return;
      if (audio.paused || audio.seeking) forget();
      else schedule(graph);
    },
    isOn: () => on && graph !== undefined,
    heard: () => {
      const lag = graph?.lag(rate);
      if (!context || lag === undefined || origins.length < fewest) return undefined;
      return median(origins) + rate * (context.currentTime - lag - (context.outputLatency || context.baseLatency || 0));
    },
    trouble: () => {
      if ((!on && !graph) || !stands()) return undefined;
      return graph ? "silent" : "no-clicks";
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

function graphOf(context: AudioContext, audio: HTMLAudioElement, out: AudioNode, level: number): Graph {
  const gain = new GainNode(context, { gain: level });
  gain.connect(out);
  context.createMediaElementSource(audio).connect(out);
  return { context, gain, knock: knocks(context, gain), lag: lagOf(context) };
}

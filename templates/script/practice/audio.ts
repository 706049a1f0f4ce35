import { begin, carried, type Moment, next, type Practice, paced, positionAt, type Sound } from "./schedule.js";
import type { Source } from "./source.js";

/** Seconds by which clicks are handed over before they sound: longer than the slowest timer of a page in the background. */
const ahead = 1.5;
/** Seconds between the learner's touch and the first click. */
const breath = 0.15;

const voices: Readonly<Record<Sound, { readonly pitch: number; readonly level: number }>> = {
  count: { pitch: 1150, level: 0.45 },
  accent: { pitch: 1720, level: 0.95 },
  "count-in": { pitch: 760, level: 0.6 },
};

/** Plays the clicks of a practice on a context's clock. A timer only has to call `wake`; it decides no time. */
export function clicks(context: AudioContext | OfflineAudioContext): Source {
  const knocks = new Map<Sound, AudioBuffer>();
  let wanted: Practice | undefined;
  /** Handed over and not yet past, in order: the first is the one that sounds now. */
  let queue: { readonly moment: Moment; readonly cancel: () => void }[] = [];
  let upcoming: Moment | undefined;

  const hand = (moment: Moment) => {
    const { sound } = moment.step;
    const late = moment.time < context.currentTime;
    return { moment, cancel: sound && !late ? knock(context, knocks, sound, moment.time) : () => {} };
  };
  const wake = () => {
    while (upcoming && upcoming.time < context.currentTime + ahead) {
      queue.push(hand(upcoming));
      upcoming = next(upcoming);
    }
    const heard = queue.findLastIndex(({ moment }) => moment.time <= context.currentTime - latency(context));
    queue = queue.slice(Math.max(heard, 0));
  };
  const silence = () => {
    for (const { cancel } of queue) cancel();
    queue = [];
    wanted = undefined;
    upcoming = undefined;
  };
  /** The next count keeps its time and its click; all that was handed over after it is taken back and computed anew. */
  const turn = (alter: (moment: Moment) => Moment | undefined) => {
    const index = queue.findIndex(({ moment }) => moment.time > context.currentTime);
    const handed = queue[index];
    const from = handed?.moment ?? upcoming;
    const moment = from && alter(from);
    if (!moment) return false;
    for (const { cancel } of handed ? queue.splice(index + 1) : []) cancel();
    if (handed) queue[index] = { ...handed, moment };
    upcoming = handed ? next(moment) : moment;
    wake();
    return true;
  };

  return {
    start: async (practice, percent) => {
      silence();
      wanted = practice;
      if (context instanceof AudioContext) await context.resume();
      if (wanted !== practice) return;
      upcoming = begin(practice, context.currentTime + breath, percent);
      wake();
    },
    stop: () => {
      silence();
      // An idle audio clock would keep the phone's sound hardware awake.
      if (context instanceof AudioContext) void context.suspend();
    },
    change: (practice) => turn((moment) => carried(moment, practice)),
    setSpeed: (percent) => {
      turn((moment) => paced(moment, percent));
    },
    wake,
    where: () => {
      const time = context.currentTime - latency(context);
      const heard = queue.findLast(({ moment }) => moment.time <= time)?.moment ?? queue[0]?.moment;
      if (!heard) return undefined;
      return {
        position: positionAt(heard, time),
        leadsTo: heard.round === 0 ? heard.practice.begins : heard.practice.origin,
        round: heard.round,
        percent: heard.pace.percent,
        over: heard.step.sound === undefined && time >= heard.time,
      };
    },
  };
}

/** Seconds from the audio clock to the ear, as far as the browser knows them. */
function latency(context: BaseAudioContext): number {
  return context instanceof AudioContext ? context.outputLatency || context.baseLatency || 0 : 0;
}

/** Has a click sound at a time of the context's clock; returns how to take it back. */
function knock(context: BaseAudioContext, knocks: Map<Sound, AudioBuffer>, sound: Sound, time: number): () => void {
  const buffer = knocks.get(sound) ?? carve(context, sound);
  knocks.set(sound, buffer);
  const source = new AudioBufferSourceNode(context, { buffer });
  source.connect(context.destination);
  source.start(time);
  return () => source.disconnect();
}

/** A short knock: a tone and its fifth that begin at once and die away within sixty milliseconds. */
function carve(context: BaseAudioContext, sound: Sound): AudioBuffer {
  const { pitch, level } = voices[sound];
  const buffer = context.createBuffer(1, Math.ceil(context.sampleRate * 0.06), context.sampleRate);
  const samples = buffer.getChannelData(0);
  for (let i = 0; i < samples.length; i++) {
    const turn = (2 * Math.PI * pitch * i) / context.sampleRate;
    const fade = Math.exp((-i / context.sampleRate) * 90);
    samples[i] = level * fade * (0.75 * Math.sin(turn) + 0.25 * Math.sin(turn * 1.5));
  }
  return buffer;
}

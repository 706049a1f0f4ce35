import { begin, carried, type Moment, next, type Practice, paced, positionAt, type Sound } from "./schedule.js";
import type { Source } from "./source.js";

/** Seconds by which clicks are scheduled before they sound: longer than the slowest timer of a page in the background. */
const lookahead = 1.5;
/** Seconds between the learner's touch and the first click. */
const startDelay = 0.15;

const tones: Readonly<Record<Sound, { readonly pitch: number; readonly level: number }>> = {
  count: { pitch: 1150, level: 0.45 },
  accent: { pitch: 1720, level: 0.95 },
  "count-in": { pitch: 760, level: 0.6 },
};

/** Plays the clicks of a practice on a context's clock. A timer only has to call `wake`; it decides no time. */
export function clicks(context: AudioContext | OfflineAudioContext): Source {
  const clickSounds = new Map<Sound, AudioBuffer>();
  let wanted: Practice | undefined;
  /** Scheduled and not yet past, in order: the first is the one that sounds now. */
  let queue: { readonly moment: Moment; readonly cancel: () => void }[] = [];
  let upcoming: Moment | undefined;

  const schedule = (moment: Moment) => {
    const { sound } = moment.step;
    const late = moment.time < context.currentTime;
    const silent = sound === undefined || sound === "still" || late;
    return { moment, cancel: silent ? () => {} : scheduleClick(context, clickSounds, sound, moment.time) };
  };
  const wake = () => {
    while (upcoming && upcoming.time < context.currentTime + lookahead) {
      queue.push(schedule(upcoming));
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
  /** The next count keeps its time and its click; all that was scheduled after it is cancelled and computed anew. */
  const changeFromNext = (alter: (moment: Moment) => Moment | undefined) => {
    const index = queue.findIndex(({ moment }) => moment.time > context.currentTime);
    const scheduled = queue[index];
    const from = scheduled?.moment ?? upcoming;
    const moment = from && alter(from);
    if (!moment) return false;
    for (const { cancel } of scheduled ? queue.splice(index + 1) : []) cancel();
    if (scheduled) queue[index] = { ...scheduled, moment };
    upcoming = scheduled ? next(moment) : moment;
    wake();
    return true;
  };

  return {
    start: async (practice, percent) => {
      silence();
      wanted = practice;
      if (context instanceof AudioContext) await context.resume();
      if (wanted !== practice) return;
      upcoming = begin(practice, context.currentTime + startDelay, percent);
      wake();
    },
    stop: () => {
      silence();
      // An idle audio clock would keep the phone's sound hardware awake.
      if (context instanceof AudioContext) void context.suspend();
    },
    change: (practice) => changeFromNext((moment) => carried(moment, practice)),
    setSpeed: (percent) => {
      changeFromNext((moment) => paced(moment, percent));
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
function scheduleClick(
  context: BaseAudioContext,
  clickSounds: Map<Sound, AudioBuffer>,
  sound: Sound,
  time: number,
): () => void {
  const buffer = clickSounds.get(sound) ?? clickSound(context, sound);
  clickSounds.set(sound, buffer);
  const source = new AudioBufferSourceNode(context, { buffer });
  source.connect(context.destination);
  source.start(time);
  return () => source.disconnect();
}

/** A short knock: a tone and its fifth that begin at once and die away within sixty milliseconds. */
function clickSound(context: BaseAudioContext, sound: Sound): AudioBuffer {
  const { pitch, level } = tones[sound];
  const buffer = context.createBuffer(1, Math.ceil(context.sampleRate * 0.06), context.sampleRate);
  const samples = buffer.getChannelData(0);
  for (let i = 0; i < samples.length; i++) {
    const phase = (2 * Math.PI * pitch * i) / context.sampleRate;
    const fade = Math.exp((-i / context.sampleRate) * 90);
    samples[i] = level * fade * (0.75 * Math.sin(phase) + 0.25 * Math.sin(phase * 1.5));
  }
  return buffer;
}

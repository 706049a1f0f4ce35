import { lastIndexOf, lastOf } from "./last-of.js";
import { begin, carried, type Moment, next, type Practice, paced, positionAt, type Sound } from "./schedule.js";
import { soundClock } from "./sound-clock.js";
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

/**
 * Plays the clicks of a practice on a context's clock. A timer only has to call `wake`; it decides no time.
 *
 * @param onSilence told whether the counts go on in silence, whenever that changes
 */
export function clicks(
  context: AudioContext | OfflineAudioContext,
  onSilence: (silent: boolean) => void = () => {},
): Source {
  const clickSounds = new Map<Sound, AudioBuffer>();
  let wanted: Practice | undefined;
  /** Scheduled and not yet past, in order: the first is the one that sounds now. */
  let queue: { readonly moment: Moment; readonly cancel: () => void }[] = [];
  let upcoming: Moment | undefined;
  const clock = soundClock(context, (silent) => {
    // Were the audio to move after all, they would sound out of time.
    if (silent) for (const { cancel } of queue) cancel();
    onSilence(silent);
  });

  const schedule = (moment: Moment) => {
    const { sound } = moment.step;
    const late = moment.time < clock.now();
    const silent = sound === undefined || sound === "still" || late || clock.isSilent();
    return { moment, cancel: silent ? () => {} : scheduleClick(context, clickSounds, sound, moment.time) };
  };
  const wake = () => {
    clock.look();
    while (upcoming && upcoming.time < clock.now() + lookahead) {
      queue.push(schedule(upcoming));
      upcoming = next(upcoming);
    }
    const heard = lastIndexOf(queue, ({ moment }) => moment.time <= clock.now() - clock.latency());
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
    const index = queue.findIndex(({ moment }) => moment.time > clock.now());
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
      await clock.start();
      if (wanted !== practice) return;
      upcoming = begin(practice, clock.now() + startDelay, percent);
      wake();
    },
    stop: () => {
      silence();
      clock.stop();
    },
    change: (practice) => changeFromNext((moment) => carried(moment, practice)),
    setSpeed: (percent) => {
      changeFromNext((moment) => paced(moment, percent));
    },
    wake,
    where: () => {
      const time = clock.now() - clock.latency();
      const heard = lastOf(queue, ({ moment }) => moment.time <= time)?.moment ?? queue[0]?.moment;
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

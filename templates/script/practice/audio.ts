import { knocks } from "./knock.js";
import { lastIndexOf, lastOf } from "./last-of.js";
import { begin, carried, type Moment, next, type Practice, paced, positionAt } from "./schedule.js";
import { soundClock } from "./sound-clock.js";
import type { Source } from "./source.js";

/** Seconds by which clicks are scheduled before they sound: longer than the slowest timer of a page in the background. */
const lookahead = 1.5;
/** Seconds between the learner's touch and the first click. */
const startDelay = 0.15;

/**
 * Plays the clicks of a practice on a context's clock. A timer only has to call `wake`; it decides no time.
 *
 * @param onSilence told whether the counts go on in silence, whenever that changes
 */
export function clicks(
  context: AudioContext | OfflineAudioContext,
  onSilence: (silent: boolean) => void = () => {},
): Source {
  const knock = knocks(context, context.destination);
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
    return { moment, cancel: silent ? () => {} : knock(sound, moment.time) };
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

import type { FreshAudio } from "./fresh-audio.js";
import { type OverSong, overSong, type SongClick } from "./over-song.js";
import { alignedTo, type OnCopy, placeOn, positionOn, recall, remember } from "./own-copy.js";
import { climbed, isStill, type Practice } from "./schedule.js";
import type { Source } from "./source.js";

/** The learner's own copy of the song, played from their device and never sent anywhere. */
export interface Track extends Source {
  readonly open: (file: File) => void;
  /** Reads the file anew and goes on from where it was. */
  readonly readAgain: () => void;
  readonly close: () => void;
  readonly isOpen: () => boolean;
  /** Says that what sounds now is this position of the routine (seconds at full tempo from its first count). */
  readonly alignTo: (position: number) => void;
  /** Moves the counts against the track, in seconds; later is positive. */
  readonly nudge: (seconds: number) => void;
  /** Lays the routine on this file anew. */
  readonly lay: (copy: OnCopy) => void;
  /** Forgets whatever was said of this file: the routine lies on it as published. */
  readonly forget: () => void;
  /** How the routine lies on this file, as soon as somebody has said it: whoever published it, or the learner. */
  readonly copy: () => OnCopy | undefined;
  /** Whether it is the learner who said it. */
  readonly isLaid: () => boolean;
  /** Clicks over it. */
  readonly clicks: OverSong;
}

/** Nearer to the end than this, in seconds, a track is over: browsers report their place in steps. */
const endTolerance = 0.01;
/** Seconds of sound before the first click of a round: where the song is, is known only once it has played for a moment. */
const runUp = 0.25;

/**
 * @param published where the published routine says that its first count falls, in seconds; null where it does not say
 * @param whole what is counted where the song is played without a practice
 */
export function track(
  { audio, element, change }: FreshAudio,
  slug: string,
  published: number | null,
  whole: Practice,
): Track {
  const firstCount = published ?? 0;
  let key = "";
  let laid: OnCopy | undefined;
  let practice: Practice | undefined;
  let round = 0;
  let percent = 100;
  /** The place in the track beyond which a new speed holds. */
  let speedChange: { readonly after: number; readonly percent: number } | undefined;

  const known = () => (published === null ? laid : copy());
  const copy = () => laid ?? { first: firstCount, stretch: 1 };
  const placeOf = (position: number) => Math.max(0, placeOn(copy(), position));
  const position = () => positionOn(copy(), audio.currentTime);
  const clicksIn = (from: number, to: number) => clicksOn(known(), practice ?? whole, practice ? round : 0, from, to);
  const clicks = overSong(audio, clicksIn, undefined, { element, change });
  const runAt = (speed: number) => {
    percent = speed;
    speedChange = undefined;
    audio.playbackRate = speed / 100;
  };
  const lay = (wanted: OnCopy | undefined) => {
    laid = wanted;
    remember(key, firstCount, laid);
  };
  const stop = () => {
    practice = undefined;
    audio.pause();
  };
  /** The place that a round is played from: before its first click where there are any. */
  const placeBefore = (position: number) =>
    Math.max(0, placeOf(position) - (clicks.isOn() ? (runUp * percent) / 100 : 0));
  const firstOf = ({ origin, round: [first] }: Practice) => origin + (first?.offset ?? 0);
  /** A round that is followed by another ends as much early as that begins before its first click: the counts go on in time. */
  const isOver = (practice: Practice) => {
    const first = firstOf(practice);
    const early = practice.round.length > 0 ? placeOf(first) - placeBefore(first) : 0;
    return audio.currentTime >= placeOf(practice.ends) - early - endTolerance || audio.ended;
  };
  const again = (practice: Practice) => {
    round += 1;
    audio.currentTime = placeBefore(firstOf(practice));
    if (audio.paused) void audio.play();
  };

  audio.preservesPitch = true;
  return {
    open: (file) => {
      stop();
      if (audio.src) URL.revokeObjectURL(audio.src);
      audio.src = URL.createObjectURL(file);
      key = `countleaf track ${slug} ${file.name} ${file.size}`;
      laid = recall(key, firstCount);
    },
    readAgain: () => {
      const { currentTime, paused } = audio;
      audio.load();
      audio.currentTime = currentTime;
      // Where it can't go on, it rests, as after a pause.
      if (!paused) audio.play().catch(() => audio.dispatchEvent(new Event("pause")));
    },
    close: () => {
      stop();
      URL.revokeObjectURL(audio.src);
      audio.removeAttribute("src");
      audio.load();
      key = "";
    },
    isOpen: () => key !== "",
    alignTo: (wanted) => lay(alignedTo(copy(), wanted, audio.currentTime)),
    nudge: (seconds) => lay({ ...copy(), first: copy().first + seconds }),
    lay,
    forget: () => lay(undefined),
    copy: known,
    isLaid: () => laid !== undefined,
    clicks,
    start: async (wanted, speed) => {
      practice = wanted;
      round = 0;
      runAt(speed);
      audio.currentTime = placeBefore(wanted.origin + (wanted.opening[0]?.offset ?? 0));
      await audio.play();
    },
    stop,
    change: (wanted) => {
      practice = wanted;
      round = 0;
      return true;
    },
    setSpeed: (speed) => {
      speedChange = { after: nextCount(practice, position()), percent: speed };
    },
    wake: () => {
      if (speedChange && position() >= speedChange.after) runAt(speedChange.percent);
      const speedNow = practice && isStill(practice, round, position()) ? 1 : percent / 100;
      if (audio.playbackRate !== speedNow) audio.playbackRate = speedNow;
      if (practice && practice.round.length > 0 && isOver(practice)) {
        again(practice);
        const speed = climbed(practice, round, percent);
        if (speed !== percent) runAt(speed);
      }
      clicks.wake();
    },
    where: () => {
      if (!practice && audio.paused) return undefined;
      // Without a practice the learner plays the file by its own buttons: the counts follow all the same.
      if (!practice) return { position: position(), leadsTo: 0, round: 0, percent, over: audio.ended };
      const over = practice.round.length === 0 && isOver(practice);
      return { ...shownAt(practice, round, position()), percent, over };
    },
  };
}

/** What is shown at a position: what is played before the first click of a round is still the end of the one before. */
function shownAt({ origin, begins, ends, opening, round: others }: Practice, round: number, position: number) {
  const first = origin + ((round === 0 ? opening : others)[0]?.offset ?? 0);
  if (round === 0) return { position: Math.max(first, position), leadsTo: begins, round };
  if (position >= first) return { position, leadsTo: origin, round };
  return { position: ends - first + position, leadsTo: round === 1 ? begins : origin, round: round - 1 };
}

/** The clicks of a round from one place in a copy up to another, the second one left out; none where nobody knows where it begins. */
export function clicksOn(
  copy: OnCopy | undefined,
  { origin, opening, round: others }: Practice,
  round: number,
  from: number,
  to: number,
): readonly SongClick[] {
  if (!copy) return [];
  return (round === 0 ? opening : others).flatMap(({ offset, sound }) => {
    const at = placeOn(copy, origin + offset);
    return sound === undefined || sound === "still" || at < from || at >= to ? [] : [{ at, sound }];
  });
}

/** The next count of a run after a position; the position itself where none is left. */
function nextCount(practice: Practice | undefined, position: number): number {
  const steps = practice ? [...practice.opening, ...practice.round] : [];
  const later = steps.map(({ offset }) => (practice?.origin ?? 0) + offset).filter((start) => start > position);
  return later.length > 0 ? Math.min(...later) : position;
}

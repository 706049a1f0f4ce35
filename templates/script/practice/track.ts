import { climbed, isStill, type Practice } from "./schedule.js";
import type { Source } from "./source.js";

/** The learner's own copy of the song, played from their device and never sent anywhere. */
export interface Track extends Source {
  readonly open: (file: File) => void;
  readonly close: () => void;
  readonly isOpen: () => boolean;
  /** Says that what sounds now is this position of the routine (seconds at full tempo from its first count). */
  readonly alignTo: (position: number) => void;
  /** Moves the counts against the track, in seconds; later is positive. */
  readonly nudge: (seconds: number) => void;
  /** Seconds into this file at which the routine's first count falls, as soon as somebody has said it. */
  readonly firstCount: () => number | undefined;
}

/** Nearer to the end than this, in seconds, a track is over: browsers report their place in steps. */
const endTolerance = 0.01;

/** @param published where the published routine says that its first count falls, in seconds; null where it does not say */
export function track(audio: HTMLAudioElement, slug: string, published: number | null): Track {
  const firstCount = published ?? 0;
  let key = "";
  let shift = 0;
  let practice: Practice | undefined;
  let round = 0;
  let percent = 100;
  /** The place in the track beyond which a new speed holds. */
  let speedChange: { readonly after: number; readonly percent: number } | undefined;

  const placeOf = (position: number) => Math.max(0, position + firstCount + shift);
  const position = () => audio.currentTime - firstCount - shift;
  const runAt = (speed: number) => {
    percent = speed;
    speedChange = undefined;
    audio.playbackRate = speed / 100;
  };
  const moveTo = (seconds: number) => {
    shift = seconds;
    remember(key, shift);
  };
  const stop = () => {
    practice = undefined;
    audio.pause();
  };
  const isOver = ({ ends }: Practice) => position() >= ends - endTolerance || audio.ended;
  const again = ({ origin, round: [first] }: Practice) => {
    round += 1;
    audio.currentTime = placeOf(origin + (first?.offset ?? 0));
    if (audio.paused) void audio.play();
  };

  audio.preservesPitch = true;
  return {
    open: (file) => {
      stop();
      if (audio.src) URL.revokeObjectURL(audio.src);
      audio.src = URL.createObjectURL(file);
      key = `countleaf track ${slug} ${file.name} ${file.size}`;
      shift = recall(key);
    },
    close: () => {
      stop();
      URL.revokeObjectURL(audio.src);
      audio.removeAttribute("src");
      audio.load();
      key = "";
    },
    isOpen: () => key !== "",
    alignTo: (wanted) => moveTo(audio.currentTime - firstCount - wanted),
    nudge: (seconds) => moveTo(shift + seconds),
    firstCount: () => (published === null && shift === 0 ? undefined : firstCount + shift),
    start: async (wanted, speed) => {
      practice = wanted;
      round = 0;
      runAt(speed);
      audio.currentTime = placeOf(wanted.origin + (wanted.opening[0]?.offset ?? 0));
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
      if (!practice || practice.round.length === 0 || !isOver(practice)) return;
      again(practice);
      const speed = climbed(practice, round, percent);
      if (speed !== percent) runAt(speed);
    },
    where: () => {
      if (!practice && audio.paused) return undefined;
      // Without a practice the learner plays the file by its own buttons: the counts follow all the same.
      const leadsTo = (round === 0 ? practice?.begins : practice?.origin) ?? 0;
      const over = practice ? practice.round.length === 0 && isOver(practice) : audio.ended;
      return { position: position(), leadsTo, round, percent, over };
    },
  };
}

/** The next count of a run after a position; the position itself where none is left. */
function nextCount(practice: Practice | undefined, position: number): number {
  const steps = practice ? [...practice.opening, ...practice.round] : [];
  const later = steps.map(({ offset }) => (practice?.origin ?? 0) + offset).filter((start) => start > position);
  return later.length > 0 ? Math.min(...later) : position;
}

/** A device that lets the page store nothing has no remembered offset; the rest works all the same. */
function recall(key: string): number {
  try {
    return Number(localStorage.getItem(key)) || 0;
  } catch {
    return 0;
  }
}

function remember(key: string, shift: number): void {
  try {
    localStorage.setItem(key, String(shift));
  } catch {
    // Nothing to do: the offset holds until the page is left.
  }
}

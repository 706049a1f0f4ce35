import type Fraction from "fraction.js";
import type { ShownTime } from "../../routine/clock.js";

/** Seconds as a clock shows them, to the nearest second: 63.8 is "1:04", 3723 is "1:02:03". */
function clock(seconds: Fraction | number): string {
  const whole = Math.round(Number(seconds.valueOf()));
  const [h, m, s] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  const two = (n: number) => String(n).padStart(2, "0");
  return h > 0 ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
}

/** A number of counts a minute, with at most one decimal: "92", "61.3", or whole, "about 76", where nobody has measured it. */
function tempo({ countsPerMinute, tempoIsEstimate }: ShownTempo): string {
  const figure = Number(countsPerMinute.valueOf());
  return tempoIsEstimate ? `about ${Math.round(figure)}` : String(Math.round(figure * 10) / 10);
}

export interface ShownTempo {
  readonly countsPerMinute: Fraction | number;
  readonly tempoIsEstimate: boolean;
}

function toFive(seconds: Fraction | number): number {
  return Math.round(Number(seconds.valueOf()) / 5) * 5;
}

/** Clock times and tempos, as figures. */
export const time = {
  clock,
  /** How long a run takes: "1:04", to five seconds where its tempo is an estimate: "1:05". */
  run(time: ShownTime): string {
    return clock(time.secondsAreEstimate ? toFive(time.seconds) : time.seconds);
  },
  /** A place in a track with tenths, "0:58.0", to five seconds where it follows from an estimate: "1:00". */
  track({ seconds, secondsAreEstimate }: ShownTime): string {
    if (secondsAreEstimate) return clock(toFive(seconds));
    const tenths = Math.round(Number(seconds.valueOf()) * 10);
    const [m, s] = [Math.floor(tenths / 600), (tenths % 600) / 10];
    return `${m}:${s.toFixed(1).padStart(4, "0")}`;
  },
  tempo,
};

import type Fraction from "fraction.js";

/** Clock times and tempos, as figures. */
export const time = {
  /** Seconds as a clock shows them, to the nearest second: 63.8 is "1:04", 3723 is "1:02:03". */
  clock(seconds: Fraction | number): string {
    const whole = Math.round(Number(seconds.valueOf()));
    const [h, m, s] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
    const two = (n: number) => String(n).padStart(2, "0");
    return h > 0 ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
  },
  /** Seconds as a clock with tenths, for a place in a track: 58 is "0:58.0". */
  track(seconds: Fraction | number): string {
    const tenths = Math.round(Number(seconds.valueOf()) * 10);
    const [m, s] = [Math.floor(tenths / 600), (tenths % 600) / 10];
    return `${m}:${s.toFixed(1).padStart(4, "0")}`;
  },
  /** A number of counts a minute, with at most one decimal: "92", "61.3". */
  tempo(countsPerMinute: Fraction | number): string {
    return String(Math.round(Number(countsPerMinute.valueOf()) * 10) / 10);
  },
};

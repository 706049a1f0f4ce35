import type Fraction from "fraction.js";
import type { Move, Routine, Stance, Version } from "../routine/routine.js";

/** Seconds as a clock shows them, to the nearest second: 63.8 is "1:04", 3723 is "1:02:03". */
export function clockText(seconds: Fraction | number): string {
  const whole = Math.round(Number(seconds.valueOf()));
  const [h, m, s] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  const two = (n: number) => String(n).padStart(2, "0");
  return h > 0 ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
}

/** Seconds as a clock with tenths, for a place in a track: 58 is "0:58.0". */
export function trackText(seconds: Fraction | number): string {
  const tenths = Math.round(Number(seconds.valueOf()) * 10);
  const [m, s] = [Math.floor(tenths / 600), (tenths % 600) / 10];
  return `${m}:${s.toFixed(1).padStart(4, "0")}`;
}

/** A number of counts a minute, with at most one decimal: "92", "61.3". */
export function tempoText(countsPerMinute: Fraction): string {
  return String(Math.round(countsPerMinute.valueOf() * 10) / 10);
}

/** "facing left, weight on both feet, standing" */
export function stanceText(stance: Stance): string {
  const height =
    stance.height === "seated" ? "seated on the floor" : stance.height === "chair" ? "on a chair" : stance.height;
  return `facing ${stance.facing}, ${weightText(stance.weight)}, ${height}`;
}

/** How a version starts: one stance, or one for each group by its name. */
export function startsOf(
  { groups: [first] }: Routine,
  version: Version,
): readonly { readonly group?: string; readonly start: Stance }[] {
  if (first === undefined) return [{ start: version.start }];
  const others = version.groups.map(({ name, start }) => ({ group: name, start }));
  return [{ group: first, start: version.start }, ...others];
}

function weightText(weight: Stance["weight"]): string {
  if (weight === "both") return "weight on both feet";
  if (weight === "left" || weight === "right") return `weight on the ${weight} foot`;
  return `weight on the ${weight}`;
}

/** The counts of a move as a reader needs them: with its length where the numbers do not tell, "5 (10 counts)". */
export function onText(move: Pick<Move, "on" | "length">): string {
  const lasts = lastsText(move);
  return lasts === undefined ? move.on : `${move.on} (${lasts})`;
}

/** How long a move lasts, where its numbers do not tell: "10 counts". */
export function lastsText({ on, length }: Pick<Move, "on" | "length">): string | undefined {
  return /[-,]/.test(on) || length.valueOf() <= 1 ? undefined : `${length.toFraction()} counts`;
}

/** The number of the routine's first count: 1, or the first of a pick-up. */
export function firstNumber(routine: Routine): number {
  return routine.sections[0]?.phrases[0]?.numbers[0] ?? 1;
}

/** Track time of a moment given in seconds from the routine's first count. */
export function trackTime(routine: Routine, seconds: Fraction): Fraction {
  return routine.music.firstCount.add(seconds);
}

/** Seconds as they are written: to the millisecond, half away from zero. */
export function writtenSeconds(seconds: Fraction): number {
  const size = seconds.abs().round(3).valueOf();
  return seconds.compare(0) < 0 ? -size : size;
}

/** Seconds as an ISO 8601 duration, to the millisecond: 63.8 is "PT1M3.8S". */
export function isoDuration(seconds: Fraction): string {
  const exact = seconds.round(3);
  const hours = exact.div(3600).floor();
  const minutes = exact.sub(hours.mul(3600)).div(60).floor();
  const rest = exact.sub(hours.mul(3600)).sub(minutes.mul(60)).valueOf();
  const time = [
    hours.equals(0) ? "" : `${hours.toFraction()}H`,
    minutes.equals(0) ? "" : `${minutes.toFraction()}M`,
    rest === 0 ? "" : `${rest}S`,
  ].join("");
  return `PT${time || "0S"}`;
}

/** A link to a moment of a video or a track: the temporal dimension of W3C Media Fragments URI 1.0, "#t=63.8". */
export function momentLink(url: string, seconds: Fraction): string {
  const [address = "", fragment = ""] = url.split("#", 2);
  const others = fragment.split("&").filter((part) => part !== "" && !part.startsWith("t="));
  return `${address}#${[...others, `t=${writtenSeconds(seconds)}`].join("&")}`;
}

/** A version as a page or a sheet names it: "Level 2", or an adaptation's or a named level's own name with a capital. */
export function versionName(id: string): string {
  return /^\d+$/.test(id) ? `Level ${id}` : id.charAt(0).toUpperCase() + id.slice(1);
}

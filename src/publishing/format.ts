import type Fraction from "fraction.js";

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

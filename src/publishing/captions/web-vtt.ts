import type Fraction from "fraction.js";

/** A cue of a WebVTT file. */
export interface Caption {
  /** Cue identifier, plain text. */
  readonly id?: string;
  /** Seconds. */
  readonly start: Fraction;
  readonly end: Fraction;
  /** Lines of cue text, escaped and marked up. */
  readonly lines: readonly string[];
}

/**
 * A W3C WebVTT file. Times are written to the millisecond, so a caption that is left with no time at all is dropped, as is
 * what lies before the start; captions are written in the order of their starts, which the format asks for.
 */
export function webVtt(heading: string, captions: readonly Caption[], note?: string): string {
  const timed = captions.map((caption) => ({
    ...caption,
    from: Math.max(0, milliseconds(caption.start)),
    to: milliseconds(caption.end),
  }));
  const blocks = timed
    .filter(({ from, to }) => from < to)
    .sort((a, b) => a.from - b.from)
    .map(({ id, from, to, lines }) =>
      [...(id ? [unescaped(id)] : []), `${timestamp(from)} --> ${timestamp(to)}`, ...lines.filter(Boolean)].join("\n"),
    );
  const top = [`WEBVTT ${unescaped(heading)}`, ...(note ? [`NOTE ${unescaped(note)}`] : [])];
  return `${[...top, ...blocks].join("\n\n")}\n`;
}

/** Text for inside a cue: on one line, with the characters that the format keeps for itself written as references. */
export function cueText(text: string): string {
  return oneLine(text).replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}

/** Text outside cues knows no references; only the arrow would be misread there. */
function unescaped(text: string): string {
  return oneLine(text).replaceAll("-->", "→");
}

function oneLine(text: string): string {
  return text.replace(/\s+/g, " ").trim();
}

function milliseconds(seconds: Fraction): number {
  return seconds.mul(1000).round().valueOf();
}

/** Milliseconds as hours, minutes, seconds and thousandths: "00:01:03.800". */
function timestamp(milliseconds: number): string {
  const two = (n: number) => String(n).padStart(2, "0");
  const whole = Math.floor(milliseconds / 1000);
  const [h, m, s] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  return `${two(h)}:${two(m)}:${two(s)}.${String(milliseconds % 1000).padStart(3, "0")}`;
}

/**
 * A place in the track as a routine file has it, to the millisecond.
 *
 * @param seconds from 0 on
 * @example writtenTime(74.25) // "1:14.25"
 */
export function writtenTime(seconds: number): string {
  const thousandths = Math.max(0, Math.round(seconds * 1000));
  const minutes = Math.floor(thousandths / 60_000);
  const rest = (thousandths - minutes * 60_000) / 1000;
  const [whole = "0", part = "0"] = String(rest).split(".");
  return `${minutes}:${whole.padStart(2, "0")}.${part}`;
}

/** Counts a minute as a routine file has them, to the hundredth: in a song of four minutes that is a fiftieth of a count. */
export function writtenTempo(countsPerMinute: number): string {
  return String(Math.round(countsPerMinute * 100) / 100);
}

/** Places in the track as an `at` has them: one, or one for each time through. */
export function writtenTimes(at: number | Readonly<Record<number, number>>): string {
  if (typeof at === "number") return writtenTime(at);
  const times = Object.entries(at).map(([through, seconds]) => `${through}: ${writtenTime(seconds)}`);
  return `{ ${times.join(", ")} }`;
}

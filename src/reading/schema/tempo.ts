import type Fraction from "fraction.js";
import * as z from "zod";
import type { TempoTime } from "../../routine/vocabulary.js";
import type { NothingLeft } from "../nothing-left.js";
import { key, number, speed } from "./values.js";

/** A tempo, and the form in which it was written. */
export interface TempoKeys {
  readonly countsPerMinute: Fraction;
  /** True where it is written as `about` so many. */
  readonly isEstimate: boolean;
  /** The song's speed, where it is written in beats or bars a minute. */
  readonly speed?: { readonly unit: "beats" | "bars"; readonly number: Fraction; readonly each: Fraction };
}

/* What nobody dances any more, slow or fast; half and double time may lead there from half as much and twice as much. */
const [slowest, fastest] = [10, 1000];

/** A tempo in any of its forms, not yet held against what can be danced: a section's `time` may halve or double it. */
export const anyTempo = z
  .union([
    speed(2 * fastest, " counts a minute").transform(
      ({ figure, isEstimate }): TempoKeys => ({ countsPerMinute: figure, isEstimate }),
    ),
    z
      .strictObject({
        "beats-per-minute": key(speed(4000, " beats a minute"), "the song's speed", "184"),
        "beats-per-count": key(number(0, 64, " beats"), "how many of its beats make one count", "2"),
      })
      .transform(
        ({ "beats-per-minute": { figure: beats, isEstimate }, "beats-per-count": each, ...left }): TempoKeys => {
          left satisfies NothingLeft;
          return { countsPerMinute: beats.div(each), isEstimate, speed: { unit: "beats", number: beats, each } };
        },
      ),
    z
      .strictObject({
        "bars-per-minute": key(speed(1000, " bars a minute"), "the song's speed in bars", "29"),
        "beats-per-bar": key(number(0, 64, " beats"), "how many counts a bar has", "3"),
      })
      .transform(({ "bars-per-minute": { figure: bars, isEstimate }, "beats-per-bar": each, ...left }): TempoKeys => {
        left satisfies NothingLeft;
        return { countsPerMinute: bars.mul(each), isEstimate, speed: { unit: "bars", number: bars, each } };
      }),
  ])
  .meta({
    wants: `a number of counts a minute, from ${slowest} to ${fastest}, or \`beats-per-minute\` and \`beats-per-count\``,
    example: "92",
    standIn: "60",
  });

/** The music's tempo. */
export const tempo = anyTempo.transform((written, context): TempoKeys => {
  const sentence = tempoFault(written);
  if (sentence === undefined) return written;
  context.addIssue({ code: "custom", params: { sentence } });
  return z.NEVER;
});

/** What is wrong with a tempo that nobody can dance, after its divisions and its `time`, in the form in which it was written. */
export function tempoFault(
  { countsPerMinute, speed }: Omit<TempoKeys, "isEstimate">,
  time: TempoTime = "full",
): string | undefined {
  const times = time === "half" ? 0.5 : time === "double" ? 2 : 1;
  const danced = countsPerMinute.mul(times);
  const slow = danced.compare(slowest) < 0;
  if (!slow && danced.compare(fastest) <= 0) return undefined;
  const range = `a tempo lies between ${slowest} and ${fastest}`;
  const end = slow ? "at least" : "at most";
  const limit = countsPerMinute
    .inverse()
    .mul(slow ? slowest : fastest)
    .div(times);
  const round = (value: Fraction) => (slow ? value.ceil(2) : value.floor(2)).toString();
  const inTime = time === "full" ? "" : ` in ${time} time`;
  const advice = time === "full" ? "" : ", or `time: full`";
  if (!speed && time === "full") {
    const sentence = range.replace(/^a/, "A");
    return `${sentence} counts a minute; here is \`${countsPerMinute.toString()}\`. Write ${end} ${slow ? slowest : fastest}.`;
  }
  const result = `${shown(danced, slow)} counts a minute${inTime}, and ${range}`;
  if (!speed) {
    return `${countsPerMinute.toString()} counts a minute make ${result}: write ${end} ${round(countsPerMinute.mul(limit))}${advice}.`;
  }
  const { unit, number, each } = speed;
  const made =
    unit === "beats"
      ? `${number.toString()} beats a minute, ${each.toString()} to a count,`
      : `${number.toString()} bars a minute, ${each.toString()} counts each,`;
  return `${made} make ${result}: write ${end} ${round(number.mul(limit))} ${unit} a minute${advice}.`;
}

/** Two decimals, away from the bound that the number is beyond. */
function shown(danced: Fraction, slow: boolean): string {
  const near = slow ? danced.floor(2) : danced.ceil(2);
  return near.compare(0) === 0 ? "less than 0.01" : near.toString();
}

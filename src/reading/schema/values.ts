import Fraction from "fraction.js";
import * as z from "zod";
import { isSafeLink } from "../../routine/link.js";
import { isBlank } from "../normal-text.js";
import { slugOf } from "../slug.js";

/* The texts of a front matter, each read into the value that it stands for. A schema's notes say in an author's words what
 * belongs there; messages, the table of keys and the editors' schema are all made from them. */

/** Notes on a schema. */
export interface About {
  /** What a value is, to follow "must be": "a whole number from 1 to 64". */
  readonly wants?: string;
  /** A value as written. */
  readonly example?: string;
  /** What the key is for. */
  readonly description?: string;
  /** What else a dancer would call one of the words, and the word. */
  readonly also?: Readonly<Record<string, string>>;
  /** Words that belong elsewhere, and a sentence that says what to write in their place. */
  readonly instead?: Readonly<Record<string, string>>;
  /** The JSON Schema for editors, where it differs: they see 92 as a number, here it is a text. */
  readonly editor?: Readonly<Record<string, unknown>>;
  /** True of a text in the author's own words, where a "#" may well be meant as part of it. */
  readonly ownWords?: boolean;
  /** What stands in where the key is missing, so that the rest of the file can be looked at. */
  readonly standIn?: string;
}

/** A key of a mapping: its schema, what it is for, and a value as written. */
export function key<S extends z.ZodType>(schema: S, description: string, example?: string): S {
  return schema.meta({ description, ...(example === undefined ? {} : { example }) });
}

/** Notes on a schema; those that it has already stay. */
export function notes(schema: z.core.$ZodType): About {
  return (z.globalRegistry.get(schema) ?? {}) as About;
}

/** A text that stands for a value; `read` gives nothing where it stands for none, and `hint` may know why. */
function scalar<T>(about: About, read: (text: string) => T | undefined, hint?: (text: string) => string | undefined) {
  return z
    .string()
    .transform((text, context): T => {
      const value = read(text.trim());
      if (value !== undefined) return value;
      context.addIssue({ code: "custom", params: { hint: hint?.(text.trim()) } });
      return z.NEVER;
    })
    .meta({ ...about });
}

const anyScalar = { type: ["string", "number", "boolean"] };

/** A text on one line, in the author's own words. */
export const line = scalar(
  { wants: "a text of 1 to 1000 characters", editor: anyScalar, ownWords: true, standIn: "…" },
  (text) => (isBlank(text) || text.length > 1000 ? undefined : text.replace(/\s+/g, " ")),
);

/** The name of something, as it is written where that stands. */
export const name = line.meta({ ownWords: false });

/** The name of a routine's file without its ending, which is part of its page's address. */
export const slug = scalar(
  { wants: "the name of a file without .md: small letters, digits and hyphens", editor: { type: "string" } },
  (text) => (text !== "" && slugOf(text) === text ? text : undefined),
  (text) => {
    const meant = slugOf(text.replace(/^.*\/(?=[^/])|\/$|\.md$/g, ""));
    return meant === "" ? undefined : `Write \`${meant}\`.`;
  },
);

/** A text of one paragraph or more. */
export const paragraphs = scalar(
  { wants: "a text of 1 to 20000 characters", editor: anyScalar, ownWords: true },
  (text) => (isBlank(text) || text.length > 20_000 ? undefined : text),
);

/** The name of a version, as far as it can be judged alone. */
export const versionName = scalar(
  {
    wants: "a name of letters, digits, - and _, other than mirrored, large, card, facing, weight and height",
    editor: { type: ["string", "number"] },
  },
  (text) =>
    /^[\p{L}\p{M}\p{N}_-]{1,40}$/u.test(text) && !isBlank(text) && !taken.has(text.toLowerCase()) ? text : undefined,
  (text) => {
    if (taken.has(text.toLowerCase())) return `\`${text}\` has a meaning of its own here: choose another name.`;
    return /\s/.test(text) ? `Write \`${text.replace(/\s+/g, "-")}\`.` : undefined;
  },
);
const taken = new Set(["mirrored", "large", "card", "facing", "weight", "height"]);

const decimal = /^\d{1,9}(\.\d{1,9})?$/;

/** @param fits whether a number may stand there: what would be refused as well is no advice */
function numberHint(text: string, fits: (alone: string) => boolean = () => true): string | undefined {
  if (/^\d+,\d+$/.test(text)) return `Write the decimals after a point: ${text.replace(",", ".")}.`;
  if (/^\d+(\.\d+)?e[+-]?\d+$/i.test(text)) return "Write the number out in full.";
  const [, alone] = /^(?:about |ca\.? ?|~ ?)?(\d+(?:\.\d+)?) ?(?:[a-z]+|%)$/i.exec(text) ?? [];
  if (alone !== undefined && fits(alone)) return `Write the number alone: ${alone}.`;
  return undefined;
}

/** What a length is in seconds that was written as a time: "0:18" is 18. */
function secondsHint(text: string, unit: string): string | undefined {
  const time = unit === " seconds" && text.includes(":") ? readClock(text) : undefined;
  return time && `Write the seconds alone: \`${time.toString()}\`.`;
}

/** A number with or without decimals, kept exactly. */
export function number(least: number, most: number, unit = "") {
  return scalar(
    {
      wants: `a number ${least === 0 ? "above 0 and up" : `from ${least}`} to ${most}${unit}`,
      editor: { type: ["number", "string"] },
    },
    (text) => numberIn(text, least, most),
    (text) => secondsHint(text, unit) ?? numberHint(text),
  );
}

function numberIn(text: string, least: number, most: number): Fraction | undefined {
  const value = decimal.test(text) ? new Fraction(text) : undefined;
  return value && value.compare(0) > 0 && value.compare(least) >= 0 && value.compare(most) <= 0 ? value : undefined;
}

/** A speed, and whether it is a guess. */
export interface Speed {
  readonly figure: Fraction;
  readonly isEstimate: boolean;
}

/** A speed above 0: a number that somebody measured, or `about 76` where nobody has. */
export function speed(most: number, unit: string) {
  return scalar(
    { wants: `a number above 0 and up to ${most}${unit}`, editor: { type: ["number", "string"] } },
    (text): Speed | undefined => {
      const [, about, number = ""] = /^(about\s+)?(.*)$/i.exec(text) ?? [];
      const figure = numberIn(number, 0, most);
      return figure && { figure, isEstimate: about !== undefined };
    },
    (text) => {
      const guess = /^(?:about|circa|ca?\.?|approx(?:\.|imately)?|around|roughly|~|≈|±)\s*(\d+(?:\.\d+)?)(?![\d.,:])/i;
      const figure = guess.exec(text)?.[1] ?? /^(\d+(?:\.\d+)?)\s*(?:ish|-ish|\?|or so)$/i.exec(text)?.[1];
      return figure === undefined ? numberHint(text) : `Write \`about ${figure}\`.`;
    },
  );
}

/** A number with or without decimals, as near as a computer's come to it. */
export function amount(least: number, most: number, unit = "") {
  return scalar(
    { wants: `a number from ${least} to ${most}${unit}`, editor: { type: ["number", "string"] } },
    (text) => (decimal.test(text) && Number(text) >= least && Number(text) <= most ? Number(text) : undefined),
    numberHint,
  );
}

/** A whole number. */
export function whole(least: number, most: number, unit = "") {
  return scalar(
    { wants: `a whole number from ${least} to ${most}${unit}`, editor: { type: ["integer", "string"] } },
    (text) => wholeIn(text, least, most),
    (text) => {
      const meant = unit === " minutes" ? minutesIn(text) : undefined;
      if (meant !== undefined) return wholeIn(meant, least, most) === undefined ? undefined : `Write \`${meant}\`.`;
      return numberHint(text, (alone) => wholeIn(alone, least, most) !== undefined);
    },
  );
}

function wholeIn(text: string, least: number, most: number): number | undefined {
  const value = /^\d{1,9}$/.test(text) ? Number(text) : undefined;
  return value !== undefined && value >= least && value <= most ? value : undefined;
}

/** The whole minutes of "1h", "1.5 hours", "1h30" and "1:30". */
function minutesIn(text: string): string | undefined {
  const [, hours, over = "0"] =
    /^(\d{1,2}(?:[.,]\d{1,2})?) ?h(?:(?:ou)?rs?)? ?(?:(\d{1,2}) ?(?:m|min|mins|minutes)?)?$/i.exec(text) ??
    /^(\d{1,2}):([0-5]\d)(?: ?h)?$/.exec(text) ??
    [];
  const minutes = hours === undefined ? undefined : Number(hours.replace(",", ".")) * 60 + Number(over);
  return minutes === undefined ? undefined : String(Math.round(minutes));
}

const truths: Readonly<Record<string, boolean>> = { yes: true, true: true, no: false, false: false };

/** yes and no. */
export const truth = scalar(
  { wants: "yes or no", example: "yes", editor: { enum: [true, false, "yes", "no"] } },
  (text) => (Object.hasOwn(truths, text.toLowerCase()) ? truths[text.toLowerCase()] : undefined),
);

/** A moment of a track or a video, in seconds. */
export const clock = scalar(
  { wants: "a time in minutes and seconds, or in seconds", example: "1:03", editor: { type: ["string", "number"] } },
  readClock,
  clockHint,
);

/** Why a text is no time. */
export function clockHint(text: string): string | undefined {
  if (/^\d+:\d$/.test(text)) return `Write the seconds with two digits: ${text.replace(":", ":0")}.`;
  if (/\d,\d/.test(text)) return "Write tenths after a point: 0:14.2.";
  if (/:[6-9]\d/.test(text)) return "Seconds go up to 59.";
  if (/^\d+\.\d+\.\d+$/.test(text)) return `Write a colon after the minutes: ${text.replace(".", ":")}.`;
  return undefined;
}

/** "1:03", "0:14.2", "1:02:03" or "63" in seconds; nothing where the text is no time, or one beyond a day. */
export function readClock(text: string): Fraction | undefined {
  if (decimal.test(text)) return new Fraction(text).compare(86_400) <= 0 ? new Fraction(text) : undefined;
  const parts = /^(?:(\d{1,2}):)?(\d{1,3}):([0-5]\d(?:\.\d{1,6})?)$/.exec(text);
  if (!parts || (parts[1] !== undefined && Number(parts[2]) > 59)) return undefined;
  return new Fraction(parts[3] ?? "0").add(Number(parts[1] ?? 0) * 3600 + Number(parts[2]) * 60);
}

/** A time of day, "18:30". */
export const timeOfDay = scalar(
  { wants: "a time of day from 0:00 to 23:59", example: "18:30", editor: { type: "string" } },
  (text) => (/^([01]?\d|2[0-3]):[0-5]\d$/.test(text) ? text.padStart(5, "0") : undefined),
  (text) => {
    const [, hours, minutes = "00", half] =
      /^(\d{1,2})(?:[:.h](\d\d))? ?(?:([ap])\.?m\.?|h|o'clock)?$/i.exec(text) ?? [];
    if (hours === undefined || Number(hours) > (half === undefined ? 23 : 12) || Number(minutes) > 59) return undefined;
    const hour = half === undefined ? Number(hours) : (Number(hours) % 12) + (half.toLowerCase() === "p" ? 12 : 0);
    return `Write \`${hour}:${minutes}\`.`;
  },
);

/** A turn in eighths, to the right positive. */
export const turn = scalar(
  { wants: "an amount in eighths of a turn and a direction", example: "1/4 right" },
  readTurn,
  (text) => {
    if (/^[\d /]+$/.test(text)) return `Say which way: ${text} right, or ${text} left.`;
    const meant = meantTurn(text);
    if (meant !== undefined) return `Write \`${meant}\`.`;
    if (/[¼½¾⅛⅜⅝⅞]/.test(text)) return "Write the fraction with a stroke: 1/4, 1/2, 3/4.";
    if (/\d\/[3579]|\d\/\d\d|\d\.\d|°/.test(text)) return "Turns are written in eighths: 1/8, 1/4, 3/8, 1/2, 1, 1 1/2.";
    return undefined;
  },
);

function readTurn(text: string): number | undefined {
  const parts = /^(?:(\d{1,2})(?:\s+(\d)\/(\d))?|(\d{1,2})\/(\d))\s+(left|right)$/.exec(text);
  if (!parts) return undefined;
  const [, wholes, over = parts[4], under = parts[5], , , side] = parts;
  if (under !== undefined && ![1, 2, 4, 8].includes(Number(under))) return undefined;
  const eighths = Number(wholes ?? 0) * 8 + (under === undefined ? 0 : (Number(over) * 8) / Number(under));
  return eighths > 0 && eighths <= 80 ? (side === "left" ? -eighths : eighths) : undefined;
}

const amounts: Readonly<Record<string, string>> = {
  "⅛": "1/8",
  "¼": "1/4",
  "⅜": "3/8",
  "½": "1/2",
  "⅝": "5/8",
  "¾": "3/4",
  "⅞": "7/8",
  "45": "1/8",
  "90": "1/4",
  "135": "3/8",
  "180": "1/2",
  "270": "3/4",
  "360": "1",
  quarter: "1/4",
  half: "1/2",
  full: "1",
  whole: "1",
};
const ways: Readonly<Record<string, string>> = {
  right: "right",
  left: "left",
  r: "right",
  l: "left",
  clockwise: "right",
  anticlockwise: "left",
  counterclockwise: "left",
};

/** A turn in other words, "90° right" or "half turn to the left", as it is written here. */
function meantTurn(text: string): string | undefined {
  const parts = text.toLowerCase().match(/[⅛¼⅜½⅝¾⅞]|\d+(?:\/\d+)?|[a-z]+/g) ?? [];
  const found = (words: Readonly<Record<string, string>>) =>
    parts.flatMap((part) => (Object.hasOwn(words, part) ? [words[part]] : []));
  const [[amount, ...moreAmounts], [way, ...moreWays]] = [found(amounts), found(ways)];
  const rest = parts.filter((part) => ![amounts, ways].some((words) => Object.hasOwn(words, part)));
  const plain = rest.filter((part) => /^\d+\/[248]$/.test(part));
  const other = rest.filter((part) => !plain.includes(part) && !/^(a|turns?|degrees?|deg|to|the)$/.test(part));
  const one = amount ?? plain[0];
  if (one === undefined || way === undefined) return undefined;
  if (moreAmounts.length + moreWays.length + other.length > 0 || plain.length > (amount === undefined ? 1 : 0))
    return undefined;
  const meant = `${one} ${way}`;
  // What would be refused as well is no advice.
  return readTurn(meant) === undefined ? undefined : meant;
}

/** A length in counts. */
export const countLength = scalar(
  { wants: "a length in counts from 1/64 to 1000", example: "1 1/2", editor: { type: ["string", "number"] } },
  (text) => {
    if (!decimal.test(text) && !/^(\d{1,4}\s+)?\d{1,4}\/[1-9]\d{0,3}$/.test(text)) return undefined;
    const value = new Fraction(text);
    return value.compare(new Fraction(1, 64)) >= 0 && value.compare(1000) <= 0 ? value : undefined;
  },
  numberHint,
);

/** An ISO 8601 calendar date that exists. */
export const date = scalar(
  { wants: "a date as year-month-day", example: "2026-10-02", editor: { type: "string" } },
  (text) => {
    const day = /^\d{4}-\d\d-\d\d$/.test(text) ? new Date(`${text}T00:00:00Z`) : undefined;
    return day && !Number.isNaN(day.valueOf()) && day.toISOString().startsWith(text) ? text : undefined;
  },
  (text) => (/^\d{4}-\d\d-\d\d$/.test(text) ? "The calendar has no such day." : undefined),
);

/** A BCP 47 language tag, in its usual spelling. */
export const language = scalar({ wants: "a language code", example: "en", editor: { type: "string" } }, (text) => {
  try {
    return Intl.getCanonicalLocales(text)[0];
  } catch {
    return undefined;
  }
});

/** An address that is safe to link to. */
export const link = scalar(
  {
    wants: "a link that begins with https://, http:// or mailto:, or the path of a page on your site",
    example: "https://example.org/track",
    editor: { type: "string" },
  },
  (text) => (isSafeLink(text) && text.length <= 2000 ? text : undefined),
);

/** One of a closed list of words; `also` knows what else a dancer would call them. */
export function word<const Words extends readonly [string, ...string[]]>(
  words: Words,
  also: Readonly<Record<string, Words[number]>> = {},
) {
  return z.enum(words).meta({ also });
}

/** A list, for which one entry alone may stand too. */
export function listOf<S extends z.ZodType>(entry: S) {
  return z.union([z.array(entry), entry.transform((one) => [one] as z.output<S>[])]);
}

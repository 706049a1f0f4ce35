import * as z from "zod";
import { audiences, feels, mirroredBy, tempoTimes } from "../../routine/vocabulary.js";
import { quoted } from "../nearest.js";
import { rest } from "../place.js";
import { gatherRest, phrase, stance, stanceKeys } from "./move.js";
import { anyTempo, tempo } from "./tempo.js";
import {
  clock,
  clockHint,
  date,
  key,
  line,
  link,
  listOf,
  name,
  number,
  paragraphs,
  readClock,
  slug,
  truth,
  versionName,
  whole,
  word,
} from "./values.js";

const feel = word(feels);
const numbered = (most: number) =>
  z
    .string()
    .regex(new RegExp(`^[1-9]\\d{0,${String(most).length - 1}}$`))
    .meta({ wants: `a number from 1 to ${most}` });

const music = z.strictObject({
  title: key(line, "the song", "Low Tide").optional(),
  artist: key(line, "who plays it", "The Ferry Clerks").optional(),
  tempo: key(tempo, "counts a minute; `about 92` where nobody has measured it"),
  "first-count": key(
    clock,
    "where the routine's first count falls in the track; without it nothing that is published names a place in the track",
    "0:14.2",
  ).optional(),
  phrase: key(whole(1, 64), "counts in a phrase", "8").default(8),
  accents: key(listOf(whole(1, 64)), "counts of a phrase that land hardest", "[4, 8]").default([]),
  pauses: key(listOf(whole(1, 64)), "counts of a phrase on which nothing is danced, as a habit", "[6]").default([]),
  "count-in": key(whole(0, 64), "counts before the first (default half a phrase, rounded down)", "4").optional(),
  feel: key(feel, "how a count is divided: in four, in three, or once, two thirds past it", "straight").default(
    "straight",
  ),
  link: key(link, "where the track can be heard").optional(),
});

/** "1:03 Harbour wall" */
const chapter = line
  .transform((text, context) => {
    const [, time = "", title = ""] = /^(\S+)\s+(.+)$/.exec(text) ?? [];
    const at = readClock(time);
    if (at && title !== "") return { at, title };
    context.addIssue({ code: "custom", params: { hint: clockHint(time) } });
    return z.NEVER;
  })
  .meta({ wants: "a time and a title", example: "1:03 Harbour wall, counts and words" });

const video = z.strictObject({
  performance: key(link, "the video of the whole routine", "https://example.org/performance").optional(),
  breakdown: key(link, "the video that teaches it", "https://example.org/breakdown").optional(),
  "breakdown-mirrored": key(link, "the same, mirrored", "https://example.org/breakdown-mirrored").optional(),
  "mirrored-by": key(
    word(mirroredBy, { flip: "flipped", mirror: "flipped", filmed: "danced" }),
    "how that came to be: the same film `flipped` (what is said in it keeps its sides; the default), or `danced` on the other side",
    "danced",
  ).optional(),
  length: key(clock, "how long the breakdown is; closes its last chapter", "12:40").optional(),
  chapters: key(z.array(chapter), "times in the breakdown and what begins there", "[0:00 What you need]").default([]),
});

const start = z.preprocess(
  gatherRest((_, value) => typeof value === "object"),
  z.strictObject({ ...stanceKeys, [rest]: z.record(z.string(), stance) }),
);

const adaptationMapping = z.strictObject({
  name: key(versionName, "what the adaptation is called", "seated"),
  from: key(versionName, "the level it falls back to (default: the taught one)", "1").optional(),
});
const adaptation = z
  .union([versionName.transform((name) => ({ name })).pipe(adaptationMapping), adaptationMapping])
  .meta({ wants: "a name, or a `name` and the level that it falls back `from`", example: "seated" });

const gearMapping = z.strictObject({
  item: key(line, "the thing itself", "knee pads"),
  need: key(word(["required", "optional"]), "whether it must be there", "required").default("required"),
  why: key(line, "what it is for", "the slide to the floor").optional(),
  for: key(listOf(versionName).meta({ ownWords: true }), "only these versions need it", "[seated]").optional(),
});
const gear = z.union([line.transform((item) => ({ item })).pipe(gearMapping), gearMapping]).meta({
  wants: "an `item` and its `need`",
  example: "{ item: knee pads, need: required }",
});

const groupMapping = z.strictObject({
  name: key(line, "what the group is called", "Flood"),
  ...stanceKeys,
  mirrored: key(truth, "whether it dances everything on the other side", "yes").default(false),
});
const group = z.union([name.transform((name) => ({ name })).pipe(groupMapping), groupMapping]).meta({
  wants: "a name, or a `name` and how the group starts",
  example: "{ name: Flood, facing: back }",
});

const restart = z
  .strictObject({
    wall: key(whole(1, 1000), "which time through is broken off", "5"),
    after: key(whole(1, 50_000), "after how many counts of it", "16"),
  })
  .meta({ wants: "`wall` and `after`", example: "{ wall: 5, after: 16 }" });

const mirrored = z
  .union([truth.transform((yes) => (yes ? ("always" as const) : ("never" as const))), z.literal("alternate")])
  .meta({ wants: "yes, no or alternate", example: "yes" });

/* More levels, adaptations or groups than these nobody tells apart, and each is danced through. */
const mostNames = 64;
const isFew = (names: readonly unknown[]) => names.length <= mostNames;
const tooMany = (key: string) => ({
  params: { sentence: `\`${key}\` has more than ${mostNames} names: name at most ${mostNames}.` },
});

const twoGroups = (name: string) => `Two groups are called ${quoted(name)}: give one of them another name.`;

const phrases = z.array(phrase).min(1);

/* Time without counts has nothing to count, mirror or speed up. */
const besideSeconds = new Set(["name", "seconds", "at", "repeat", "on-walls", "words", "doubt"]);

const section = z
  .strictObject({
    name: key(line, "the section's name; a heading of the prose with this name is its teaching note", "Harbour wall"),
    words: key(line, "the landing words in the song, short", "down by the wall").optional(),
    counts: key(phrases, "one entry a phrase: counts and moves", "[{ 1-4: Walk, 5-8: hold }]").optional(),
    seconds: key(
      number(0, 3600, " seconds"),
      "in place of counts: time that is not counted, such as a spoken opening, in seconds",
      "15",
    ).optional(),
    canon: key(
      z.record(z.string(), whole(1, 1000)),
      "groups that dance the same counts, and how many counts later they begin",
      "{ Flood: 4 }",
    ).optional(),
    parts: key(
      z.record(z.string(), phrases),
      "groups with counts of their own, as many as the others have",
      "{ Flood: [{ 1-8: hold }] }",
    ).optional(),
    "same-as": key(
      line,
      "danced as the section with this name: its counts, words, tempo, time and feel",
      "Harbour wall",
    ).optional(),
    change: key(
      z.record(numbered(999), phrase),
      "phrases that differ from that section's, by number",
      "{ 2: { 1-8: Turn out } }",
    ).default({}),
    mirrored: key(mirrored, "danced on the other side; `alternate`: every second time").prefault("no"),
    repeat: key(whole(1, 1000), "how many times in a row", "2").default(1),
    "on-walls": key(listOf(whole(1, 1000)), "only on these times through", "[3]").optional(),
    at: key(
      z
        .union([
          clock.transform((first) => ({ first })),
          z.record(numbered(1000), clock).transform((times) => ({ times })),
        ])
        .meta({ wants: "a time, or times by the time through", example: "0:58.0" }),
      "where its first count falls in the track",
    ).optional(),
    tempo: key(anyTempo, "counts a minute, for this section only", "96").optional(),
    time: key(
      word(tempoTimes),
      "half or double time; `full` takes back what `same-as` brings along",
      "half",
    ).optional(),
    feel: key(feel, "how a count is divided in this section", "triplet").optional(),
    improvised: key(
      truth,
      "yes where it is the dancers' own; its counts may then be just `[{ length: 8 }]`",
      "yes",
    ).default(false),
    doubt: key(line, "what you are not sure of yet; never published", '"twice or three times?"').optional(),
  })
  .superRefine((section, context) => {
    if (section.seconds === undefined) return;
    for (const [name, value] of Object.entries(section))
      if (!besideSeconds.has(name) && !isUnsaid(value))
        context.addIssue({
          code: "custom",
          path: [name],
          params: {
            sentence: `\`${name}\` can't stand beside \`seconds\`: that is time without counts, and has at most \`at\`, \`repeat\`, \`on-walls\` and \`words\` beside it. Take one of the two out.`,
          },
        });
  })
  .meta({ wants: "a `name` and `counts`", example: "name: Harbour wall" });

/** Whether a key has no more than its default. */
function isUnsaid(value: unknown): boolean {
  const isEmpty = typeof value === "object" && value !== null && Object.keys(value).length === 0;
  return value === undefined || value === false || value === "never" || isEmpty;
}

/** The front matter of a routine. */
export const routineSchema = z.strictObject({
  title: key(line, "the routine's name", "Low Tide"),
  choreographer: key(line, "who made it", "Ines Varga"),
  date: key(
    date,
    "when it was published; what has none is last in the library, and not in the feed",
    "2026-10-02",
  ).optional(),
  style: key(listOf(line), "styles, for tags", "[jazz, floorwork]").default([]),
  audience: key(word(audiences), "who it is for", "adult").default("all"),
  summary: key(
    paragraphs,
    "one or two plain sentences for the library page",
    "A slow floor piece in eights.",
  ).optional(),
  credit: key(paragraphs, "how a dancer who posts this should credit it", "Choreography by Ines Varga").optional(),
  draft: key(truth, "yes while it is to be seen with `serve` alone, and not published", "yes").default(false),
  doubt: key(line, "what you are not sure of yet; never published", '"which recording?"').optional(),
  formerly: key(
    listOf(slug),
    "names that its file had before, so that the pages that had them lead here, and not the files beside them",
    "[slack-water]",
  ).default([]),
  music: key(music, "the song; at least its tempo", "{ tempo: 92 }"),
  video: key(video, "links to the videos, and the breakdown's chapters", "{ length: 12:40 }").prefault({}),
  start: key(
    start,
    "facing, weight and height at the start (default front, both, standing); a version that starts in another way has its own, under its name",
    "{ facing: left, seated: { weight: seat, height: chair } }",
  ).prefault({}),
  levels: key(
    listOf(versionName)
      .refine((levels) => levels.length > 0, "Name at least one level, or leave the key out.")
      .refine(isFew, tooMany("levels")),
    "easiest first",
    "[1, 2, 3]",
  ).default(["1"]),
  taught: key(versionName, "the level that the plain moves are for (default: the first)", "2").optional(),
  adaptations: key(
    listOf(adaptation).refine(isFew, tooMany("adaptations")),
    "versions that are no rung of the ladder",
    "[seated]",
  ).default([]),
  gear: key(listOf(gear), "what a dancer needs", "[{ item: knee pads, need: required }]").default([]),
  groups: key(
    listOf(group)
      .refine(isFew, tooMany("groups"))
      .superRefine((groups, context) => {
        for (const [index, { name }] of groups.entries())
          if (groups.findIndex((other) => other.name === name) < index)
            context.addIssue({ code: "custom", path: [index], params: { sentence: twoGroups(name) } });
      }),
    "dancers who dance different counts at once, the first first",
    "[Ebb, Flood]",
  ).default([]),
  walls: key(whole(1, 64), "in how many directions it starts", "4").default(1),
  times: key(whole(1, 1000), "how many times it is danced through (default: walls)", "8").optional(),
  restarts: key(z.array(restart), "times through that break off early", "[{ wall: 5, after: 16 }]").default([]),
  sections: key(
    z.array(section).min(1),
    "the counts, section by section",
    "[{ name: Verse, counts: [{ 1-8: Walk }] }]",
  ),
});

export type RoutineKeys = z.output<typeof routineSchema>;
export type MusicKeys = z.output<typeof music>;
export type VideoKeys = z.output<typeof video>;
export type StartKeys = z.output<typeof start>;
/** An entry of one of a routine's lists. */
export type EntryOf<Key extends "adaptations" | "gear" | "groups" | "restarts"> = RoutineKeys[Key][number];
export type SectionKeys = z.output<typeof section>;

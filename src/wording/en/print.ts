import type { Facing, Feel } from "../../routine/vocabulary.js";
import { capital, counted, list, plural, uncounted } from "./language.js";

/** What a kind of handout is called, where it is not the plain sheet. */
const kinds = { sheet: [], large: ["large print"], card: ["cue card"] } as const;

/** Line dancers call each time through a wall, whichever way it faces. */
const noun = (walls: number): string => (walls > 1 ? "wall" : "time");

const optionally = " (optional)";

/** After how a group starts that dances everything on the other side. */
const dancesAcross = "; dances on the other side";

/** What stands on a printed sheet of a routine, its signs and its metadata included. */
const countsMark = (mark: string): string => `mark ${mark}`;

export const print = {
  /* What it is. */

  /** @param name of the version: "Level 2 of 3, mirrored" */
  version: (name: string, levels: number | undefined, mirrored: boolean): string =>
    `${name}${levels === undefined ? "" : ` of ${levels}`}${mirrored ? ", mirrored" : ""}`,
  /**
   * After the name of a level, where no other is easier, or none harder; of one between them that has a name, which it is.
   *
   * @param index from 0, the easiest first
   */
  rung: (index: number, levels: number, named: boolean): string => {
    if (levels < 2 || index < 0) return "";
    if (index === 0) return levels === 2 ? ", the easier" : ", the easiest";
    if (index === levels - 1) return levels === 2 ? ", the harder" : ", the hardest";
    return named ? `, ${index + 1} of ${levels}` : "";
  },
  /** The same of a group's own sheet: "Level 2 of 3, Flood". */
  versionOf: (version: string, group: string | undefined): string =>
    group === undefined ? version : `${version}, ${group}`,
  /** In the file's metadata: "Night Ferry: Level 2, large print". */
  title: (routine: string, version: string, kind: keyof typeof kinds): string =>
    [`${routine}: ${version}`, ...kinds[kind]].join(", "),
  bookmark: (routine: string, version: string, kind: keyof typeof kinds): string =>
    [routine, version, ...kinds[kind]].join(", "),
  /** The short mark of these very counts, by which an old sheet is told. */
  mark: countsMark,
  pageNumber: (page: number, pages: number, mark?: string): string =>
    `${mark === undefined ? "" : `${countsMark(mark)} · `}page ${page} of ${pages}`,
  /** A text as it opens a line. */
  opening: capital,
  /** Words that are sung or called. */
  quoted: (words: string): string => `“${words}”`,

  /* The head. */

  byline: <T>(choreographer: T, song: string | undefined) =>
    ["Choreography: ", choreographer, song === undefined ? "" : ` ${song}`] as const,
  /** "to “Low Tide” by Ines Varga" */
  song: (title: string | undefined, artist: string | undefined): string | undefined => {
    if (title === undefined && artist === undefined) return undefined;
    return `to ${title === undefined ? "music" : `“${title}”`}${artist === undefined ? "" : ` by ${artist}`}`;
  },
  /** Under the figures of a run. */
  figures: {
    counts: "counts",
    run: "one run",
    tempo: { straight: "counts a minute", triplet: "a minute, triplets", swing: "a minute, swung" } satisfies Record<
      Feel,
      string
    >,
    countIn: "counts in",
    firstCount: "first count",
  },
  codeTitle: "The way to the page",
  /** Its address is read out with the credit. */
  code: "QR code that leads to the routine's page",
  codeLink: (address: string): string => `The routine's page, ${address}`,
  starts: "Starts",
  /** "Flood starts" */
  startsOf: (group: string | undefined): string => (group === undefined ? "Starts" : `${group} starts`),
  start: (group: string, stance: string, otherSide: boolean): string =>
    `${group === "" ? "" : `${group}: `}${stance}${otherSide ? dancesAcross : ""}`,
  pauses: "Pauses",
  /** "On 6 and 7 of each phrase." */
  pausesOn: (counts: readonly number[]): string => `on ${list(counts.map(String))} of each phrase`,
  bring: "Bring",
  /** @param only the versions that need it, where not all do: "mat (level 3)" */
  item: (item: string, optional: boolean, only?: string): string =>
    `${item}${only === undefined ? "" : ` (${only})`}${optional ? optionally : ""}`,
  /** After the name of an item that is not required. */
  optionally,
  /** White on black along the top of every page. */
  otherSideBar: "Mirrored",
  mirroredFor: "Left and right exchanged, to follow somebody who faces you or to dance it the other way round.",
  takeCare: "Take care",
  /** In large print, where the cautions' own sentences would leave the first page to nothing else. */
  care: (cautions: readonly string[]): string => `${cautions.join(", ")}. Read the cautions at the end first.`,
  timesThrough: (walls: number): string => (walls > 1 ? "Walls" : "Times"),

  /* The grid. */

  phraseColumn: "phrase",
  track: "track",
  /** Beside a row over whose counts words are called. */
  calledHere: "called",
  /** Before what a neighbouring level dances instead. */
  levelDances: (level: string, harder: boolean): string => `${harder ? "Harder" : "Easier"} (${level}): `,
  /** Before the name of the group that a sheet is for. */
  groupOf: "group ",
  /** Beside a section whose counts all groups dance, where others have rows for each. */
  everybody: "everybody",
  /** Between what stands in one line. */
  between: " · ",
  continued: "(continued)",
  otherSide: "on the other side",
  tempoHere: (tempo: string): string => `${tempo} counts a minute`,
  /** @param facing of the group when it begins, where the others face elsewhere */
  canon: (group: string, after: number, otherSide: boolean, facing: Facing | undefined): string =>
    `${group}: the same${otherSide ? " on the other side" : ""}, ${counted(after, "count", "counts")} later${facing === undefined ? "" : `, facing ${facing}`}`,
  /** On the sheet of a group that begins so many counts later, under the numbers of the room. */
  ownCanon: (after: number, first: number): string =>
    `wait ${counted(after, "count", "counts")}, then begin on your own ${first}`,
  /** Behind the music's counts those of a group that began later: "5–6 (own 1–2)". */
  ownCount: (counts: string): string => ` (own\u00a0${counts})`,
  /** In the line of a section in which counts stand so. */
  ownCounts: "the numbers are the music's, own counts in brackets",
  /** Where groups dance the same, but not the same way round. @param faces "facing back" */
  faces: (group: string, faces: string): string => `${group} ${faces}`,
  /** Where the other groups of a canon still dance. */
  othersFinish: "hold while the others finish",
  /** Before what the dancers improvise, and beside a section of that. */
  own: "yours: ",
  ownSection: "yours: dance what you like",
  /** The row of time without counts, in seconds. */
  uncounted,
  /** Of a move that began in the row before. */
  goesOn: "goes on",
  /** Its counts: "…–3". */
  goesOnTo: (counts: string): string => {
    const dash = counts.indexOf("–");
    return dash < 0 ? "…" : `…${counts.slice(dash)}`;
  },
  landsOn: (words: string) => [" on “", { words }, "”"] as const,
  called: <T>(calls: readonly T[]): readonly [string, ...(T | string)[]] => [
    "called ",
    "“",
    ...calls.flatMap((call, index) => (index === 0 ? [call] : [" · ", call])),
    "”",
  ],
  /** Calls that follow each other: "step · close · step". */
  calls: (calls: readonly string[]): string => calls.join(" · "),
  calledOver: (calls: readonly string[]): string => `Called: “${calls.join(" · ")}” `,
  nowFacing: (facing: Facing): string => `now facing ${facing}`,
  aside: (notes: readonly string[]): string => ` (${notes.join(", ")})`,

  /* When a section is danced again. */

  inARow: (times: number): string => `${times} × in a row`,
  inAll: (times: number): string => `${times} × in all`,
  againAt: (times: readonly string[]): string => `again at ${times.join(", ")}`,
  everyTime: (walls: number): string => `every ${noun(walls)}`,
  onlyTimes: (walls: number, numbers: readonly number[]): string =>
    numbers.length === 1 ? `${noun(walls)} ${numbers[0]} only` : `${noun(walls)}s ${numbers.join(", ")}`,

  /* Its signs. */

  accent: "accent",
  hit: "hit",
  caution: "caution",
  /** What the signs mean, each beside its own. */
  legend: {
    accent: "accent",
    hit: "lands hard",
    caution: "caution",
    inverted: "upside down",
    otherSide: "other side",
    goesOn: "goes on below",
    facing: "facing from here on, seen from above (audience at the top)",
  },

  /* How one run goes. */

  order: {
    title: "How it runs",
    /** "0:12.4 Verse (other side, then wait 2.0 s)" */
    step: (time: string | undefined, section: string, asides: readonly string[]): string =>
      `${time === undefined ? "" : `${time} `}${section}${asides.length > 0 ? ` (${asides.join(", ")})` : ""}`,
    otherSide: "other side",
    stopAfter: (counts: number): string => `stop after ${counts} counts`,
    /** @param seconds absent where the tempo before it is an estimate: the track knows better */
    wait: (seconds: number | undefined): string =>
      seconds === undefined ? "then wait for the music" : `then wait ${seconds.toFixed(1)} s`,
    fromTheTop: "from the top",
    repeated: (step: string, times: number): string => `${step} × ${times}`,
  },

  /* The notes. */

  /** "Flood, 7–8": counts of a group's own. */
  whose: (group: string): string => `${group}. `,
  teachingNotes: "Teaching notes",
  /** A name at the head of what is said of it. */
  leading: (name: string): string => (/[.!?:…]$/.test(name) ? name : `${name}.`),
  phrase: (number: number): string => `Phrase ${number}`,
  choice: <T>(ways: readonly T[]) =>
    ["Your choice: ", ways.map((way, index) => [index === 0 ? "" : ", or ", way] as const)] as const,
  gear: "What to bring",
  /** Whose an item is where not all need it: "for level 3" */
  neededBy: (versions: string): string => `for ${versions}`,
  usedFor: (places: string): string => `for ${places}`,
  /** "phrase 2: 4", or "count 4" in a section of one phrase */
  inPhrase: (phrase: number | undefined, counts: readonly string[]): string =>
    `${phrase === undefined ? plural(/^\d+$/.test(counts.join()) ? 1 : 2, "count", "counts") : `phrase ${phrase}:`} ${counts.join(", ")}`,
  practice: {
    title: "Practice speeds",
    columns: ["Speed", "Counts a minute", "One run"],
    narrow: ["Speed", "A minute", "One run"],
    /* Of what is never danced slowly. */
    markIt: "Never slowly. Below full tempo only mark these, so that nobody goes up or drops, or dance an easier way: ",
    marked: (moves: readonly { readonly label: string; readonly places: string }[]): string =>
      `${moves.map(({ label, places }) => `${places} (${label})`).join("; ")}.`,
  },
  percent: (percent: number): string => `${percent} %`,
  floorPlan: "Floor plan",
  ownNotes: "My notes",
  /** Before an entry of a list of things to do. */
  task: (done: boolean): string => (done ? "(done) " : "(to do) "),

  /* In large print, where signs and figures stand in sentences. */

  large: {
    version: (version: string): string => `${version}.`,
    /** The name of a caution before its sentence. */
    sentence: (name: string): string => `${capital(name)}. `,
    /** Over what there is to know beside the counts. */
    aboutTitle: "About this dance",
    about: (choreographer: string, song: string | undefined): string =>
      `Choreography: ${choreographer}${song === undefined ? "" : `, ${song}`}.`,
    fact: (label: string): string => `${label}: `,
    counts: "Counts",
    size: (counts: number, run: string, tempo: string): string => `${counts} in ${run}, ${tempo} a minute`,
    countIn: "Counts in",
    firstCount: (countIn: number, firstCount: string | undefined): string =>
      firstCount === undefined ? String(countIn) : `${countIn}; the first count is at ${firstCount} in the track`,
    called: (calls: readonly string[]): string => `called “${calls.join(" · ")}”`,
  },
};

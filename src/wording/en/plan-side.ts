import { type DancedKind, type LoadPart, neverSlowed } from "../../routine/vocabulary.js";
import { capital, counted, list } from "./language.js";
import {
  before,
  type CalledMove,
  cueIn,
  type Danced,
  inPieces,
  keepSafe,
  type OptionCues,
  partName,
  plan,
  type SectionEnd,
  sectionName,
  through,
  unit,
  until,
} from "./plan.js";
import { risks } from "./risks.js";
import { versions } from "./versions.js";

/** A row of dancing in groups, which is dancing where two rows are one. */
const inGroups = "In groups";

/** What a step says on the plan's side: nothing but what tells it from the others. */
export type Short = (step: Pick<Danced, "speed" | "runs" | "improvised" | "groups">) => string;

const pace = (speed: number): string => (speed === 100 ? "full" : String(speed));
const times = (runs: number): string => (runs > 1 ? ` × ${runs}` : "");
const atPace: Short = ({ speed, runs }) => `${pace(speed)}${times(runs)}`;

/** "60 (52.8)", "full (88) × 2" */
const exactly = ({ speed, tempo, runs }: Danced): string =>
  `${pace(speed)}${tempo === undefined ? "" : ` (${tempo})`}${times(runs)}`;

/** Said of a run of the song that has something with a caution in it. */
const safely = ({ risky }: Danced): string => (risky ? ` ${keepSafe}` : "");

/** "Level 3: “Handstand” (5–8). Take care: upside down. Never slowed; have ready: a mat." */
function optionIn(
  of: Pick<Danced, "names">,
  { versions: ids, groups = [], moves, cautions }: OptionCues,
  whole: boolean,
): string {
  const whose = [list(ids.map(versions.name)), ...groups].join(", ");
  const what =
    moves === undefined
      ? "all of it in its own version"
      : whole
        ? moves.map(cueIn(of)).join(", ")
        : "as in its handout";
  const moment = cautions.filter((risk) => neverSlowed.includes(risk));
  const care = cautions.length === 0 ? "" : ` Take care: ${list(cautions.map(risks.label))}.`;
  const ready = moment.length === 0 ? "" : ` Never slowed; have ready: ${risks.asks(moment)}.`;
  return `${whose}: ${what}.${care}${ready}`;
}

/** A class plan on one side of paper, and its details. */
export const planSide = {
  title: "The class plan",
  /** After the title of the class. */
  of: ", class plan",
  continued: "(continued)",
  heads: { clock: "Clock", from: "From", what: "What", how: "How, speeds in % of the tempo", minutes: "Min" },
  /** The last row: all minutes together. */
  end: "End",
  caution: "caution",
  /** Under a row that names its routine, which need not be named in every one. */
  topics: {
    show: "The whole dance",
    recap: "What they know",
    teach: plan.danced,
    "from-the-top": "From the top",
    dance: "To dance",
    /** Where that is all in groups, one after the other. */
    groups: inGroups,
  },
  /** Rows that stand as one: "Harbour wall; Tag". */
  together: (one: string, other: string): string =>
    one.endsWith(other) || other === inGroups ? one : `${one}; ${other}`,
  /** What is done in an activity, a word or two a step. */
  how: {
    "show-all": (): string => "show all",
    recap: (one) => `recap ${atPace(one)}`,
    show: (): string => "show",
    mark: ({ runs }) => `mark${times(runs)}`,
    options: (): string => "options",
    detail: (): string => "hard moves",
    drill: atPace,
    again: (one) => `again ${atPace(one)}`,
    explain: ({ improvised }) => (improvised ? "theirs" : "explain"),
    link: (one) => `link ${atPace(one)}`,
    "from-the-top": (one) => `counts ${atPace(one)}`,
    "run-through": ({ runs }) => `song${times(runs)}`,
    "away-from-mirror": ({ runs }) => `no mirror${times(runs)}`,
    mirrored: ({ runs }) => `other side${times(runs)}`,
    groups: ({ groups, runs }) => `${groups} groups${times(runs)}`,
  } satisfies Record<DancedKind, Short>,
  steps: (words: readonly string[]): string => words.map((word) => word.replaceAll(" ", "\u00a0")).join("\u00a0· "),
  /** "Upside down (level 3)" */
  cautions: (names: readonly string[]): string => names.join(", "),
  /** Whole minutes of an activity; of a shorter one that it is no minute. */
  minutes: (minutes: number): string => (minutes === 0 ? "–" : String(minutes)),

  /* Over the table. */

  fits: "Everything fits.",
  tooLong: (minutes: number, upTo: SectionEnd | undefined): string =>
    `Not everything fits, ${counted(minutes, "minute", "minutes")} too few: ${upTo ? `this goes as far as the end of ${plan.endName(upTo)}.` : "not even the first section fits whole."}`,
  /** A limit that changed something, or that is not kept. */
  limit({ part, limit, preset = false, before: times, after, kept }: Limit): string {
    const whose = preset ? "our planning default" : "the library's limit";
    return kept
      ? `${partName(part)} ${after} in place of ${times} (${whose}: ${limit})`
      : `${partName(part)} ${after}, over ${whose} of ${limit}`;
  },
  /** Of those who take the highest level that is offered. */
  limitOffered: ({ part, limit, after, kept, before: times }: Limit): string =>
    kept
      ? `${partName(part)} at the highest level ${after} in place of ${times}`
      : `${partName(part)} at the highest level ${after}, over ${limit}`,
  limits: "Limits: ",
  layOut: "Lay out: ",
  listed: (items: readonly string[]): string => `${items.join("; ")}.`,

  /* The details. */

  details: {
    title: "The plan in detail",
    brackets: "In brackets after a speed: counts a minute.",
    noCalls: "What is called stands in the handouts.",
    steps: {
      "show-all": ({ runs }) => `show all of it with the song${times(runs)}`,
      recap: (one) =>
        `dance what they know at ${exactly(one)}, and put right what has gone${one.entries.map((entry) => `; stop before “${sectionName(entry)}”, since what comes before it is left out, and begin it anew, ${entry.stance}`).join("")}`,
      show: (one) => `show ${exactly(one)}`,
      mark: (one) => `mark ${exactly(one)}`,
      drill: exactly,
      again: (one) =>
        one.before
          ? `it is ${before(one.before, unit(one.names[0]))}: say so, dance ${exactly(one)}`
          : `again ${exactly(one)}`,
      link: (one) => `link ${one.names.slice(0, 1).map(plan.danced).join("")} into it ${exactly(one)}`,
      "from-the-top": (one) => `on the counts${until(one)}${through(one)} ${exactly(one)}`,
      "run-through": (one) => `song${until(one)}${through(one)}${times(one.runs)}.${safely(one)}${inPieces(one)}`,
      "away-from-mirror": (one) => `away from the mirror${until(one)}${through(one)} ${exactly(one)}.${safely(one)}`,
      mirrored: (one) => `other side${until(one)}${through(one)} ${exactly(one)}`,
      groups: (one) =>
        `in ${one.groups} groups with the song${until(one)}${through(one)}${times(one.runs)}.${safely(one)}${inPieces(one)}`,
    } satisfies Partial<Record<DancedKind, (one: Danced) => string>>,
    /** Steps that follow each other; what holds for several of them is said behind the last. */
    sentence(steps: readonly string[]): string {
      const last = steps.findLastIndex((step) => step.includes(keepSafe));
      return steps
        .map((step, index) => (index < last ? step.replace(`. ${keepSafe}`, "") : step))
        .join(" · ")
        .replace(/\. · (\p{L})/gu, (_, letter: string) => `. ${capital(letter)}`)
        .replace(/[^.]$/, "$&.");
    },
    options: "Options",
    /** What those of other versions dance, or where they find it; and always what they take care of. */
    optionsOf: (one: Pick<Danced, "names" | "options">, whole: boolean): string =>
      one.options.map((each) => optionIn(one, each, whole)).join(" "),
    hard: "Hard",
    hardOf: (one: Danced): string =>
      `${one.moves.map(cueIn(one)).join(", ")}, each at ${exactly(one)}.${one.speed < 100 || one.asks === "" ? "" : ` Never slowed. Have ready: ${one.asks}.`}`,
    call: "Call",
    /** No line ends between the counts and what is called on them, nor begins with what parts them. */
    callOf: (calls: readonly CalledMove[]): string =>
      plan
        .call(calls)
        .instruction.replace(/(?<=^|[·/] )(\S+) /gu, "$1\u00a0")
        .replace(/ (?=[·/] )/gu, "\u00a0"),
    load: "Load",
    takeCare: "Take care:",
    careOf: (cautions: readonly string[]): string => `${list(cautions)}.`,
  },
};

export interface Limit {
  readonly part: LoadPart;
  readonly limit: number;
  readonly preset?: boolean;
  readonly before: number;
  readonly after: number;
  readonly kept: boolean;
}

import { plainWords } from "../../hearing/plain-words.js";
import type { Draft, Told } from "../../hearing/types.js";
import type { Wording } from "../../wording/wording.js";
import { phraseLines } from "./phrase-lines.js";
import { mostRemarks, saidRemark, toldAlone, toldText } from "./remarks.js";
import { type Sheet, wholeWithin } from "./sheet.js";
import { remark, scalar } from "./yaml-text.js";

/** Seconds; the longest recording that is listened to. */
const longest = 10 * 60 * 60;

export interface Credit {
  readonly title: string;
  readonly choreographer: string;
}

/**
 * A draft as the text of a routine file, which our own reader takes without an error as long as it takes the title and the
 * choreographer.
 */
export function draftText(draft: Draft, sheet: Sheet, credit: Credit, wording: Wording): string {
  const { head } = wording.draft;
  return [
    "---",
    "# yaml-language-server: $schema=../schemas/routine.schema.json",
    ...head(draft.length).map(remark),
    `title: ${scalar(credit.title)}`,
    `choreographer: ${scalar(credit.choreographer)}`,
    "draft: yes",
    `doubt: ${scalar(sheet.doubt)}`,
    "",
    ...musicLines(draft, sheet, wording),
    ...videoLines(draft, sheet, wording),
    ...startLines(draft, wording),
    ...gearLines(draft, wording),
    ...toldLines(draft.told, sheet, wording),
    "sections:",
    ...sheet.sections.flatMap(({ name, phrases }) => [
      `  - name: ${scalar(name)}`,
      "    counts:",
      ...phrases.flatMap((phrase) => phraseLines(phrase, sheet, wording)),
    ]),
    "---",
    "",
  ].join("\n");
}

function musicLines(draft: Draft, sheet: Sheet, wording: Wording): readonly string[] {
  const { tempoRemark } = wording.draft;
  const counts = new Set(draft.accents.counts.flatMap((count) => wholeWithin(count, 1, sheet.phrase) ?? []));
  const accents = [...counts].sort((a, b) => a - b).join(", ");
  const countIn = wholeWithin(draft.countIn, 0, 64);
  return [
    "music:",
    `  tempo: about ${sheet.tempo}${sheet.tempoAt === undefined ? "" : `  ${remark(tempoRemark(sheet.tempoAt))}`}`,
    ...(sheet.phrase === 8 ? [] : [`  phrase: ${sheet.phrase}`]),
    ...(accents === "" ? [] : [`  accents: [${accents}]${saidRemark(draft.accents.said, wording)}`]),
    ...(countIn === undefined ? [] : [`  count-in: ${countIn}`]),
    "",
  ];
}

/** Chapters in the order in which the parts are taught, the first at the beginning, and where the recording ends. */
function videoLines({ length }: Draft, { sections }: Sheet, { draft }: Wording): readonly string[] {
  const taught = new Map<number, string[]>();
  for (const { name, taughtAt } of [...sections].sort((a, b) => a.taughtAt - b.taughtAt)) {
    const at = wholeWithin(Math.floor(taughtAt), 0, longest);
    if (at !== undefined) taught.set(at, [...(taught.get(at) ?? []), name]);
  }
  const end = wholeWithin(Math.ceil(length), Math.max(1, ...[...taught.keys()].map((at) => at + 1)), longest + 1);
  if (end === undefined) return [];
  // Of one part that begins with the recording a chapter would say nothing.
  const chapters = [...(taught.has(0) ? [] : [[0, [draft.beginning]] as const]), ...taught];
  return [
    "video:",
    `  length: ${yamlClock(end)}`,
    ...(chapters.length < 2 ? [] : ["  chapters:", ...chapters.map(chapterLine)]),
    "",
  ];
}

function chapterLine([at, names]: readonly [number, readonly string[]]): string {
  return `    - ${scalar(`${yamlClock(at)} ${names.join(", ").slice(0, 200)}`)}`;
}

/** A time as a routine file writes it, in whole seconds: not for people alone, so in no language. */
function yamlClock(seconds: number): string {
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
  const two = (number: number) => String(number).padStart(2, "0");
  return `${hours > 0 ? `${hours}:${two(minutes)}` : minutes}:${two(seconds % 60)}`;
}

function startLines({ start }: Draft, wording: Wording): readonly string[] {
  const keys = (["facing", "weight", "height"] as const).flatMap((key) => {
    const told = start[key];
    return told === undefined ? [] : [`  ${key}: ${told.value}${saidRemark(told.said, wording)}`];
  });
  return keys.length === 0 ? [] : ["start:", ...keys, ""];
}

function gearLines({ gear }: Draft, wording: Wording): readonly string[] {
  const items = new Map<string, string>();
  for (const { item, need, said } of gear) {
    const name = plainWords(item, 60);
    if (name !== "" && !items.has(name.toLowerCase()))
      items.set(name.toLowerCase(), `  - { item: ${scalar(name)}, need: ${need} }${saidRemark(said, wording)}`);
  }
  return items.size === 0 ? [] : ["gear:", ...items.values(), ""];
}

function toldLines(told: readonly Told[], { timed }: Sheet, wording: Wording): readonly string[] {
  if (told.length === 0) return [];
  return [...told.slice(0, mostRemarks).map((one) => remark((timed ? toldText : toldAlone)(one, wording))), ""];
}

import type { Library, Routine } from "../../routine/routine.js";
import { neverSlowed, type Risk } from "../../routine/vocabulary.js";
import type { Calls, ShownOption } from "../../teaching/call-lines.js";
import type { RecordingPlan } from "../../teaching/recording.js";
import type { Take } from "../../teaching/take.js";
import { type Wording, wordingOf } from "../../wording/wording.js";
import { aloud } from "./aloud.js";

/** A breakdown video as plain text: what follows what in it, with what is said and called; in takes, the order of shooting after that. */
export function takesText(plan: RecordingPlan, routine: Routine, library: Library): string {
  const wording = wordingOf(library.language);
  const { takes: said, time } = wording;
  const { title, takes, setups, videoSeconds, daySeconds, settings } = plan;
  const { style, takes: again } = settings.recording;
  return [
    said.title(title),
    ...said.summary({ style, takes: takes.length, setups: setups.length, again }, videoSeconds, daySeconds),
    said.framing,
    "",
    said.finished(time.clock(videoSeconds)),
    ...takes.flatMap((take) => takeLines(take, plan, routine, library)),
    ...(style === "one-go" ? [] : ["", said.shooting(time.clock(daySeconds))]),
    ...setups.flatMap(({ camera, takes: numbers, seconds }) =>
      camera === undefined ? [] : [said.setup(said.cameras[camera], numbers, time.clock(seconds))],
    ),
    "",
  ].join("\n");
}

/** A take with its place in the video, and below it what is said, called and shown. */
function takeLines(take: Take, plan: RecordingPlan, routine: Routine, library: Library): readonly string[] {
  const wording = wordingOf(library.language);
  const { takes: said, plan: planned, time } = wording;
  const { number, start, kind, names, sections, calls, options, speed, runs } = take;
  const { label, instruction: what } = said.kinds[kind]({
    title: plan.title,
    names,
    sections,
    runs,
    ...(take.times !== undefined && { times: take.times }),
  });
  const { without } = take;
  const ready = kind === "hard" && speed === 100 ? readyFor(take.cautions, wording) : undefined;
  const instruction = [
    ...(what === "" ? [] : [what]),
    ...(ready === undefined ? [] : [said.neverSlowed(ready)]),
    ...(without === undefined ? [] : [kind === "explain" ? planned.without({ names }, without) : planned.withoutAgain]),
  ].join(" ");
  return [
    `${number}. ${time.clock(start)} ${label}${speed === undefined ? "" : said.speed(speed)}.${instruction && ` ${instruction}`}`,
    ...aloud(take, routine, library, wording).map((sentence) => said.line(said.aloud.quoted(sentence))),
    ...calls.flatMap((own) => phrasesIn(own, take, routine)).map((phrase) => said.line(said.call(phrase))),
    ...options.map((option) => said.line(optionLine(option, take, plan, routine, wording))),
  ];
}

/** Calls phrase by phrase, what leads in first; which phrase it is is said where the section has several. */
function phrasesIn({ group, moves }: Calls, { names }: Take, { sections, music }: Routine) {
  const name = names.at(-1)?.section;
  const several = sections.some((section) => section.name === name && section.phrases.length > 1);
  const key = ({ pickUp, phrase }: Calls["moves"][number]) => JSON.stringify([pickUp, phrase]);
  return [...new Map(moves.map((move) => [key(move), move])).values()].map((first) => ({
    ...{ phrase: first.phrase, moves: moves.filter((one) => key(one) === key(first)) },
    ...(first.pickUp !== undefined && { pickUp: first.pickUp }),
    ...(several && { of: music.phrase }),
    ...(group !== undefined && { group }),
  }));
}

/** What has to be there for what is never slowed; undefined where there is nothing of that. */
function readyFor(cautions: readonly Risk[], { risks }: Wording): string | undefined {
  const moment = cautions.filter((risk) => neverSlowed.includes(risk));
  return moment.length === 0 ? undefined : risks.asks(moment);
}

function optionLine(
  { version: id, groups, moves, whole, cautions }: ShownOption,
  take: Take,
  { levels }: RecordingPlan,
  routine: Routine,
  wording: Wording,
): string {
  const { takes: said, risks } = wording;
  const version = { id, level: levels.includes(id), groups };
  return said.option(
    version,
    whole ? [] : phrasesIn({ moves }, take, routine),
    cautions.map(risks.label),
    readyFor(cautions, wording),
  );
}

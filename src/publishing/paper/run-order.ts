import { shownTrackTime } from "../../routine/clock.js";
import type { DancedSection, Routine } from "../../routine/routine.js";
import { sheetSections } from "../../routine/sheet.js";
import { type Block, textBlock } from "../../typesetting/block.js";
import type { Wording } from "../../wording/wording.js";
import { bold, bullet, type NoteStyle, plain, under } from "./note-style.js";

/** How one run goes where it is more than the sheet's sections one after the other: repeats, walls, tags, restarts. */
export function orderBlocks(routine: Routine, style: NoteStyle): readonly Block[] {
  const { sections, times, walls } = routine;
  const { print, run } = style.wording;
  const printed = sheetSections(routine);
  if (isSheetsOrder(routine)) return [];
  const counts = new Map(
    printed.flatMap(({ section, danced }) => danced.map((index) => [index, sections[section]?.counts ?? 0] as const)),
  );
  const steps = Array.from({ length: times }, (): RunStep[] => []);
  for (const [index, section] of sections.entries())
    steps[section.wall - 1]?.push(stepOf(routine, section, index, counts.get(index) ?? section.counts, style.wording));
  const broken = brokenOff(routine);
  const ways = steps.map((round, index) =>
    [...collapse(round, style.wording), ...(broken.has(index + 1) ? [print.order.fromTheTop] : [])].join(" · "),
  );
  const blocks = runsOf(ways).map(({ way, from, to }) => {
    const label = times > 1 ? `${print.opening(run.times(walls, from, to))} ` : "";
    const spans = [bold(label), plain(way)];
    // One time through is no list.
    return times > 1 ? bullet(spans, style) : textBlock(spans, style);
  });
  return under(print.order.title, blocks, style);
}

/** Times through that follow each other and are alike, from 1. */
function runsOf(
  ways: readonly string[],
): readonly { readonly way: string; readonly from: number; readonly to: number }[] {
  const runs: { way: string; from: number; to: number }[] = [];
  for (const [index, way] of ways.entries()) {
    const last = runs.at(-1);
    if (last?.way === way) last.to = index + 1;
    else runs.push({ way, from: index + 1, to: index + 1 });
  }
  return runs;
}

/**
 * Whether every time through has the sheet's sections in the sheet's order, which says how often each is danced in a row; where there is
 * but one pass of each, the sheet says as well where the music is waited for.
 */
export function isSheetsOrder(routine: Routine): boolean {
  const printed = sheetSections(routine);
  const entryOf = new Map(printed.flatMap(({ danced }, entry) => danced.map((index) => [index, entry] as const)));
  const rounds = Array.from({ length: routine.times }, (): number[] => []);
  for (const [index, { wall }] of routine.sections.entries()) rounds[wall - 1]?.push(entryOf.get(index) ?? -1);
  const once = rounds.length === 1 && routine.sections.length === printed.length;
  const plain = routine.restarts.length === 0 && (once || !waits(routine));
  const inOrder = (round: readonly number[]) => {
    const passes = round.filter((entry, at) => entry !== round[at - 1]);
    return passes.length === printed.length && passes.every((entry, at) => entry === at);
  };
  return plain && rounds.every(inOrder);
}

const waits = (routine: Routine): boolean =>
  routine.sections.some((section, index) => waitAfter(routine, section, index) > 0);

/** "then wait 2.0 s", where the music is waited for after a section; an empty text where it is not, or the order of the run says so. */
export function waitText(routine: Routine, index: number, { print }: Wording): string {
  const section = routine.sections[index];
  if (section === undefined || !isSheetsOrder(routine)) return "";
  const wait = waitAfter(routine, section, index);
  return wait > 0 ? print.order.wait(waited(section, wait)) : "";
}

/** How long the music is waited for; absent where the tempo before it is an estimate. */
function waited({ startIsEstimate, tempoIsEstimate }: DancedSection, wait: number): number | undefined {
  return startIsEstimate || tempoIsEstimate ? undefined : wait;
}

/** The times through that end before a section that most of them have: each is broken off, and the next one begins. */
function brokenOff({ sections, times }: Routine): ReadonlySet<number> {
  const roundsWith = new Map<number, Set<number>>();
  const lastIn = new Map<number, number>();
  for (const { written, wall } of sections) {
    const rounds = roundsWith.get(written) ?? new Set();
    roundsWith.set(written, rounds.add(wall));
    lastIn.set(wall, Math.max(written, lastIn.get(wall) ?? 0));
  }
  const usual = [...roundsWith].filter(([, rounds]) => rounds.size * 2 > times).map(([written]) => written);
  const last = Math.max(...usual);
  return new Set([...lastIn].filter(([round, own]) => round < times && own < last).map(([round]) => round));
}

/** A section as a step of a run, from when it starts in the track, where that is known. */
interface RunStep {
  readonly time: string | undefined;
  readonly name: string;
  readonly asides: readonly string[];
}

/** @param whole counts of the section where it is not broken off */
function stepOf(
  routine: Routine,
  section: DancedSection,
  index: number,
  whole: number,
  { print, time }: Wording,
): RunStep {
  const wait = waitAfter(routine, section, index);
  const asides = [
    ...(section.mirrored ? [print.order.otherSide] : []),
    ...(section.counts < whole ? [print.order.stopAfter(section.counts)] : []),
    ...(wait > 0 ? [print.order.wait(waited(section, wait))] : []),
  ];
  const start = shownTrackTime(routine, section.start);
  return { time: start && time.track(start), name: section.name, asides };
}

/** Seconds between the end of a section and the next one's start. */
function waitAfter(routine: Routine, section: DancedSection, index: number): number {
  const next = routine.sections[index + 1];
  return next === undefined ? 0 : Math.max(0, next.start.sub(section.end).valueOf());
}

/** The same step several times in a row is one step "× 2", at its first time. */
function collapse(steps: readonly RunStep[], { print: { order } }: Wording): readonly string[] {
  const runs: { readonly step: RunStep; times: number }[] = [];
  for (const step of steps) {
    const last = runs.at(-1);
    const same = last?.step.name === step.name && last.step.asides.join() === step.asides.join();
    if (last !== undefined && same) last.times += 1;
    else runs.push({ step, times: 1 });
  }
  return runs.map(({ step: { time, name, asides }, times }) => {
    const text = order.step(time, name, asides);
    return times > 1 ? order.repeated(text, times) : text;
  });
}

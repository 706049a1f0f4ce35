import type { DancedSection, Routine } from "../../routine/routine.js";
import { sheetSections } from "../../routine/sheet.js";
import { trackText, trackTime } from "../figures.js";
import { timeThrough } from "./bands.js";
import type { Block } from "./block.js";
import { bold, bullet, capital, type NoteStyle, plain, under } from "./notes.js";

/** How one run goes where it is more than each section once: repeats, walls, tags, restarts, waits. */
export function orderBlocks(routine: Routine, style: NoteStyle): readonly Block[] {
  const { sections, times } = routine;
  const waits = sections.some((section, index) => waitAfter(routine, section, index) > 0);
  if (sections.length === sheetSections(routine).length && !waits) return [];
  const rounds = Array.from({ length: times }, (_, index) => index + 1);
  const blocks = rounds.map((round) => {
    const label = times > 1 ? `${capital(timeThrough(routine, round))} ` : "";
    const steps = sections.flatMap((section, index) =>
      section.wall === round ? [stepText(routine, section, index)] : [],
    );
    const again = breaksOff(routine, round) ? ["from the top"] : [];
    return bullet([bold(label), plain([...collapse(steps), ...again].join(" · "))], style);
  });
  return under("How it runs", blocks, style);
}

/** Whether a time through ends before a section that most of them have: it is broken off, and the next one begins. */
function breaksOff({ sections, times }: Routine, round: number): boolean {
  if (round === times) return false;
  const walls = (written: number) =>
    new Set(sections.filter((one) => one.written === written).map(({ wall }) => wall)).size;
  const last = Math.max(...sections.filter(({ written }) => walls(written) * 2 > times).map(({ written }) => written));
  const own = sections.filter(({ wall }) => wall === round);
  return Math.max(...own.map(({ written }) => written)) < last;
}

function stepText(routine: Routine, section: DancedSection, index: number): string {
  const printed = sheetSections(routine).find(({ danced }) => danced.includes(index));
  const whole = routine.sections[printed?.section ?? index]?.counts ?? section.counts;
  const wait = waitAfter(routine, section, index);
  const asides = [
    ...(section.mirrored ? ["other side"] : []),
    ...(section.counts < whole ? [`stop after ${section.counts} counts`] : []),
    ...(wait > 0 ? [`then wait ${wait.toFixed(1)} s`] : []),
  ];
  const time = trackText(trackTime(routine, section.start));
  return `${time} ${section.name}${asides.length > 0 ? ` (${asides.join(", ")})` : ""}`;
}

/** Seconds between the end of a section and the next one's start. */
function waitAfter(routine: Routine, section: DancedSection, index: number): number {
  const next = routine.sections[index + 1];
  return next === undefined ? 0 : Math.max(0, next.start.sub(section.end).valueOf());
}

/** The same step several times in a row is one step "× 2", at its first time. */
function collapse(steps: readonly string[]): readonly string[] {
  const runs: { text: string; name: string; times: number }[] = [];
  for (const text of steps) {
    const name = text.slice(text.indexOf(" ") + 1);
    const last = runs.at(-1);
    if (last?.name === name) last.times += 1;
    else runs.push({ text, name, times: 1 });
  }
  return runs.map(({ text, times }) => (times > 1 ? `${text} × ${times}` : text));
}

import type { DancedSection, Routine } from "../../routine/routine.js";
import { sheetSections } from "../../routine/sheet.js";
import type { Block } from "../../typesetting/block.js";
import { trackText, trackTime } from "../figures.js";
import { timeThrough } from "./bands.js";
import { bold, bullet, capital, type NoteStyle, plain, under } from "./notes.js";

/** How one run goes where it is more than each section once: repeats, walls, tags, restarts, waits. */
export function orderBlocks(routine: Routine, style: NoteStyle): readonly Block[] {
  const { sections, times } = routine;
  const printed = sheetSections(routine);
  const waits = sections.some((section, index) => waitAfter(routine, section, index) > 0);
  if (sections.length === printed.length && !waits) return [];
  const counts = new Map(
    printed.flatMap(({ section, danced }) => danced.map((index) => [index, sections[section]?.counts ?? 0] as const)),
  );
  const steps = Array.from({ length: times }, (): string[] => []);
  for (const [index, section] of sections.entries())
    steps[section.wall - 1]?.push(stepText(routine, section, index, counts.get(index) ?? section.counts));
  const broken = brokenOff(routine);
  const blocks = steps.map((texts, index) => {
    const round = index + 1;
    const label = times > 1 ? `${capital(timeThrough(routine, round))} ` : "";
    const again = broken.has(round) ? ["from the top"] : [];
    return bullet([bold(label), plain([...collapse(texts), ...again].join(" · "))], style);
  });
  return under("How it runs", blocks, style);
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

function stepText(routine: Routine, section: DancedSection, index: number, whole: number): string {
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

import type { Alternative, Routine, Version } from "../../routine/routine.js";
import type { Span } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import type { GridCell } from "./bands.js";
import { cueSpans } from "./cue-spans.js";

/** What a neighbouring level dances in place of a move. */
export interface CellOption {
  readonly level: string;
  /** Whether it is the next harder level, not the next easier one. */
  readonly harder: boolean;
  /** In the move's own cell: whose it is and what. */
  readonly text: readonly Span[];
  /** In a line for the whole row: on which counts and what. */
  readonly listed: readonly Span[];
  /** Whether it fills just the counts of the move. */
  readonly same: boolean;
}

/** What the neighbours dance in place of a move, the easier one first. */
export type OptionsOf = (cell: GridCell) => readonly CellOption[];

/** For who is shown no other way. */
export const noOptions: OptionsOf = () => [];

/**
 * The options of the next easier and the next harder level, or of the easier one alone. An adaptation has no neighbours and is none: it
 * has a sheet of its own.
 */
export function neighbourOptions(
  { levels, taught }: Routine,
  { id }: Version,
  wording: Wording,
  neighbours: "both" | "easier" = "both",
): OptionsOf {
  const own = levels.indexOf(id);
  const home = levels.indexOf(taught);
  const next = neighbours === "both" ? [own - 1, own + 1] : [own - 1];
  const ways = own < 0 ? [] : next.flatMap((index) => (levels[index] === undefined ? [] : [index]));
  if (ways.length === 0) return noOptions;
  // Where a level has no option it dances as the next level towards the taught one.
  const lines = ways.map((index) =>
    index <= home ? levels.slice(index, home + 1) : levels.slice(home, index + 1).toReversed(),
  );
  return (cell) => {
    const { move } = cell;
    if (move.alternatives.length === 0) return [];
    const mine = move.option ?? taught;
    return lines.flatMap((line, index): readonly CellOption[] => {
      const danced = line.find((one) => one === mine || move.alternatives.some(({ version }) => version === one));
      if (danced === mine) return [];
      const others = move.alternatives.filter(({ version }) => version === danced);
      const harder = ways[index] === own + 1;
      return others.map((other) => optionOf(cell, { level: line[0] ?? "", harder }, other, wording));
    });
  };
}

function optionOf(
  { move, text: { late } }: GridCell,
  { level, harder }: Pick<CellOption, "level" | "harder">,
  { moves }: Alternative,
  wording: Wording,
): CellOption {
  const { counts, print, risks } = wording;
  const label = (on: string): readonly Span[] => {
    if (late === undefined) return [{ text: `${counts.span(on)} `, style: "bold" }];
    return [...(on === move.on ? late : [{ text: print.ownCount(counts.span(on)).trimStart() }]), { text: " " }];
  };
  const ways = moves.map(({ on, cue, improvised, risks: met }) => ({
    on: on === "" ? move.on : on,
    said: [
      ...(improvised ? [{ text: print.own, style: "italic" } as const] : []),
      ...cueSpans(cue, wording).map((span): Span => ({ ...span, style: span.style === "bold" ? "bold" : "italic" })),
      ...(met.length === 0 ? [] : [{ text: print.aside(met.map(risks.label)) }]),
    ],
  }));
  const listed = ways.flatMap(({ on, said }, index) => [
    ...(index === 0 ? [] : [{ text: "; " }]),
    ...label(on),
    ...said,
  ]);
  const same = ways.length === 1 && ways[0]?.on === move.on;
  const name = levelName(level, harder, wording);
  return { level, harder, same, listed, text: [name, ...(same ? (ways[0]?.said ?? []) : listed)] };
}

/** The same in one text for a whole row, level by level, the easier one first. */
export function optionsText(options: readonly CellOption[], wording: Wording): readonly Span[] {
  const easierFirst = [...options].sort((one, other) => Number(one.harder) - Number(other.harder));
  const levels = new Map(easierFirst.map(({ level, harder }) => [level, harder]));
  return [...levels].flatMap(([level, harder], at): readonly Span[] => [
    ...(at === 0 ? [] : [{ text: wording.print.between }]),
    levelName(level, harder, wording),
    ...options
      .filter((one) => one.level === level)
      .flatMap(({ listed }, index) => [...(index === 0 ? [] : [{ text: "; " }]), ...listed]),
  ]);
}

/** Only the easier way stands out: it is the one that is looked for in a hurry. */
function levelName(level: string, harder: boolean, { print, versions }: Wording): Span {
  return { text: print.levelDances(versions.name(level), harder), ...(harder ? {} : { style: "bold" }) };
}

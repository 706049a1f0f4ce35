import { wholeRun } from "../../routine/clock.js";
import type { Routine, Version } from "../../routine/routine.js";
import { neverSlowed } from "../../routine/vocabulary.js";
import { type Block, textBlock, wholeBlock } from "../../typesetting/block.js";
import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import { leading, textWidth, wrap } from "../../typesetting/text.js";
import { bold, type NoteStyle, plain, under } from "./note-style.js";
import { placesOf, printedSections } from "./printed-moves.js";

/** Practice speeds as a table: per cent, counts a minute, time of one run; and what is only marked below full tempo. */
export function practiceBlocks(routine: Routine, version: Version, style: NoteStyle): readonly Block[] {
  return [
    ...speedBlocks(routine, style),
    ...(routine.practice.length === 0 ? [] : markedBlocks(routine, version, style)),
  ];
}

/** The table alone, under its title. */
export function speedBlocks(routine: Routine, style: NoteStyle): readonly Block[] {
  if (routine.practice.length === 0) return [];
  const { print, time } = style.wording;
  const rows = routine.practice.map((speed) => [
    print.percent(speed.percent),
    time.tempo(speed),
    time.run(wholeRun(routine, speed)),
  ]);
  return under(
    print.practice.title,
    [tableBlock([style.tight === true ? print.practice.narrow : print.practice.columns, ...rows], style)],
    style,
  );
}

/** What is never danced slowly, by what it asks care for, and where. */
export function markedBlocks(routine: Routine, version: Version, style: NoteStyle): readonly Block[] {
  const { print, risks } = style.wording;
  const printed = printedSections(routine, version);
  const marked = neverSlowed.flatMap((risk) => {
    const places = placesOf(printed, style.wording, (move) => move.risks.includes(risk));
    return places === "" ? [] : [{ label: risks.label(risk), places }];
  });
  if (marked.length === 0) return [];
  return [
    textBlock([bold(print.practice.markIt), plain(print.practice.marked(marked))], {
      ...style,
      before: style.size * 0.4,
    }),
  ];
}

function tableBlock(rows: readonly (readonly string[])[], { size, width, tight = false }: NoteStyle): Block {
  const height = size * leading + (tight ? 0 : 3);
  const widest = (column: number) => Math.max(...rows.map((row) => textWidth(row[column] ?? "", size, "bold")));
  const columns = (rows[0] ?? []).map((_, column) => widest(column) + size);
  const wide = Math.min(width, size * 9.5 * columns.length);
  // As wide as their words where they would be too narrow for them in equal parts.
  const even = columns.every((one) => one <= wide / columns.length);
  const starts = columns.map((_, column) =>
    even ? (column * wide) / columns.length : columns.slice(0, column).reduce((sum, one) => sum + one, 0),
  );
  const cell = (text: string, row: number, column: number, position: Position): StructureElement => {
    const [line] = wrap([row === 0 || column === 0 ? bold(text) : plain(text)], size);
    const at = { ...position, x: position.x + (starts[column] ?? 0), y: position.y + row * height };
    const content: readonly Mark[] = line === undefined ? [] : [{ ...at, line }];
    if (row === 0) return { tag: "TH", scope: "Column", content };
    return column === 0 ? { tag: "TH", scope: "Row", content } : { tag: "TD", content };
  };
  return wholeBlock(rows.length * height, size * 0.4, (position) => ({
    tag: "Table",
    content: rows.map((texts, row) => ({
      tag: "TR",
      content: texts.map((text, column) => cell(text, row, column, position)),
    })),
  }));
}

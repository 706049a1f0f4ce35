import { wholeRun } from "../../routine/clock.js";
import type { Routine } from "../../routine/routine.js";
import { type Block, wholeBlock } from "../../typesetting/block.js";
import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import { leading, wrap } from "../../typesetting/text.js";
import { bold, type NoteStyle, plain, under } from "./note-style.js";

/** Practice speeds as a table: per cent, counts a minute, time of one run. */
export function practiceBlocks(routine: Routine, style: NoteStyle): readonly Block[] {
  if (routine.practice.length === 0) return [];
  const { print, time } = style.wording;
  const rows = routine.practice.map((speed) => [
    print.percent(speed.percent),
    time.tempo(speed),
    time.run(wholeRun(routine, speed)),
  ]);
  return under(print.practice.title, [tableBlock([print.practice.columns, ...rows], style)], style);
}

function tableBlock(rows: readonly (readonly string[])[], { size, width }: NoteStyle): Block {
  const height = size * leading + 3;
  const step = Math.min(width / (rows[0]?.length ?? 1), size * 9.5);
  const cell = (text: string, row: number, column: number, position: Position): StructureElement => {
    const [line] = wrap([row === 0 || column === 0 ? bold(text) : plain(text)], size);
    const at = { ...position, x: position.x + column * step, y: position.y + row * height };
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

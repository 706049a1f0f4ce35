import { wholeRun } from "../../routine/clock.js";
import type { Routine, Version } from "../../routine/routine.js";
import { neverSlowed } from "../../routine/vocabulary.js";
import { type Block, textBlock, wholeBlock } from "../../typesetting/block.js";
import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import { leading, wrap } from "../../typesetting/text.js";
import { bold, type NoteStyle, plain, under } from "./note-style.js";
import { placesOf, printedSections } from "./printed-moves.js";

/** Practice speeds as a table: per cent, counts a minute, time of one run; and what is only marked below full tempo. */
export function practiceBlocks(routine: Routine, version: Version, style: NoteStyle): readonly Block[] {
  if (routine.practice.length === 0) return [];
  const { print, time } = style.wording;
  const rows = routine.practice.map((speed) => [
    print.percent(speed.percent),
    time.tempo(speed),
    time.run(wholeRun(routine, speed)),
  ]);
  const blocks = [tableBlock([print.practice.columns, ...rows], style), ...markedBlocks(routine, version, style)];
  return under(print.practice.title, blocks, style);
}

/** What is never danced slowly, by what it asks care for, and where. */
function markedBlocks(routine: Routine, version: Version, style: NoteStyle): readonly Block[] {
  const { print, risks } = style.wording;
  const printed = printedSections(routine, version);
  const marked = neverSlowed.flatMap((risk) => {
    const places = placesOf(printed, style.wording, (move) => move.risks.includes(risk));
    return places === "" ? [] : [{ label: risks.label(risk), places }];
  });
  if (marked.length === 0) return [];
  const { size, width } = style;
  return [
    textBlock([bold(print.practice.markIt), plain(print.practice.marked(marked))], { size, width, before: size * 0.4 }),
  ];
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

import type { DancedPhrase } from "../../routine/routine.js";
import { anchorOfCount } from "./anchors.js";
import type { MoveView } from "./move-view.js";
import type { RowView } from "./rows-view.js";

/** Most counts that stand beside each other; a longer phrase is folded into lines of about the same length. */
const mostColumns = 8;

/** A line of the table: a phrase, or as much of a long one as stands beside each other. */
export interface LineView {
  /** How many columns the table has here. */
  readonly columns: number;
  /** What stands over the columns, an empty text over one without a count. */
  readonly numerals: readonly { readonly text: string; readonly accent: boolean }[];
  readonly cells: readonly CellView[];
}

/** Counts that no move of any version or group ties to those around them, and all that is danced on them. */
export interface CellView extends Columns {
  /** True where some of its moves say too much for their own columns, so that all stand one under the other. */
  readonly listed: boolean;
  readonly items: readonly ItemView[];
}

/** Columns that something stands in. */
interface Columns {
  /** From 1. */
  readonly column: number;
  readonly span: number;
}

/** A move, which names its first count for an address where it is the first that does; or what goes on from before. */
export type ItemView = Columns & {
  readonly row: MoveView | Pick<MoveView, "classes">;
  /** Of a move: its count's address, and whether it stands here. */
  readonly anchor?: { readonly id: string; readonly here: boolean };
};

/**
 * A phrase in the paper's columns.
 *
 * @param whole counts of a usual phrase of the routine: a shorter one, or a pick-up, keeps its columns
 * @param name the phrase's own address
 */
export function linesView(
  phrase: DancedPhrase,
  rows: readonly RowView[],
  { whole, accents, name }: { readonly whole: number; readonly accents: readonly number[]; readonly name: string },
): readonly LineView[] {
  const { columns, offset } = columnsOf(phrase, whole);
  const named = new Set<string>();
  const anchorOf = (row: ItemView["row"]) => {
    if (!("on" in row)) return {};
    const id = `${name}-${anchorOfCount(row.on)}`;
    const here = !named.has(id);
    named.add(id);
    return { anchor: { id, here } };
  };
  const count = Math.ceil(columns / mostColumns);
  const size = Math.ceil(columns / count);
  return Array.from({ length: count }, (_, index) => index * size).flatMap((left): readonly LineView[] => {
    const [from, to] = [Math.max(0, left - offset), Math.min(left - offset + size, phrase.numbers.length)];
    if (from >= to) return [];
    const cells = joined(rangesOf(rows, from, to), rows).map((range): CellView => {
      const first = left - offset;
      const at = (start: number, end: number): Columns => ({ column: start - first + 1, span: end - start });
      const items = rows.flatMap((row): readonly ItemView[] => {
        const [begin, end] = [Math.max(Math.floor(row.from), range.from), Math.min(Math.ceil(row.to), range.to)];
        if (begin >= end) return [];
        // Within the cell.
        const place = { column: begin - range.from + 1, span: end - begin };
        const begins = row.from >= range.from;
        return [begins ? { ...place, row: row.row, ...anchorOf(row.row) } : { ...place, row: goesOn(row) }];
      });
      return { ...at(range.from, range.to), listed: range.listed === true, items };
    });
    const numerals = Array.from({ length: size }, (_, column) => numeralAt(phrase, left + column - offset, accents));
    return [{ columns: size, numerals, cells }];
  });
}

const goesOn = ({ row: { classes } }: RowView): Pick<MoveView, "classes"> => ({ classes });

function numeralAt({ numbers }: DancedPhrase, index: number, accents: readonly number[]): LineView["numerals"][number] {
  // Before a pick-up stand the numbers that nobody counts there.
  const number = numbers[index] ?? (index < 0 ? (numbers[0] ?? 1) + index : undefined);
  return { text: number === undefined ? "" : String(number), accent: number !== undefined && accents.includes(number) };
}

/** A short phrase keeps the columns of a whole one, a pick-up those that its numbers name; any other has its own. */
function columnsOf({ numbers }: DancedPhrase, whole: number): { readonly columns: number; readonly offset: number } {
  const before = (numbers[0] ?? 1) - 1;
  const running = numbers.every((number, index) => number === before + index + 1);
  if (running && before + numbers.length <= whole) return { columns: whole, offset: before };
  return { columns: Math.max(whole, numbers.length), offset: 0 };
}

/** Counts from `from` up to, not including, `to`. */
interface Range {
  readonly from: number;
  readonly to: number;
  readonly listed?: boolean;
}

/** Letters that a line of a column holds at the least, and lines of one move that are not yet a pillar. */
const lettersALine = 10;
const mostLines = 16;

/** A range with a move that would stand as a pillar is joined with the next one, the last of a line with the one before. */
function joined(ranges: readonly Range[], rows: readonly RowView[]): readonly Range[] {
  const place = ranges.findIndex(({ from, to, listed }) =>
    rows.some((row) => {
      const within = Math.min(to, Math.ceil(row.to)) - Math.max(from, Math.floor(row.from));
      const columns = listed === true ? to - from : within;
      return within > 0 && row.from >= from && lettersOf(row) / (columns * lettersALine) > mostLines;
    }),
  );
  const first = Math.min(place, ranges.length - 2);
  const [one, other] = [ranges[first], ranges[first + 1]];
  if (place < 0 || one === undefined || other === undefined) return ranges;
  const both = { from: one.from, to: other.to, listed: true };
  return joined([...ranges.slice(0, first), both, ...ranges.slice(first + 2)], rows);
}

/** How much a move says that is always shown, in letters. */
function lettersOf({ row }: RowView): number {
  if (!("on" in row)) return 0;
  const { cue, say, body, note, choose, cautions, gear, otherVersions, words = "" } = row;
  const others = cautions.length > 0 ? otherVersions.flatMap(({ moves }) => moves.map((move) => move.cue)) : [];
  const parts = [cue, ...say, ...body, ...choose, ...(note ? [note] : []), ...others];
  const letters = parts.map(({ html }) => html.replace(/<span class="mirrored">.*?<\/span>|<[^>]*>/g, "").length + 8);
  const plain = [words, ...cautions, ...gear].map((text) => text.length + 8);
  return [...letters, ...plain].reduce((sum, length) => sum + length, 0);
}

/** Counts of a line that no move ties together are ranges of their own. */
function rangesOf(rows: readonly RowView[], start: number, end: number): readonly Range[] {
  const ranges: Range[] = [];
  for (let from = start, to = start + 1; from < end; from = to, to++) {
    while (to < end && rows.some((row) => row.from < to && to < row.to)) to++;
    ranges.push({ from, to });
  }
  return ranges;
}

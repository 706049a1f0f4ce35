import type { PlanRow } from "./plan-rows.js";

/** Room above and below what stands in a row: no less than `tight`, no more than `loose`. */
export const tight = 0.8;
const loose = 7;

/** A row, and the same with its routine's name, as it begins a page. */
export interface SideRow extends PlanRow {
  readonly named: () => PlanRow;
}

export const heightOf = (rows: readonly PlanRow[], padding = 0): number =>
  rows.reduce((sum, { height }) => sum + height + 2 * padding, 0);

/** The room above and below each of some rows that are to stand on one page. */
export function paddingIn(rows: readonly PlanRow[], room: number): number {
  return Math.min(loose, (room - heightOf(rows)) / (2 * Math.max(rows.length, 1)));
}

/** Rows on as few pages as hold them, broken where the class pauses if that can be, and then as loosely set as there is room. */
export function parted(
  rows: readonly SideRow[],
  rooms: readonly [number, number],
): { readonly pages: readonly (readonly PlanRow[])[]; readonly padding: number } {
  const steps = Array.from({ length: 12 }, (_, step) => tight + ((loose - tight) * step) / 11);
  const tries = steps.map((padding) => ({ pages: pagesOf(rows, padding, rooms), padding }));
  const worth = ({ pages }: { readonly pages: readonly (readonly PlanRow[])[] }) => {
    const pauses = pages.filter(([first], index) => isPause(first, pages[index - 1]?.at(-1))).length;
    return pauses - pages.length * rows.length;
  };
  return tries.reduce((best, one) => (worth(one) >= worth(best) ? one : best));
}

/** About as many rows on each page; rather broken where the class has drunk or an hour is full. */
function pagesOf(
  rows: readonly SideRow[],
  padding: number,
  [onFirst, onFurther]: readonly [number, number],
): readonly (readonly PlanRow[])[] {
  const pages: (readonly PlanRow[])[] = [];
  let rest: readonly PlanRow[] = rows;
  let at = 0;
  for (let room = onFirst; rest.length > 0; room = onFurther) {
    const all = heightOf(rest, padding);
    const number = all <= room ? 1 : 1 + Math.ceil((all - room) / onFurther);
    const wanted = Math.min(room, all / number);
    const ends = rest.flatMap((row, index) => {
      const height = heightOf(rest.slice(0, index + 1), padding);
      if (height > room && index > 0) return [];
      return [{ count: index + 1, off: Math.abs(height - wanted) + (isPause(rest[index + 1], row) ? 0 : room / 5) }];
    });
    const best = ends.reduce((least, one) => (one.off < least.off ? one : least), { count: 1, off: Infinity });
    const count = number === 1 ? rest.length : best.count;
    pages.push(rest.slice(0, count));
    at += count;
    const [next, ...after] = rows.slice(at);
    rest = next === undefined ? [] : [next.named(), ...after];
  }
  return pages;
}

/** Whether a page may well begin with a row: the class drinks there, or an hour has passed. */
function isPause(row: PlanRow | undefined, before: PlanRow | undefined): boolean {
  if (row === undefined || before === undefined) return false;
  return before.entry.kind === "water" || Math.floor(row.entry.start / 60) > Math.floor(before.entry.start / 60);
}

import { type Block, groupLists } from "./block.js";
import type { Mark, Position, StructureElement } from "./print.js";

/** Where in a run of blocks the flow has got to. */
interface Cursor {
  readonly block: number;
  readonly slice: number;
}

/** Slices of a block that stand under each other. */
interface Placed extends Position, Cursor {
  readonly count: number;
}

interface Filled {
  readonly placed: readonly Placed[];
  readonly next: Cursor;
  readonly height: number;
}

/** The paper that text may flow over: equal columns between a left and a right edge, on as many pages as it takes. */
export interface Area {
  readonly left: number;
  readonly width: number;
  readonly columns: number;
  readonly gutter: number;
  /** Of every page but the one where the flow begins. */
  readonly top: number;
  readonly bottom: number;
  /** Room to leave under the last column. */
  readonly tail: number;
}

export interface Flowed {
  /** Where it ends. */
  readonly page: number;
  readonly y: number;
  readonly draw: () => readonly StructureElement[];
}

/** Points that columns which leave something for the next page are shorter than level ones. */
const parting = 3;
/** Points within which the height of level columns is found. */
const levelled = 2;
/** Fewest slices of a block on either side of a break. */
const fewest = 2;

export function columnWidth({ width, columns, gutter }: Pick<Area, "width" | "columns" | "gutter">): number {
  return (width - gutter * (columns - 1)) / columns;
}

/**
 * Lets blocks flow down columns and over pages, from `start` on. On the last page the columns end as level as the blocks
 * allow.
 */
export function flow(all: readonly Block[], start: Pick<Position, "page" | "y">, area: Area): Flowed {
  const blocks = all.filter(({ slices }) => slices.length > 0);
  const placed: Placed[] = [];
  let next: Cursor = { block: 0, slice: 0 };
  let { page, y } = start;
  while (next.block < blocks.length) {
    const room = area.bottom - y;
    const level = levelHeight(blocks, next, area, room);
    const last = level !== undefined && level <= room - area.tail;
    const fill = (height: number) => fillPage(blocks, next, area, { page, y, height });
    // What fits, but leaves no room for the tail, is parted if it can be: nobody wants the tail on a page of its own.
    const parted = level !== undefined && !last ? fill(level - parting) : undefined;
    const filled = last ? fill(level) : parted !== undefined && parted.placed.length > 0 ? parted : fill(room);
    placed.push(...filled.placed);
    next = filled.next;
    y = last ? y + filled.height : area.top;
    if (!last) page += 1;
  }
  return { page, y, draw: () => buildElements(blocks, placed) };
}

/** The least height at which the rest fits on one page, if there is one. */
function levelHeight(blocks: readonly Block[], from: Cursor, area: Area, room: number): number | undefined {
  const fits = (height: number) => fillPage(blocks, from, area, { page: 0, y: 0, height }).next.block >= blocks.length;
  if (room <= 0 || !fits(room)) return undefined;
  let [low, high] = [0, room];
  while (high - low > levelled) {
    const middle = (low + high) / 2;
    if (fits(middle)) high = middle;
    else low = middle;
  }
  return high;
}

function fillPage(
  blocks: readonly Block[],
  from: Cursor,
  area: Area,
  { page, y, height }: { page: number; y: number; height: number },
): Filled {
  const step = columnWidth(area) + area.gutter;
  const placed: Placed[] = [];
  let next = from;
  let tallest = 0;
  // Only a page of its own must take what no column has room for.
  const force = height >= area.bottom - area.top - 1;
  for (let column = 0; column < area.columns; column++) {
    const position = { page, x: area.left + column * step, y };
    const filled = fillColumn(blocks, next, position, height, force, placed);
    next = filled.next;
    tallest = Math.max(tallest, filled.height);
  }
  return { placed, next, height: tallest };
}

/**
 * @param force put at least one slice here, however tall it is
 * @param placed takes what is put here
 */
function fillColumn(
  blocks: readonly Block[],
  from: Cursor,
  { page, x, y }: Position,
  height: number,
  force: boolean,
  placed: Placed[],
): Omit<Filled, "placed"> {
  let used = 0;
  let next = from;
  for (let block = blocks[next.block]; block !== undefined; block = blocks[next.block]) {
    const gap = used === 0 ? 0 : block.before;
    const count = slicesThatFit(blocks, next, height - used - gap, force && used === 0);
    if (count === 0) break;
    placed.push({ page, x, y: y + used + gap, ...next, count });
    used += gap + slicesHeight(block, next.slice, next.slice + count);
    if (next.slice + count < block.slices.length) return { next: { ...next, slice: next.slice + count }, height: used };
    next = { block: next.block + 1, slice: 0 };
  }
  return { next, height: used };
}

function slicesThatFit(blocks: readonly Block[], from: Cursor, room: number, force: boolean): number {
  const block = blocks[from.block];
  if (block === undefined) return 0;
  const rest = block.slices.length - from.slice;
  const whole = slicesHeight(block, from.slice, block.slices.length);
  if (whole <= room) return force || followerFits(blocks, from.block, room - whole) ? rest : 0;
  if (block.whole === true && !force) return 0;
  let count = 0;
  while (count < rest && slicesHeight(block, from.slice, from.slice + count + 1) <= room) count += 1;
  count = Math.min(count, rest - fewest);
  if (count >= fewest) return count;
  return force ? Math.max(1, count) : 0;
}

/** Whether what must not be parted from a block fits under it. */
function followerFits(blocks: readonly Block[], index: number, room: number): boolean {
  const next = blocks[index + 1];
  if (blocks[index]?.keepNext !== true || next === undefined) return true;
  const few = next.slices.length < 2 * fewest ? next.slices.length : fewest;
  const needed = next.before + slicesHeight(next, 0, few);
  return needed <= room && (few < next.slices.length || followerFits(blocks, index + 1, room - needed));
}

/** Height of a block's slices from one up to, not including, another. */
function slicesHeight({ slices }: Block, from: number, to: number): number {
  let height = 0;
  for (let index = from; index < to; index++) height += slices[index]?.height ?? 0;
  return height;
}

function buildElements(blocks: readonly Block[], placed: readonly Placed[]): readonly StructureElement[] {
  const content = new Map<number, (StructureElement | Mark)[]>();
  for (const { block: index, slice, count, page, x, y } of placed) {
    const block = blocks[index];
    if (block === undefined) continue;
    const list = content.get(index) ?? [];
    for (let at = slice; at < slice + count; at++)
      list.push(...(block.slices[at]?.place({ page, x, y: y + slicesHeight(block, slice, at) }) ?? []));
    content.set(index, list);
  }
  return groupLists([...content].flatMap(([block, inner]) => blocks[block]?.build(inner) ?? []));
}

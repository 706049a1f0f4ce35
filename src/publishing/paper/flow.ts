import { type Block, groupLists } from "./block.js";
import type { Mark, Part, Spot } from "./print.js";

/** Where in a run of blocks the flow has got to. */
interface Cursor {
  readonly block: number;
  readonly slice: number;
}

interface Placed extends Spot {
  readonly block: number;
  readonly slice: number;
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
  readonly draw: () => readonly Part[];
}

/** How far from level columns are that leave something for the next page. */
const parting = 3;
/** How nearly level columns are made. */
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
export function flow(all: readonly Block[], start: Pick<Spot, "page" | "y">, area: Area): Flowed {
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
  return { page, y, draw: () => buildParts(blocks, placed) };
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
    const filled = fillColumn(blocks, next, { page, x: area.left + column * step, y }, height, force);
    placed.push(...filled.placed);
    next = filled.next;
    tallest = Math.max(tallest, filled.height);
  }
  return { placed, next, height: tallest };
}

/** @param force put at least one slice here, however tall it is */
function fillColumn(blocks: readonly Block[], from: Cursor, spot: Spot, height: number, force: boolean): Filled {
  const placed: Placed[] = [];
  let used = 0;
  let next = from;
  for (;;) {
    const block = blocks[next.block];
    if (block === undefined) break;
    const gap = used === 0 ? 0 : block.before;
    const count = slicesThatFit(blocks, next, height - used - gap, force && used === 0);
    if (count === 0) break;
    used += gap;
    block.slices.slice(next.slice, next.slice + count).forEach((slice, index) => {
      placed.push({ ...spot, y: spot.y + used, block: next.block, slice: next.slice + index });
      used += slice.height;
    });
    if (next.slice + count < block.slices.length) {
      next = { block: next.block, slice: next.slice + count };
      break;
    }
    next = { block: next.block + 1, slice: 0 };
  }
  return { placed, next, height: used };
}

function slicesThatFit(blocks: readonly Block[], from: Cursor, room: number, force: boolean): number {
  const rest = blocks[from.block]?.slices.slice(from.slice) ?? [];
  const whole = heightOf(rest);
  if (whole <= room && (force || followerFits(blocks, from.block, room - whole))) return rest.length;
  let [count, used] = [0, 0];
  for (const { height } of rest) {
    if (used + height > room) break;
    used += height;
    count += 1;
  }
  if (whole <= room || (blocks[from.block]?.whole === true && !force)) return 0;
  count = Math.min(count, rest.length - fewest);
  if (count >= fewest) return count;
  return force ? Math.max(1, count) : 0;
}

/** Whether what must not be parted from a block fits under it. */
function followerFits(blocks: readonly Block[], index: number, room: number): boolean {
  const next = blocks[index + 1];
  if (blocks[index]?.keepNext !== true || next === undefined) return true;
  const few = next.slices.length < 2 * fewest ? next.slices : next.slices.slice(0, fewest);
  const needed = next.before + heightOf(few);
  return needed <= room && (few.length < next.slices.length || followerFits(blocks, index + 1, room - needed));
}

function heightOf(slices: Block["slices"]): number {
  return slices.reduce((sum, { height }) => sum + height, 0);
}

function buildParts(blocks: readonly Block[], placed: readonly Placed[]): readonly Part[] {
  const content = new Map<number, (Part | Mark)[]>();
  for (const { block, slice, page, x, y } of placed) {
    const list = content.get(block) ?? [];
    list.push(...(blocks[block]?.slices[slice]?.place({ page, x, y }) ?? []));
    content.set(block, list);
  }
  return groupLists([...content].flatMap(([block, inner]) => blocks[block]?.build(inner) ?? []));
}

import type { Dancers } from "../../routine/chart.js";
import { type Spot as FloorSpot, floorPath, type Leg } from "../../routine/floor.js";
import type { Library, Routine, Stance, Version } from "../../routine/routine.js";
import { alike } from "../../routine/whose.js";
import { type Coordinates, type Drawing, line, moved, type Shape } from "../../typesetting/shape.js";
import { textWidth } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { type Box, nameBeside } from "./name-beside.js";
import type { PictureOptions } from "./phrase-map.js";
import { facingSign } from "./signs.js";

export interface FloorOptions extends PictureOptions {
  /** Points that the floor is deep at most; where nothing is said, no deeper than the picture is wide. */
  readonly depth?: number;
}

/** Metres beyond the path on every side, and least width and depth of the floor shown. */
const beyond = 0.5;
const least = 2;

/** The floor plans of a version in one picture; undefined where nobody leaves the spot. */
export function floorPlan(
  routine: Routine,
  version: Version,
  library: Library,
  options: PictureOptions,
): Drawing | undefined {
  const [first, ...others] = floorPlans(routine, version, library, options);
  if (first === undefined || others.length === 0) return first;
  const plans = [first, ...others];
  const tops = plans.map((_, index) => plans.slice(0, index).reduce((sum, { height }) => sum + height, 0));
  return {
    ...first,
    height: plans.reduce((sum, { height }) => sum + height, 0),
    title: options.wording.drawing.floor.title(routine.title, options.wording.versions.name(version.id), []),
    description: plans.map(({ description }) => description).join(" "),
    shapes: plans.flatMap(({ shapes }, index) => moved(shapes, 0, tops[index] ?? 0)),
  };
}

/** A floor plan for all who travel the same way, one after the other where groups do not. */
export function floorPlans(
  routine: Routine,
  version: Version,
  library: Library,
  options: FloorOptions,
): readonly Drawing[] {
  const once = ({ moves }: Pick<Dancers, "moves">) =>
    floorPath(
      moves.filter(({ section }) => routine.sections[section]?.wall === 1),
      library.stepLength,
    );
  const way = (dancers: Dancers) => JSON.stringify([dancers.start.facing, once(dancers).map(({ to }) => to)]);
  return alike(routine, version, way).flatMap(({ dancers, names }) => {
    const path = once(dancers);
    return path.length === 0 ? [] : [pathDrawing(routine, version, { path, names, start: dancers.start }, options)];
  });
}

interface Travelled {
  readonly path: readonly Leg[];
  /** Who goes this way, where not all do. */
  readonly names: readonly string[];
  readonly start: Stance;
}

/**
 * The way that one dancer travels, from above: the audience is at the top, a square of the grid is a metre. Of a dance that
 * goes several times through it is the first time, since the rest would hide it.
 */
function pathDrawing(
  routine: Routine,
  version: Version,
  { path, names, start }: Travelled,
  { width, depth = width, size, wording }: FloorOptions,
): Drawing {
  const { floor: floorWords } = wording.drawing;
  const floor = withRoomUnder(floorOf(path), path, { width, depth, room: nameRoom(size) });
  const top = size * 1.6;
  const bottom = size * 1.6;
  const scale = Math.min(width / (floor.right - floor.left), depth / (floor.front - floor.back));
  const [across, deep] = [(floor.right - floor.left) * scale, (floor.front - floor.back) * scale];
  const shift = (width - across) / 2;
  const at = ({ x, y }: FloorSpot): Coordinates => [shift + (x - floor.left) * scale, top + (floor.front - y) * scale];
  const box: Shape = {
    kind: "box",
    at: [shift, top],
    width: across,
    height: deep,
    fill: "paper",
    stroke: { tone: "ink", width: 0.9 },
  };
  const frame: Box = { left: shift, top, right: shift + across, bottom: top + deep };
  const paper = { left: 0, right: width };
  const shapes: readonly Shape[] = [
    ...caption([floorWords.audience(names), floorWords.audience([])], width, size, size),
    box,
    ...metres(floor, at),
    ...legShapes(path, at),
    ...ends(path, start, { at, size, frame, paper, words: floorWords }),
    ...caption(floorWords.captions(routine.times), width, top + deep + size * 1.3, size),
  ];
  const title = floorWords.title(routine.title, wording.versions.name(version.id), names);
  const reach = (of: (spot: FloorSpot) => number) =>
    Math.max(0, ...path.map(({ to }) => of(to))) - Math.min(0, ...path.map(({ to }) => of(to)));
  const description = floorWords.description({
    names,
    times: routine.times,
    facing: start.facing,
    across: reach(({ x }) => x),
    depth: reach(({ y }) => y),
    places: path.map(({ to }) => to),
  });
  return { width, height: top + deep + bottom, title, description, shapes };
}

interface Floor {
  readonly left: number;
  readonly right: number;
  readonly front: number;
  readonly back: number;
}

function floorOf(path: readonly Leg[]): Floor {
  const side = (values: readonly number[]) => {
    const [low, high] = [Math.min(0, ...values) - beyond, Math.max(0, ...values) + beyond];
    const missing = Math.max(0, least - (high - low)) / 2;
    return [low - missing, high + missing] as const;
  };
  const [left, right] = side(path.map(({ to }) => to.x));
  const [back, front] = side(path.map(({ to }) => to.y));
  return { left, right, back, front };
}

/** Of the ring where it begins, and from its middle to a name. */
const radiusOf = (size: number): number => size * 0.75;
const gapOf = (size: number): number => radiusOf(size) + 3;
/** From the middle of a ring down to below a name under it. */
const nameRoom = (size: number): number => gapOf(size) + size + 2;

/**
 * The floor with room for a name under the start and the end, on a picture of so many points: they lie at its back edge as a rule, with
 * the way before them.
 */
function withRoomUnder(
  floor: Floor,
  path: readonly Leg[],
  { width, depth, room }: { readonly width: number; readonly depth: number; readonly room: number },
): Floor {
  const lowest = Math.min(0, path.at(-1)?.to.y ?? 0);
  const scale = Math.min(width / (floor.right - floor.left), (depth - room) / (floor.front - lowest));
  return { ...floor, back: Math.min(floor.back, lowest - room / scale) };
}

/** A line every metre, counted from where the dancer begins. */
function metres(floor: Floor, at: (spot: FloorSpot) => Coordinates): readonly Shape[] {
  const steps = (from: number, to: number) =>
    Array.from({ length: Math.floor(to) - Math.ceil(from) + 1 }, (_, index) => Math.ceil(from) + index);
  return [
    ...steps(floor.left, floor.right).map((x) =>
      line("line", 0.4, at({ x, y: floor.back }), at({ x, y: floor.front })),
    ),
    ...steps(floor.back, floor.front).map((y) =>
      line("line", 0.4, at({ x: floor.left, y }), at({ x: floor.right, y })),
    ),
  ];
}

/** Each way a little to its own right, so that there and back do not hide each other. */
function legShapes(path: readonly Leg[], at: (spot: FloorSpot) => Coordinates): readonly Shape[] {
  return path.flatMap(({ to }, index): readonly Shape[] => {
    const [x1, y1] = at(path[index - 1]?.to ?? { x: 0, y: 0 });
    const [x2, y2] = at(to);
    const length = Math.hypot(x2 - x1, y2 - y1);
    if (length === 0) return [];
    const [ux, uy] = [(x2 - x1) / length, (y2 - y1) / length];
    const aside = 1.8;
    const point = (along: number, across: number): Coordinates => [
      x1 + ux * along - uy * (across + aside),
      y1 + uy * along + ux * (across + aside),
    ];
    const head = Math.min(5, length * 0.6);
    const tip = [point(length, 0), point(length - head, -head * 0.45), point(length - head, head * 0.45)];
    return [line("ink", 1.2, point(0, 0), point(length, 0)), { kind: "path", points: tip, closed: true, fill: "ink" }];
  });
}

/** Where it begins, an open ring with the facing in it, and where it ends, a solid disc, each with its name. */
function ends(
  path: readonly Leg[],
  { facing }: Stance,
  { at, size, frame, paper, words }: EndsContext,
): readonly Shape[] {
  const start = at({ x: 0, y: 0 });
  const end = at(path.at(-1)?.to ?? { x: 0, y: 0 });
  const radius = radiusOf(size);
  const same = Math.hypot(start[0] - end[0], start[1] - end[1]) < radius;
  const ring = { tone: "ink", width: 1.1 } as const;
  const way = [start, ...path.map(({ to }) => at(to))];
  const name = (text: string, place: Coordinates, others: readonly Box[]) => {
    const width = textWidth(text, size);
    return nameBeside(place, { width, height: size }, { way, frame, paper, others, gap: gapOf(size) });
  };
  const marks: readonly Shape[] = [
    { kind: "disc", at: start, radius, fill: "paper", stroke: ring },
    facingSign(facing, start, radius * 0.6),
    ...(same
      ? [{ kind: "disc", at: end, radius: radius + 2, stroke: ring } as const]
      : [{ kind: "disc", at: end, radius: radius * 0.6, fill: "ink", stroke: { tone: "paper", width: 1 } } as const]),
  ];
  const first = name(same ? words.startAndEnd : words.start, start, [around(end, radius)]);
  const texts = [
    nameText(same ? words.startAndEnd : words.start, first, size),
    ...(same ? [] : [nameText(words.end, name(words.end, end, [first, around(start, radius)]), size)]),
  ];
  return [...marks, ...texts];
}

interface EndsContext {
  readonly at: (spot: FloorSpot) => Coordinates;
  readonly size: number;
  /** The floor that is shown. */
  readonly frame: Box;
  readonly paper: Pick<Box, "left" | "right">;
  readonly words: Wording["drawing"]["floor"];
}

const around = ([x, y]: Coordinates, radius: number): Box => ({
  left: x - radius,
  top: y - radius,
  right: x + radius,
  bottom: y + radius,
});

/** Letters stand on their base line, a little above the foot of their box. */
function nameText(text: string, { left, bottom }: Box, size: number): Shape {
  return { kind: "text", at: [left, bottom - size * 0.2], text, size, anchor: "start", tone: "ink" };
}

/** The longest of some captions that has room. */
function caption(texts: readonly string[], width: number, baseline: number, size: number): readonly Shape[] {
  const text = texts.find((one) => textWidth(one, size) <= width) ?? "";
  return [{ kind: "text", at: [width / 2, baseline], text, size, anchor: "middle", tone: "soft" }];
}

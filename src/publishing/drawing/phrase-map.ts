import Fraction from "fraction.js";
import { type Dancers, dancersOf, moveEnd } from "../../routine/chart.js";
import { countSeconds, shownTrackTime, wholeRun } from "../../routine/clock.js";
import type { DancedSection, Move, Routine, Version } from "../../routine/routine.js";
import { sheetSections } from "../../routine/sheet.js";
import { type Facing, type Height, heights } from "../../routine/vocabulary.js";
import { type Alike, alike } from "../../routine/whose.js";
import { type Coordinates, type Drawing, line, moved, type Shape } from "../../typesetting/shape.js";
import { textWidth } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { accentDisc, facingSign, hitCorner, otherSide, upsideDown } from "./signs.js";

export interface PictureOptions {
  /** Points. */
  readonly width: number;
  /** Type size in points; nothing in the picture is smaller. */
  readonly size: number;
  readonly wording: Wording;
}

export interface MapOptions extends PictureOptions {
  /** In how many strips it stands at most, one under the other; in one where nothing is said. */
  readonly strips?: number;
}

/** What every row of the map is drawn from. */
interface MapContext {
  readonly wording: Wording;
  readonly routine: Routine;
  readonly version: Version;
  readonly size: number;
  readonly left: number;
  readonly right: number;
  /** What of the run the strip shows, in seconds from the first count. */
  readonly from: number;
  readonly to: number;
  /** Where a moment lies, in seconds from the first count. */
  readonly x: (seconds: number) => number;
}

/** A row of the map: what it draws, from its own top edge, and how high it is. */
interface MapRow {
  readonly height: number;
  readonly shapes: readonly Shape[];
}

/** Whether a map shows what the sheet's grid does not show at a glance: where heights and facings change, and where hits fall. */
export function tellsMore(routine: Routine, version: Version): boolean {
  return (
    hitsOf(routine, version).length > 0 ||
    bodiesOf(routine, version).some(({ dancers: { moves } }) =>
      moves.some(
        (move) =>
          move.before.height !== move.after.height || move.before.facing !== move.after.facing || isInverted(move),
      ),
    )
  );
}

/**
 * The whole routine as a strip on the track's clock: sections as bands, height as a line, facing, hits and accents, and the
 * track's time along the foot. Where it is folded, the strip goes on below.
 */
export function phraseMap(routine: Routine, version: Version, options: MapOptions): Drawing {
  const { width, size, wording, strips = 1 } = options;
  const { map } = wording.drawing;
  const left = Math.max(...heights.map((height) => textWidth(map.height(height), size))) + 6;
  const right = width - 1;
  const cuts = cutsOf(routine, strips);
  const contexts = cuts.slice(1).map((to, index): MapContext => {
    const from = cuts[index] ?? 0;
    const x = (seconds: number) => left + ((seconds - from) / (to - from)) * (right - left);
    return { routine, version, size, wording, left, right, from, to, x };
  });
  const rows = contexts.flatMap((context, index) => [
    ...(index > 0 ? [{ height: size, shapes: [] }] : []),
    ...stripRows(context),
  ]);
  const shapes: Shape[] = [];
  let y = 0;
  for (const row of rows) {
    shapes.push(...moved(row.shapes, 0, y));
    y += row.height;
  }
  const title = map.title(routine.title, wording.versions.name(version.id));
  return { width, height: y, title, description: describe({ routine, version, wording }), shapes };
}

function stripRows(context: MapContext): readonly MapRow[] {
  return [
    wallRow(context),
    bandRow(context),
    ...bodiesOf(context.routine, context.version).flatMap((body) => [
      dancersRow(context, body),
      heightRow(context, body.dancers),
      facingRow(context, body.dancers),
    ]),
    hitRow(context),
    timeRow(context),
  ];
}

/** Where strips begin and the last one ends: at phrases, at a section's first where one is near. */
function cutsOf(routine: Routine, strips: number): readonly number[] {
  const [begins, ends] = [beginOf(routine).valueOf(), endOf(routine).valueOf()];
  const length = (ends - begins) / strips;
  const sections = routine.sections.map(({ start }) => start.valueOf());
  const phrases = routine.sections.flatMap((section) => section.phrases.map(({ at }) => drawnAt(section, at)));
  const nearest = (moments: readonly number[], to: number) =>
    moments.reduce((best, one) => (Math.abs(one - to) < Math.abs(best - to) ? one : best), begins);
  const inner = Array.from({ length: strips - 1 }, (_, index) => {
    const ideal = begins + (index + 1) * length;
    const section = nearest(sections, ideal);
    return Math.abs(section - ideal) < length / 5 ? section : nearest([...sections, ...phrases], ideal);
  });
  return [...new Set([begins, ...inner, ends])];
}

/** Whether a moment is seen in a strip. */
const sees = ({ from, to }: MapContext, seconds: number): boolean => from <= seconds && seconds < to;

/** Where the run begins and ends, in seconds from the first count: time without counts may lie before that, and after the last. */
function beginOf({ sections }: Routine): Fraction {
  return sections[0]?.start ?? new Fraction(0);
}

function endOf({ sections }: Routine): Fraction {
  return sections.at(-1)?.end ?? new Fraction(0);
}

const label = ({ size, left }: MapContext, text: string, baseline: number): Shape => ({
  kind: "text",
  at: [left - 5, baseline],
  text,
  size,
  anchor: "end",
  tone: "soft",
});

/** Times through, where there is more than one. */
function wallRow(context: MapContext): MapRow {
  const { routine, size, wording, right, x } = context;
  if (routine.times < 2) return { height: 0, shapes: [] };
  const begins = routine.sections.filter((one, index) => one.wall !== routine.sections[index - 1]?.wall);
  const starts = begins.filter(({ start }) => sees(context, start.valueOf()));
  const shapes = starts.flatMap(({ wall, start }, index): readonly Shape[] => {
    const from = x(start.valueOf());
    const next = starts[index + 1];
    const room = (next === undefined ? right : x(next.start.valueOf())) - from - 4;
    const text = [wording.run.time(routine.walls, wall), String(wall)].find((one) => textWidth(one, size) <= room);
    const rule = line("ink", 1.2, [from, 0], [from, size * 1.4]);
    return text === undefined
      ? [rule]
      : [rule, { kind: "text", at: [from + 3, size], text, size, anchor: "start", tone: "ink" }];
  });
  return { height: size * 1.4, shapes };
}

/** Sections as bands: the name where it has room, or its number on the sheet. */
function bandRow({ routine, size, wording, left, right, from: begin, to: end, x }: MapContext): MapRow {
  const height = size * 1.9;
  const entries = sheetSections(routine);
  const shapes = routine.sections.flatMap((section, index): readonly Shape[] => {
    if (section.end.valueOf() <= begin || section.start.valueOf() >= end) return [];
    const [from, to] = [Math.max(left, x(section.start.valueOf())), Math.min(right, x(section.end.valueOf()))];
    const number = String(entries.findIndex(({ danced }) => danced.includes(index)) + 1);
    const sign = section.mirrored ? size * 1.2 : 0;
    const text = [wording.drawing.map.section(number, section.name), number].find(
      (one) => textWidth(one, size, "bold") <= to - from - 6 - sign,
    );
    const stroke = { tone: "ink", width: 0.7 } as const;
    return [
      { kind: "box", at: [from, 0], width: to - from, height, fill: index % 2 === 0 ? "tint" : "paper", stroke },
      ...(text === undefined
        ? []
        : [
            { kind: "text", at: [from + 3, size * 1.3], text, size, anchor: "start", bold: true, tone: "ink" } as const,
          ]),
      ...(section.mirrored && to - from > sign + 4 ? otherSide([to - sign / 2 - 3, height / 2], size * 0.45) : []),
    ];
  });
  return { height: height + 4, shapes };
}

/** Dancers of one line of height and one of facings; each group its own where they differ. */
function bodiesOf(routine: Routine, version: Version): readonly Alike[] {
  return alike(routine, version, ({ start, moves }) => {
    const changes = moves.filter(({ before, after, through }) => {
      return before.height !== after.height || before.facing !== after.facing || through === "inverted";
    });
    return JSON.stringify([
      start.height,
      start.facing,
      changes.map(({ end, after: { height, facing }, through }) => [end.toFraction(), height, facing, through]),
    ]);
  });
}

/** Whose the lines under it are, where groups differ. */
function dancersRow({ size, left, wording }: MapContext, { names }: Alike): MapRow {
  if (names.length === 0) return { height: 0, shapes: [] };
  const text = wording.drawing.map.dancers(names);
  return {
    height: size * 1.5,
    shapes: [{ kind: "text", at: [left, size * 1.2], text, size, anchor: "start", bold: true, tone: "ink" }],
  };
}

/** Height as a line that sinks and rises, a lane for each height that the dancers have. */
function heightRow(context: MapContext, { moves, start, end }: Dancers): MapRow {
  const { size, wording, left, right, x } = context;
  const used = new Set(moves.flatMap((move) => [move.before.height, move.after.height]).concat(start.height));
  const lanes = heights.filter((height) => used.has(height));
  const step = size * 1.45;
  const top = size * 0.9;
  const y = (height: Height) => top + lanes.indexOf(height) * step;
  const guides = lanes.flatMap((height): readonly Shape[] => [
    line("line", 0.4, [left, y(height)], [right, y(height)]),
    label(context, wording.drawing.map.height(height), y(height) + size * 0.33),
  ]);
  const points: Coordinates[] = [[Math.min(left, x(beginOf(context.routine).valueOf())), y(start.height)]];
  for (const { before, after, start: from, end: to } of moves)
    if (before.height !== after.height) {
      points.push([x(from.valueOf()), y(before.height)], [x(to.valueOf()), y(after.height)]);
    }
  points.push([Math.max(right, points.at(-1)?.[0] ?? right), y(end.height)]);
  const path: Shape = { kind: "path", points: between(points, left, right), stroke: { tone: "ink", width: 1.8 } };
  const middleOf = (move: Move) => (move.start.valueOf() + move.end.valueOf()) / 2;
  const inverted = moves.filter((move) => isInverted(move) && sees(context, middleOf(move)));
  const turned = inverted.map((move): Shape => {
    const at = x(middleOf(move));
    const middle = (y(move.before.height) + y(move.after.height)) / 2;
    return upsideDown([at, middle], size * 0.5);
  });
  return { height: top + (lanes.length - 1) * step + size * 0.9, shapes: [...guides, path, ...turned] };
}

/** What of a line from left to right lies between two edges. */
function between(points: readonly Coordinates[], left: number, right: number): readonly Coordinates[] {
  return points.flatMap((to, index): readonly Coordinates[] => {
    const from = points[index - 1] ?? to;
    const at = (x: number): Coordinates => [x, from[1] + ((x - from[0]) / (to[0] - from[0] || 1)) * (to[1] - from[1])];
    const edges = [left, right].filter((x) => from[0] < x && x < to[0]).map(at);
    return left <= to[0] && to[0] <= right ? [...edges, to] : edges;
  });
}

const isInverted = ({ after, through }: Move): boolean => after.height === "inverted" || through === "inverted";

interface Turn {
  readonly seconds: number;
  readonly facing: Facing;
}

function turnsOf(moves: Dancers["moves"]): readonly Turn[] {
  const turns = moves.filter(({ before, after }) => before.facing !== after.facing);
  return turns.map(({ end, after }) => ({ seconds: end.valueOf(), facing: after.facing }));
}

/** A sign where the facing changes, and at the left edge; of signs that would touch, the last stays. */
function facingRow(context: MapContext, { moves, start }: Dancers): MapRow {
  const { size, left, right, x } = context;
  const radius = size * 0.5;
  const turns = turnsOf(moves);
  const before = turns.findLast(({ seconds }) => seconds <= context.from)?.facing ?? start.facing;
  const kept: { at: number; facing: Facing }[] = [{ at: left + radius, facing: before }];
  for (const { seconds, facing } of turns.filter(({ seconds }) => context.from < seconds && seconds <= context.to)) {
    const at = Math.min(x(seconds), right - radius);
    const last = kept.at(-1);
    if (last !== undefined && kept.length > 1 && at - last.at < radius * 2.3) kept.pop();
    if (at - (kept.at(-1)?.at ?? left) >= radius * 2.3) kept.push({ at, facing });
  }
  const signs = kept.map(({ at, facing }) => facingSign(facing, [at, size * 0.65], radius));
  return { height: size * 1.5, shapes: [label(context, context.wording.drawing.map.facing, size), ...signs] };
}

/** Hits as corners that stand on the line, accents as discs that hang from it. */
function hitRow(context: MapContext): MapRow {
  const { routine, version, size, left, right, x } = context;
  const base = size * 0.95;
  const [corner, disc] = [size * 0.5, size * 0.16];
  const accents = routine.sections
    .flatMap((section) => accentTimes(section, routine.music.accents))
    .filter((seconds) => sees(context, seconds))
    .map((seconds) => accentDisc([Math.min(x(seconds) + disc, right - disc), base + disc * 1.8], disc));
  const hits = hitsOf(routine, version)
    .filter(({ start }) => sees(context, start.valueOf()))
    .map(({ start }) => hitCorner([Math.min(x(start.valueOf()), right - corner), base - corner * 1.3], corner));
  const rule = line("line", 0.4, [left, base], [right, base]);
  return {
    height: size * 1.6,
    shapes: [label(context, context.wording.drawing.map.hits, size), rule, ...accents, ...hits],
  };
}

/** When somebody hits, in seconds. */
function hitsOf(routine: Routine, version: Version): readonly Move[] {
  const moves = dancersOf(routine, version).flatMap(({ moves }) => moves.filter(({ hit }) => hit));
  return moves
    .sort((a, b) => a.start.compare(b.start))
    .filter(({ start }, index, sorted) => sorted[index - 1]?.start.equals(start) !== true);
}

/** Seconds at which a count of a section is drawn; a float is near enough for a hundredth of a point. */
function drawnAt({ start, at, countsPerMinute }: DancedSection, count: number): number {
  return start.valueOf() + (count - at) * countSeconds(countsPerMinute).valueOf();
}

function accentTimes(section: DancedSection, accents: readonly number[]): readonly number[] {
  return section.phrases.flatMap((phrase) =>
    phrase.numbers.flatMap((number, index) => (accents.includes(number) ? [drawnAt(section, phrase.at + index)] : [])),
  );
}

/**
 * A tick a phrase, a long one a section; where the first count's place in the track is known, with times on its clock as far
 * as they have room.
 */
function timeRow(context: MapContext): MapRow {
  const { routine, size, wording, left, right, to, x } = context;
  const ticks = ticksOf(routine).filter(({ seconds }) => sees(context, seconds));
  const shapes = ticks.map(({ seconds, long }) =>
    line("ink", long ? 0.9 : 0.5, [x(seconds), 0], [x(seconds), long ? 5 : 3]),
  );
  const rule = line("ink", 0.9, [left, 0], [right, 0]);
  const timed = (seconds: Fraction) => {
    const shown = shownTrackTime(routine, seconds);
    return shown === undefined ? "" : wording.time.track(shown);
  };
  const last = timed(endOf(routine));
  if (last === "") return { height: 6, shapes: [rule, ...shapes] };
  const isLast = to >= endOf(routine).valueOf();
  const end = isLast ? right - textWidth(last, size) - 4 : right;
  let free = left;
  const times = routine.sections.flatMap(({ start }): readonly Shape[] => {
    if (!sees(context, start.valueOf())) return [];
    const text = timed(start);
    const at = x(start.valueOf());
    const width = textWidth(text, size);
    if (at < free || at + width > end) return [];
    free = at + width + 5;
    return [{ kind: "text", at: [at, size + 5], text, size, anchor: "start", tone: "ink" }];
  });
  const close: Shape = { kind: "text", at: [right, size + 5], text: last, size, anchor: "end", tone: "ink" };
  return {
    height: size + 8,
    shapes: [
      label(context, wording.drawing.map.track, size + 5),
      rule,
      ...shapes,
      ...times,
      ...(isLast ? [close] : []),
    ],
  };
}

/** Where a phrase begins, a section's first with a long tick. */
function ticksOf({ sections }: Routine): readonly { readonly seconds: number; readonly long: boolean }[] {
  return sections.flatMap((section) => {
    if (section.seconds !== undefined) return [{ seconds: section.start.valueOf(), long: true }];
    return section.phrases.map(({ at }, index) => ({ seconds: drawnAt(section, at), long: index === 0 }));
  });
}

/** The text alternative: what the map shows at a glance, in words. */
function describe({ routine, version, wording }: Pick<MapContext, "routine" | "version" | "wording">): string {
  const { map } = wording.drawing;
  const onTrack = routine.music.firstCount !== undefined;
  // Without a place in the track, what begins is said by its count of the run, what ends by the last one before.
  const place = (seconds: Fraction, count: () => Fraction) => {
    const time = shownTrackTime(routine, seconds);
    return time === undefined ? map.count(count().valueOf()) : wording.time.track(time);
  };
  const begin = ({ start, at }: { readonly start: Fraction; readonly at: Fraction | number }) =>
    place(start, () => new Fraction(at).floor().add(1));
  const end = (move: Move) => place(move.end, () => moveEnd(move).ceil());
  return map.description({
    onTrack,
    counts: routine.counts,
    run: wording.time.run(wholeRun(routine)),
    sections: routine.sections.map((section) => ({
      at: begin(section),
      name: section.name,
      mirrored: section.mirrored,
      time: routine.times > 1 ? wording.run.time(routine.walls, section.wall) : undefined,
      size: section.seconds === undefined ? map.counts(section.counts) : map.uncounted(section.seconds.valueOf()),
    })),
    dancers: bodiesOf(routine, version).map(({ names, dancers }) => ({ names, ...describeBody(dancers, begin, end) })),
    hits: hitsOf(routine, version).map(begin),
  });
}

function describeBody({ moves, start }: Dancers, begin: (move: Move) => string, end: (move: Move) => string) {
  const sunk = moves.filter(({ before, after }) => before.height !== after.height);
  const turned = moves.filter(({ before, after }) => before.facing !== after.facing);
  return {
    height: { first: start.height, changes: sunk.map((move) => ({ at: end(move), to: move.after.height })) },
    inverted: moves.filter(isInverted).map(begin),
    facing: { first: start.facing, changes: turned.map((move) => ({ at: end(move), to: move.after.facing })) },
  };
}

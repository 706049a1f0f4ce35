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
import { facingDart, otherSide, upsideDown } from "./signs.js";

export interface PictureOptions {
  /** Points. */
  readonly width: number;
  /** Type size in points; nothing in the picture is smaller. */
  readonly size: number;
  readonly wording: Wording;
}

/** What every row of the map is drawn from. */
interface MapContext {
  readonly wording: Wording;
  readonly routine: Routine;
  readonly version: Version;
  readonly size: number;
  readonly left: number;
  readonly right: number;
  /** Where a moment lies, in seconds from the first count. */
  readonly x: (seconds: number) => number;
}

/** A row of the map: what it draws, from its own top edge, and how high it is. */
interface MapRow {
  readonly height: number;
  readonly shapes: readonly Shape[];
}

/**
 * The whole routine as one strip on the track's clock: sections as bands, height as a line, facing, hits and accents, and
 * the track's time along the foot.
 */
export function phraseMap(routine: Routine, version: Version, { width, size, wording }: PictureOptions): Drawing {
  const { map } = wording.drawing;
  const left = Math.max(...heights.map((height) => textWidth(map.height(height), size))) + 6;
  const right = width - 1;
  const [begins, ends] = [beginOf(routine).valueOf(), endOf(routine).valueOf()];
  const x = (seconds: number) => left + ((seconds - begins) / (ends - begins)) * (right - left);
  const context: MapContext = { routine, version, size, wording, left, right, x };
  const rows = [
    wallRow(context),
    bandRow(context),
    ...bodiesOf(routine, version).flatMap((body) => [
      dancersRow(context, body),
      heightRow(context, body.dancers),
      facingRow(context, body.dancers),
    ]),
    hitRow(context),
    timeRow(context),
  ];
  const shapes: Shape[] = [];
  let y = 0;
  for (const row of rows) {
    shapes.push(...moved(row.shapes, 0, y));
    y += row.height;
  }
  const title = map.title(routine.title, wording.versions.name(version.id));
  return { width, height: y, title, description: describe(context), shapes };
}

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
function wallRow({ routine, size, wording, right, x }: MapContext): MapRow {
  if (routine.times < 2) return { height: 0, shapes: [] };
  const starts = routine.sections.filter((one, index) => one.wall !== routine.sections[index - 1]?.wall);
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
function bandRow({ routine, size, wording, x }: MapContext): MapRow {
  const height = size * 1.9;
  const entries = sheetSections(routine);
  const shapes = routine.sections.flatMap((section, index): readonly Shape[] => {
    const [from, to] = [x(section.start.valueOf()), x(section.end.valueOf())];
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
  const points: Coordinates[] = [[left, y(start.height)]];
  for (const { before, after, start: from, end: to } of moves)
    if (before.height !== after.height) {
      points.push([x(from.valueOf()), y(before.height)], [x(to.valueOf()), y(after.height)]);
    }
  points.push([right, y(end.height)]);
  const path: Shape = { kind: "path", points, stroke: { tone: "ink", width: 1.8 } };
  const turned = moves.filter(isInverted).map((move): Shape => {
    const at = x((move.start.valueOf() + move.end.valueOf()) / 2);
    const middle = (y(move.before.height) + y(move.after.height)) / 2;
    return upsideDown([at, middle], size * 0.5);
  });
  return { height: top + (lanes.length - 1) * step + size * 0.9, shapes: [...guides, path, ...turned] };
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

/** A dart where the facing changes; of darts that would touch, the last stays. */
function facingRow(context: MapContext, { moves, start }: Dancers): MapRow {
  const { size, left, right, x } = context;
  const radius = size * 0.5;
  const kept: { at: number; facing: Facing }[] = [{ at: left + radius, facing: start.facing }];
  for (const { seconds, facing } of turnsOf(moves)) {
    const at = Math.min(x(seconds), right - radius);
    const last = kept.at(-1);
    if (last !== undefined && kept.length > 1 && at - last.at < radius * 2.3) kept.pop();
    if (at - (kept.at(-1)?.at ?? left) >= radius * 2.3) kept.push({ at, facing });
  }
  const darts = kept.map(({ at, facing }) => facingDart(facing, [at, size * 0.65], radius));
  return { height: size * 1.5, shapes: [label(context, context.wording.drawing.map.facing, size), ...darts] };
}

/** Hits as solid points that stand on the line, accents as strokes that hang from it. */
function hitRow(context: MapContext): MapRow {
  const { routine, version, size, left, right, x } = context;
  const base = size * 0.95;
  const accents = routine.sections.flatMap((section) => accentTimes(section, routine.music.accents));
  const strokes = accents.map((seconds) => line("ink", 0.5, [x(seconds), base], [x(seconds), base + size * 0.4]));
  const hits = hitsOf(routine, version).map(({ start }): Shape => {
    const at = x(start.valueOf());
    const half = Math.min(size * 0.32, 3);
    const points: readonly Coordinates[] = [
      [at - half, base - size * 0.75],
      [at + half, base - size * 0.75],
      [at, base],
    ];
    return { kind: "path", points, closed: true, fill: "ink" };
  });
  const rule = line("line", 0.4, [left, base], [right, base]);
  return {
    height: size * 1.6,
    shapes: [label(context, context.wording.drawing.map.hits, size), rule, ...strokes, ...hits],
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
  const { routine, size, wording, left, right, x } = context;
  const ticks = routine.sections.flatMap((section) => {
    if (section.seconds !== undefined)
      return [line("ink", 0.9, [x(section.start.valueOf()), 0], [x(section.start.valueOf()), 5])];
    return section.phrases.map((phrase, index): Shape => {
      const at = x(drawnAt(section, phrase.at));
      return line("ink", index === 0 ? 0.9 : 0.5, [at, 0], [at, index === 0 ? 5 : 3]);
    });
  });
  const rule = line("ink", 0.9, [left, 0], [right, 0]);
  const ends = shownTrackTime(routine, endOf(routine));
  if (ends === undefined) return { height: 6, shapes: [rule, ...ticks] };
  const last = wording.time.track(ends);
  const end = right - textWidth(last, size) - 4;
  let free = left;
  const times = routine.sections.flatMap(({ start }): readonly Shape[] => {
    const shown = shownTrackTime(routine, start);
    const text = shown === undefined ? "" : wording.time.track(shown);
    const at = x(start.valueOf());
    const width = textWidth(text, size);
    if (at < free || at + width > end) return [];
    free = at + width + 5;
    return [{ kind: "text", at: [at, size + 5], text, size, anchor: "start", tone: "ink" }];
  });
  const close: Shape = { kind: "text", at: [right, size + 5], text: last, size, anchor: "end", tone: "ink" };
  return {
    height: size + 8,
    shapes: [label(context, wording.drawing.map.track, size + 5), rule, ...ticks, ...times, close],
  };
}

/** The text alternative: all that the map shows, in words. */
function describe({ routine, version, wording }: MapContext): string {
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

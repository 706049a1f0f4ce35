import { dancersOf } from "../../routine/chart.js";
import { shownFirstCount, wholeRun } from "../../routine/clock.js";
import type { Library, Routine, Version } from "../../routine/routine.js";
import { timesThrough } from "../../routine/times-through.js";
import { groupsMeeting } from "../../routine/whose.js";
import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import type { Shape } from "../../typesetting/shape.js";
import { type Line, leading, type Span, shortened, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { cautionSign, facingSign } from "../drawing/signs.js";
import { linesHeight, signFigure, stackLines } from "./cell.js";
import { codeLink } from "./code.js";
import { viewAddress } from "./credit.js";
import type { Dance } from "./dance.js";
import { theirs } from "./theirs.js";

export interface Head {
  readonly elements: readonly StructureElement[];
  readonly height: number;
}

/**
 * "Level 2 of 3", "Seated", and that it is the other side where it is.
 *
 * @param fits where there is little room: of a long name only so much is said that all of it fits
 */
export function versionLine(
  routine: Routine,
  version: Version,
  wording: Wording,
  fits: (text: string) => boolean = () => true,
): string {
  const rung = routine.levels.indexOf(version.id);
  const numbered = rung >= 0 && routine.levels.length > 1 && /^\d+$/.test(version.id);
  const of = numbered ? routine.levels.length : undefined;
  const whole = (name: string) => wording.print.version(name, of, routine.mirrored);
  return whole(shortened(wording.versions.name(version.id), (name) => fits(whole(name))));
}

const codeSize = 74;

export interface SheetOptions {
  /** In a pack the cautions and the gear of all routines stand on pages of their own. */
  readonly within: "handout" | "pack";
  readonly wording: Wording;
}

/** The top of a sheet: what it is, by whom, its figures, how it starts, what to bring and what to mind. */
export function layoutHead(
  { routine, version }: Dance,
  library: Library,
  options: SheetOptions,
  position: Position,
  width: number,
): Head {
  const { wording } = options;
  const address = viewAddress({ routine, version }, library);
  const name = versionLine(routine, version, wording);
  const room = address === undefined ? width : width - codeSize - 12;
  const elements: StructureElement[] = [];
  let y = position.y;
  const put = (tag: StructureElement["tag"], spans: readonly Span[], size: number, after = 0) => {
    const lines = wrap(spans, size, room);
    elements.push({ tag, content: stackLines(lines, { ...position, y }) });
    y += linesHeight(lines) + after;
  };
  put("P", [theirs(library.name, wording, { tone: "soft" })], 8.5, 1);
  put("H1", [theirs(routine.title, wording, { style: "bold" })], 25);
  put("P", bylineSpans(routine, wording), 10, 5);
  const named = wrap([{ text: name, style: "bold" }], 10, room - 14);
  const chipWidth = Math.max(...named.map((line) => line.width)) + 14;
  elements.push(chip(named, chipWidth, { ...position, y }));
  const figures = facts(routine, wording);
  const wide = chipWidth + figures.width > room;
  y += (named.length - 1) * 10 * leading + (wide ? 27 : 0);
  elements.push(...figures.place({ ...position, x: position.x + (wide ? 0 : chipWidth + 16), y: y - 4 }));
  y += 27;
  if (address !== undefined) {
    const corner = { ...position, x: position.x + width - codeSize + 8, y: position.y - 8 };
    elements.push(codeLink(address, codeSize, corner, wording));
    y = Math.max(y, position.y + codeSize - 10);
  }
  for (const { label, sign, text } of headLines(routine, version, options)) {
    const lines = wrap([{ text }], 9.5, width - 72);
    const at = { ...position, y };
    const [heading] = wrap([{ text: label, tone: "soft" }], 8);
    const marks: readonly Mark[] = heading === undefined ? [] : [{ ...at, y: y + 1.6, line: heading }];
    const signs =
      sign === undefined ? [] : [signFigure(sign.alt, sign.shapes, { ...at, x: position.x + 52, y: y + 6 })];
    elements.push({ tag: "P", content: [...marks, ...signs, ...stackLines(lines, { ...at, x: position.x + 66 })] });
    y += linesHeight(lines) + 1.5;
  }
  return { elements, height: y - position.y };
}

function bylineSpans({ choreographer, music }: Routine, { print }: Wording): readonly Span[] {
  const name: Span = { text: choreographer, style: "bold" };
  const pieces = print.byline(name, print.song(music.title, music.artist));
  return pieces.map((piece) => (typeof piece === "string" ? { text: piece } : piece));
}

/** The version's name in a frame. */
function chip(lines: readonly Line[], width: number, position: Position): StructureElement {
  const height = 18 + (lines.length - 1) * 10 * leading;
  const frame: Shape = { kind: "box", at: [0, 0], width, height, stroke: { tone: "ink", width: 1.2 } };
  const text = stackLines(lines, { ...position, x: position.x + 7, y: position.y + 3 });
  return { tag: "P", content: [{ ...position, shapes: [frame] }, ...text] };
}

/** The figures of a run, each over its unit. */
function facts(
  routine: Routine,
  { print: { figures }, time }: Wording,
): { readonly width: number; readonly place: (position: Position) => readonly StructureElement[] } {
  const { music } = routine;
  const firstCount = shownFirstCount(routine);
  const list: readonly (readonly [string, string])[] = [
    [String(routine.counts), figures.counts],
    [time.run(wholeRun(routine)), figures.run],
    [time.tempo(music), figures.tempo[music.feel]],
    [String(music.countIn), figures.countIn],
    ...(firstCount === undefined ? [] : [[time.track(firstCount), figures.firstCount] as const]),
  ];
  const set = list.map(([figureText, unit]) => {
    const [value] = wrap([{ text: figureText, style: "bold" }], 13);
    const [name] = wrap([{ text: unit, tone: "soft" }], 8);
    return { value, name, width: Math.max(value?.width ?? 0, name?.width ?? 0) + 16 };
  });
  const place = (position: Position) => {
    let { x } = position;
    return set.map(({ value, name, width }): StructureElement => {
      const at = { ...position, x };
      x += width;
      return {
        tag: "P",
        content: [
          ...(value === undefined ? [] : [{ ...at, line: value }]),
          ...(name === undefined ? [] : [{ ...at, y: at.y + 15, line: name }]),
        ],
      };
    });
  };
  return { width: set.reduce((sum, { width }) => sum + width, 0), place };
}

interface HeadLine {
  readonly label: string;
  readonly sign?: { readonly alt: string; readonly shapes: readonly Shape[] };
  readonly text: string;
}

function headLines(routine: Routine, version: Version, { within, wording }: SheetOptions): readonly HeadLine[] {
  const { print, stance, risks } = wording;
  const gear = version.gear.map(({ item, need }) => print.item(item, need === "optional"));
  const cautions = version.cautions.map((risk) => risks.of(risk, groupsMeeting(routine, version, risk)));
  const built = timesThrough(routine);
  return [
    ...(routine.mirrored ? [{ label: print.side, text: print.mirroredFor }] : []),
    ...dancersOf(routine, version).map(({ group, start }, index) => ({
      label: index === 0 ? print.starts : "",
      sign: { alt: stance.facing(start.facing), shapes: [facingSign(start.facing, [4.5, 0], 4.5)] },
      text: print.opening(print.start(group, stance.whole(start))),
    })),
    ...(routine.music.pauses.length === 0
      ? []
      : [{ label: print.pauses, text: print.opening(print.pausesOn(routine.music.pauses)) }]),
    ...(gear.length === 0 ? [] : [{ label: print.bring, text: print.opening(gear.join(", ")) }]),
    ...(cautions.length === 0
      ? []
      : [
          {
            label: print.takeCare,
            sign: { alt: print.caution, shapes: cautionSign([4.5, 0], 4.5) },
            text: print.opening(print.care(cautions, within)),
          },
        ]),
    ...(built === undefined
      ? []
      : [{ label: print.timesThrough(routine.walls), text: wording.run.timesThrough(built).join(" ") }]),
  ];
}

import type { Library, Routine, Version } from "../../routine/routine.js";
import { figure, type Mark, type Position, type StructureElement } from "../../typesetting/print.js";
import type { Shape } from "../../typesetting/shape.js";
import { type Span, textWidth, wrap } from "../../typesetting/text.js";
import { cautionSign, facingDart } from "../drawing/signs.js";
import { clockText, stanceText, startsOf, tempoText, trackText, versionName } from "../figures.js";
import { formText } from "../form.js";
import { cautionOf } from "../safety.js";
import { linesHeight, signFigure, stackLines } from "./cell.js";
import { codeDrawing } from "./code.js";
import { type Dance, routineAddress } from "./notes.js";

export interface Head {
  readonly elements: readonly StructureElement[];
  readonly height: number;
}

/** "Level 2 of 3", "Seated", and that it is the other side where it is. */
export function versionLine(routine: Routine, version: Version): string {
  const rung = routine.levels.indexOf(version.id);
  const of = rung >= 0 && routine.levels.length > 1 && /^\d+$/.test(version.id) ? ` of ${routine.levels.length}` : "";
  return `${versionName(version.id)}${of}${routine.mirrored ? ", mirrored" : ""}`;
}

const codeSize = 74;

export interface SheetOptions {
  /** In a pack the cautions and the gear of all routines stand on pages of their own. */
  readonly within: "handout" | "pack";
}

/** The top of a sheet: what it is, by whom, its figures, how it starts, what to bring and what to mind. */
export function layoutHead(
  { routine, version }: Dance,
  library: Library,
  { within }: SheetOptions,
  position: Position,
  width: number,
): Head {
  const address = routineAddress(routine, library);
  const room = address === undefined ? width : width - codeSize - 12;
  const elements: StructureElement[] = [];
  let y = position.y;
  const put = (tag: StructureElement["tag"], spans: readonly Span[], size: number, after = 0) => {
    const lines = wrap(spans, size, room);
    elements.push({ tag, content: stackLines(lines, { ...position, y }) });
    y += linesHeight(lines) + after;
  };
  put("P", [{ text: library.name, tone: "soft" }], 8.5, 1);
  put("H1", [{ text: routine.title, style: "bold" }], 25);
  put("P", bylineSpans(routine), 10, 5);
  elements.push(chip(versionLine(routine, version), { ...position, y }));
  elements.push(
    ...facts(routine, { ...position, y: y - 4 }, textWidth(versionLine(routine, version), 10, "bold") + 30),
  );
  y += 27;
  if (address !== undefined) {
    const code = codeDrawing(address, codeSize);
    const element = figure(code, { ...position, x: position.x + width - codeSize + 8, y: position.y - 8 });
    elements.push({
      tag: "Link",
      alt: `The routine's page, ${address}`,
      target: { href: address },
      content: [element],
    });
    y = Math.max(y, position.y + codeSize - 10);
  }
  for (const { label, sign, text } of headLines(routine, version, within)) {
    const lines = wrap([{ text }], 9.5, width - 72);
    const at = { ...position, y };
    const [name] = wrap([{ text: label, tone: "soft" }], 8);
    const marks: readonly Mark[] = name === undefined ? [] : [{ ...at, y: y + 1.6, line: name }];
    const signs =
      sign === undefined ? [] : [signFigure(sign.alt, sign.shapes, { ...at, x: position.x + 52, y: y + 6 })];
    elements.push({ tag: "P", content: [...marks, ...signs, ...stackLines(lines, { ...at, x: position.x + 66 })] });
    y += linesHeight(lines) + 1.5;
  }
  return { elements, height: y - position.y };
}

function bylineSpans({ choreographer, music }: Routine): readonly Span[] {
  const song = music.title === undefined ? [] : [{ text: ` to “${music.title}”` }];
  const artist =
    music.artist === undefined ? [] : [{ text: `${music.title === undefined ? " to music" : ""} by ${music.artist}` }];
  return [{ text: "Choreography: " }, { text: choreographer, style: "bold" }, ...song, ...artist];
}

/** The version's name in a frame. */
function chip(text: string, position: Position): StructureElement {
  const [line] = wrap([{ text, style: "bold" }], 10);
  if (line === undefined) return { tag: "P", content: [] };
  const frame: Shape = {
    kind: "box",
    at: [0, 0],
    width: line.width + 14,
    height: 18,
    stroke: { tone: "ink", width: 1.2 },
  };
  return {
    tag: "P",
    content: [
      { ...position, shapes: [frame] },
      { ...position, x: position.x + 7, y: position.y + 3, line },
    ],
  };
}

/** The figures of a run, each over its unit. */
function facts(routine: Routine, position: Position, indent: number): readonly StructureElement[] {
  const { music } = routine;
  const list: readonly (readonly [string, string])[] = [
    [String(routine.counts), "counts"],
    [clockText(routine.seconds), "one run"],
    [tempoText(music.countsPerMinute), music.feel === "triplet" ? "a minute, triplets" : "counts a minute"],
    [String(music.countIn), "counts in"],
    [trackText(music.firstCount), "first count"],
  ];
  let x = position.x + indent;
  return list.map(([figureText, unit]): StructureElement => {
    const at = { ...position, x };
    const [value] = wrap([{ text: figureText, style: "bold" }], 13);
    const [name] = wrap([{ text: unit, tone: "soft" }], 8);
    x += Math.max(value?.width ?? 0, name?.width ?? 0) + 16;
    return {
      tag: "P",
      content: [
        ...(value === undefined ? [] : [{ ...at, line: value }]),
        ...(name === undefined ? [] : [{ ...at, y: at.y + 15, line: name }]),
      ],
    };
  });
}

interface HeadLine {
  readonly label: string;
  readonly sign?: { readonly alt: string; readonly shapes: readonly Shape[] };
  readonly text: string;
}

function headLines(routine: Routine, version: Version, within: SheetOptions["within"]): readonly HeadLine[] {
  const { gear, cautions } = version;
  const bring = gear.map(({ item, need }) => (need === "optional" ? `${item} (optional)` : item));
  const form = formText(routine);
  const care = cautions.map((risk) => cautionOf(risk).label);
  return [
    ...startsOf(routine, version).map(({ group, start }) => ({
      label: "Starts",
      sign: { alt: `facing ${start.facing}`, shapes: [facingDart(start.facing, [4.5, 0], 4.5)] },
      text: sentence(`${group === undefined ? "" : `${group}: `}${stanceText(start)}`),
    })),
    ...(bring.length === 0 ? [] : [{ label: "Bring", text: sentence(bring.join(", ")) }]),
    ...(care.length === 0
      ? []
      : [
          {
            label: "Take care",
            sign: { alt: "caution", shapes: cautionSign([4.5, 0], 4.5) },
            text: `${sentence(care.join(", "))}. Read ${within === "pack" ? "the page on safety" : "the cautions below"} before you dance.`,
          },
        ]),
    ...(form.length === 0 ? [] : [{ label: routine.walls > 1 ? "Walls" : "Times", text: form.join(" ") }]),
  ];
}

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

import type { Glyph } from "fontkit";
import type { Face } from "./faces.js";
import type { Coordinates, Shape } from "./shape.js";
import { wrap } from "./text.js";

export type TextShape = Extract<Shape, { kind: "text" }>;

/** What one face sets of a text. */
export interface OutlineRun {
  /** Where it starts, from the text's start. */
  readonly x: number;
  /** How long a step of the letters' grid is. */
  readonly scale: number;
  /** Its letters as SVG path data, on a grid of their own, y upwards. */
  readonly data: string;
  /** Lines to draw in place of letters, at a size of 1. */
  readonly lines: readonly (readonly Coordinates[])[];
}

/** A text as outlines: a picture that stands by itself has no faces but the reader's own, whatever the page around it has. */
export function outlined({ text, size, bold }: TextShape): {
  readonly width: number;
  readonly runs: readonly OutlineRun[];
} {
  const [line] = wrap([{ text, style: bold === true ? "bold" : "regular" }], size);
  if (line === undefined) return { width: 0, runs: [] };
  const runs = line.pieces().map(({ face, text, x, lines = [] }): OutlineRun => {
    const { glyphs, positions } = face.font.layout(text);
    const unit = fineness / face.font.unitsPerEm;
    let pen = 0;
    const data = glyphs.map((glyph, index) => {
      const { xAdvance = 0, xOffset = 0 } = positions[index] ?? {};
      const letter = outlineOf(face, glyph);
      const at = `M${Math.round((pen + xOffset) * unit)} 0`;
      pen += xAdvance;
      return letter === "" ? "" : `${at}${letter}`;
    });
    return { x, scale: size / fineness, data: data.join(""), lines };
  });
  return { width: line.width, runs };
}

/** Points of a picture's grid in a type size: finer than a screen shows at the sizes of a picture's texts. */
const fineness = 250;

/** The same letters come again in every picture, so each is written once a process. */
const known = new Map<string, string>();

function outlineOf({ key, font }: Face, { id, path }: Glyph): string {
  const name = `${key} ${id}`;
  const outline = known.get(name) ?? pathData(path.commands, fineness / font.unitsPerEm);
  known.set(name, outline);
  return outline;
}

const signs: Readonly<Record<string, string>> = { moveTo: "m", lineTo: "l", quadraticCurveTo: "q", bezierCurveTo: "c" };

/** Path data that goes on from where the letter starts: the same wherever it stands, so that a file packs well. */
function pathData(commands: Glyph["path"]["commands"], unit: number): string {
  let [pen, start]: [Coordinates, Coordinates] = [
    [0, 0],
    [0, 0],
  ];
  let data = "";
  for (const { command, args } of commands) {
    if (command === "closePath") {
      data += "z";
      pen = start;
      continue;
    }
    const points = args.map((value) => Math.round(value * unit));
    data += `${signs[command] ?? ""}${points.map((value, index) => value - (pen[index % 2] ?? 0)).join(" ")}`;
    pen = [points.at(-2) ?? 0, points.at(-1) ?? 0];
    if (command === "moveTo") start = pen;
  }
  return data.replaceAll(" -", "-");
}

import { lastIndexOf } from "../practice/last-of.js";
import type { Beat } from "./laid.js";
import type { Shape } from "./sound.js";

/** What is to be seen of a song. */
export interface View {
  readonly shape: Shape;
  /** Seconds. */
  readonly length: number;
  readonly at: number;
  /** The part of it that is seen from near. */
  readonly from: number;
  readonly seconds: number;
  readonly beats: readonly Beat[];
  /** Where sections begin. */
  readonly begins: readonly { readonly at: number; readonly name: string }[];
  readonly taps: readonly { readonly at: number; readonly on: boolean }[];
  /** Marks as they were heard, before they went to a count. */
  readonly marks: readonly number[];
}

interface Colours {
  readonly ink: string;
  readonly quiet: string;
  readonly edge: string;
  readonly paper: string;
  readonly way: string;
}

interface Sheet {
  readonly pen: CanvasRenderingContext2D;
  readonly width: number;
  readonly height: number;
  readonly colours: Colours;
}

/** A canvas cleared, in the pixels of the page, sharp on any screen. */
function sheetOf(canvas: HTMLCanvasElement): Sheet | undefined {
  const pen = canvas.getContext("2d");
  const { clientWidth: width, clientHeight: height } = canvas;
  if (!pen || width === 0) return undefined;
  const scale = devicePixelRatio;
  const [wide, high] = [Math.round(width * scale), Math.round(height * scale)];
  if (canvas.width !== wide || canvas.height !== high) Object.assign(canvas, { width: wide, height: high });
  pen.setTransform(scale, 0, 0, scale, 0, 0);
  pen.clearRect(0, 0, width, height);
  const style = getComputedStyle(canvas);
  const colour = (name: string) => style.getPropertyValue(`--${name}`).trim();
  pen.font = [style.fontWeight, style.fontSize, style.fontFamily].join(" ");
  const colours = {
    ink: colour("ink"),
    quiet: colour("quiet"),
    edge: colour("edge"),
    paper: colour("paper"),
    way: colour("way"),
  };
  return { pen, width, height, colours };
}

/** Loudness as columns that stand on a line, one a pixel. */
function columns({ pen, width }: Sheet, { shape }: View, from: number, seconds: number, floor: number, high: number) {
  const perPixel = (seconds * shape.rate) / width;
  for (let x = 0; x < width; x++) {
    const first = Math.floor(from * shape.rate + x * perPixel);
    let peak = 0;
    for (let i = Math.max(0, first); i < Math.max(first + 1, first + perPixel); i++)
      peak = Math.max(peak, shape.peaks[i] ?? 0);
    if (peak > 0) pen.fillRect(x, floor - peak * high, 1, peak * high);
  }
}

/** Rows above the sound, for names and taps; below it, for the counts. */
const [names, tapRow, above, below] = [13, 28, 38, 30];

/** A few seconds: the sound standing on the floor, and below it what is counted. */
export function drawNear(canvas: HTMLCanvasElement, view: View): void {
  const sheet = sheetOf(canvas);
  if (!sheet) return;
  const { pen, width, height, colours } = sheet;
  const { from, seconds } = view;
  const floor = height - below;
  const xOf = (at: number) => ((at - from) / seconds) * width;
  const isSeen = ({ at }: { readonly at: number }) => at >= from - 1 && at <= from + seconds + 1;
  pen.fillStyle = colours.edge;
  columns(sheet, view, from, seconds, floor, floor - above);
  drawGrid(sheet, view, floor, xOf);
  pen.fillStyle = colours.ink;
  pen.fillRect(0, floor, width, 4);
  pen.textAlign = "start";
  for (const [index, begin] of view.begins.entries()) {
    if (!isSeen(begin)) continue;
    const { at, name } = begin;
    pen.fillRect(xOf(at) - 1, 0, 3, floor);
    const room = xOf(view.begins[index + 1]?.at ?? from + 2 * seconds) - xOf(at) - 12;
    pen.fillText(shortened(pen, name, room), xOf(at) + 6, names);
  }
  for (const at of view.marks) {
    pen.beginPath();
    pen.moveTo(xOf(at) - 5, 0);
    pen.lineTo(xOf(at) + 5, 0);
    pen.lineTo(xOf(at), 9);
    pen.fill();
  }
  drawTaps(sheet, view, xOf);
  pen.fillStyle = colours.way;
  pen.fillRect(xOf(view.at) - 1.5, 0, 3, height);
}

function drawGrid({ pen, colours, height }: Sheet, view: View, floor: number, xOf: (at: number) => number): void {
  const { from, seconds, beats } = view;
  const now = lastIndexOf(beats, ({ at }) => at <= view.at + 0.01);
  // So close that numbers would run into each other, only the 1 has one.
  const room = xOf(from + 0.6) - xOf(from);
  pen.textAlign = "center";
  pen.textBaseline = "alphabetic";
  for (const [index, beat] of beats.entries()) {
    if (beat.at < from - 1 || beat.at > from + seconds + 1) continue;
    const x = xOf(beat.at);
    const opens = beat.number === 1;
    pen.fillStyle = opens || beat.accent ? colours.ink : colours.quiet;
    const wide = opens ? 2.5 : beat.accent ? 1.5 : 1;
    const top = opens ? above - 4 : above + (floor - above) * 0.35;
    pen.fillRect(x - wide / 2, top, wide, floor - top);
    if (room < 16 && !opens) continue;
    const y = height - 8;
    if (index === now) {
      pen.beginPath();
      pen.arc(x, y - 5, 11, 0, 2 * Math.PI);
      pen.fillStyle = colours.ink;
      pen.fill();
      pen.fillStyle = colours.paper;
    }
    pen.fillText(String(beat.number), x, y);
  }
}

/** On the beat a disc; what was passed over is hollow. */
function drawTaps({ pen, colours }: Sheet, { taps, from, seconds }: View, xOf: (at: number) => number): void {
  pen.fillStyle = colours.ink;
  pen.strokeStyle = colours.ink;
  pen.lineWidth = 1.5;
  for (const { at, on } of taps) {
    if (at < from || at > from + seconds) continue;
    pen.beginPath();
    pen.arc(xOf(at), tapRow, on ? 4 : 4.5, 0, 2 * Math.PI);
    if (on) pen.fill();
    else pen.stroke();
  }
}

function shortened(pen: CanvasRenderingContext2D, text: string, room: number): string {
  if (pen.measureText(text).width <= room) return text;
  let short = text;
  while (short.length > 0 && pen.measureText(`${short}…`).width > room) short = short.slice(0, -1);
  return short === "" ? "" : `${short}…`;
}

/** Seconds between two times that are written down, the shortest that leave them room; and that room. */
const [steps, timeRoom] = [[5, 10, 15, 30, 60, 120, 300, 600, 1800], 64];
/** Below the sound, for the times. */
const timeRow = 20;

function drawTimes({ pen, width, height, colours }: Sheet, { length }: View): void {
  const step = steps.find((seconds) => (seconds / length) * width >= timeRoom) ?? length;
  pen.fillStyle = colours.quiet;
  pen.textBaseline = "alphabetic";
  pen.textAlign = "start";
  for (let at = 0; at < length; at += step) {
    const x = (at / length) * width;
    pen.fillRect(x, height - timeRow, 1, timeRow - 4);
    const text = `${Math.floor(at / 60)}:${String(at % 60).padStart(2, "0")}`;
    if (x + 4 + pen.measureText(text).width <= width) pen.fillText(text, x + 4, height - 4);
  }
}

/** The whole song with its minutes and seconds, and the part that is seen from near. */
export function drawWhole(canvas: HTMLCanvasElement, view: View): void {
  const sheet = sheetOf(canvas);
  if (!sheet) return;
  const { pen, width, colours } = sheet;
  const height = sheet.height - timeRow;
  const xOf = (at: number) => (at / view.length) * width;
  drawTimes(sheet, view);
  pen.fillStyle = colours.edge;
  columns(sheet, view, 0, view.length, height, height - 4);
  pen.fillStyle = colours.ink;
  const [first] = view.beats;
  for (const at of [...(first ? [first.at] : []), ...view.begins.map((one) => one.at)])
    pen.fillRect(xOf(at) - 1, 0, 2, height);
  pen.strokeStyle = colours.ink;
  pen.lineWidth = 2;
  pen.strokeRect(xOf(view.from) + 1, 1, Math.max(4, xOf(view.seconds) - 2), height - 2);
  pen.fillStyle = colours.way;
  pen.fillRect(xOf(view.at) - 1.5, 0, 3, height);
}

import { dancersOf } from "../../routine/chart.js";
import { shownFirstCount, wholeRun } from "../../routine/clock.js";
import type { Library, Routine, Version } from "../../routine/routine.js";
import { timesThrough } from "../../routine/times-through.js";
import { groupsMeeting, oppositeGroups } from "../../routine/whose.js";
import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import type { Shape } from "../../typesetting/shape.js";
import { ascent, type Line, leading, type Span, shortened, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { cautionSign, facingSign } from "../drawing/signs.js";
import { offeredAlone } from "../offered.js";
import { linesHeight, signFigure, smallest, stackLines } from "./cell.js";
import { codeLink } from "./code.js";
import { viewAddress } from "./credit.js";
import type { Dance } from "./dance.js";
import { gearTexts } from "./preparation.js";
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
const titleSize = 24;
/** Between the figures of a run. */
const apart = 13;

export interface SheetOptions {
  /** In a pack what holds for all routines stands on pages of its own: the gear, and whom the cautions defer to. */
  readonly within: "handout" | "pack";
  readonly wording: Wording;
}

/** The top of a sheet: what it is, by whom, its figures, how it starts, what to bring and what to mind. */
export function layoutHead(
  dance: Dance,
  library: Library,
  options: SheetOptions,
  position: Position,
  width: number,
): Head {
  const { wording } = options;
  const { routine } = dance;
  const address = viewAddress(dance, library);
  const room = address === undefined ? width : width - codeSize - 4;
  const elements: StructureElement[] = [];
  let y = position.y;
  const put = (tag: StructureElement["tag"], spans: readonly Span[], size: number, after = 0) => {
    const lines = wrap(spans, size, room);
    elements.push({ tag, content: stackLines(lines, { ...position, y }) });
    y += linesHeight(lines) + after;
  };
  put("P", [theirs(library.name, wording, { tone: "soft" })], smallest);
  // The name of the version stands behind the title where there is room, or else before the figures.
  const [title, ...more] = wrap([theirs(routine.title, wording, { style: "bold" })], titleSize, room);
  const titles = title === undefined ? [] : [title, ...more];
  elements.push({ tag: "H1", content: stackLines(titles, { ...position, y }) });
  const named = wrap(chipSpans(dance, wording), 10, room - 14);
  const chipWidth = Math.max(...named.map((one) => one.width)) + 14;
  const behind = (titles.at(-1)?.width ?? 0) + 14;
  const beside = named.length === 1 && behind + chipWidth <= room;
  y += linesHeight(titles);
  if (beside) elements.push(chip(named, chipWidth, { ...position, x: position.x + behind, y: y - 24 }));
  put("P", bylineSpans(routine, wording), 10, 4);
  if (!beside) {
    elements.push(chip(named, chipWidth, { ...position, y }));
    y += 24 + (named.length - 1) * 10 * leading;
  }
  elements.push(...facts(routine, wording).place({ ...position, y }));
  y += 19;
  if (address !== undefined) {
    const corner = { ...position, x: position.x + width - codeSize + 8, y: position.y - 8 };
    elements.push(codeLink(address, codeSize, corner, wording));
    y = Math.max(y, position.y + codeSize - 12);
  }
  for (const { label, sign, spans, size = 9.5 } of headLines(dance, options)) {
    const lines = wrap(spans, size, width - 68);
    const at = { ...position, y };
    const [heading] = wrap([{ text: label, tone: "soft" }], smallest);
    const marks: readonly Mark[] = heading === undefined ? [] : [{ ...at, y: y + 0.5, line: heading }];
    const signs =
      sign === undefined ? [] : [signFigure(sign.alt, sign.shapes, { ...at, x: position.x + 54, y: y + 6 })];
    elements.push({ tag: "P", content: [...marks, ...signs, ...stackLines(lines, { ...at, x: position.x + 68 })] });
    y += linesHeight(lines) + 1.5;
  }
  return { elements, height: y - position.y };
}

function bylineSpans({ choreographer, music }: Routine, { print }: Wording): readonly Span[] {
  const name: Span = { text: choreographer, style: "bold" };
  const pieces = print.byline(name, print.song(music.title, music.artist));
  return pieces.map((piece) => (typeof piece === "string" ? { text: piece } : piece));
}

/** The same of a sheet for one group: "Level 2 of 3, Flood". */
export function danceLine(
  { routine, version, group }: Dance,
  wording: Wording,
  fits: (text: string) => boolean = () => true,
): string {
  const whole = (name: string) => wording.print.versionOf(name, group);
  return whole(versionLine(routine, version, wording, (name) => fits(whole(name))));
}

/** "Level 1 of 3, the easiest · group Flood" */
function chipSpans({ routine, version, group }: Dance, wording: Wording): readonly Span[] {
  const own: Span = { text: versionLine(routine, version, wording), style: "bold" };
  const whose: readonly Span[] =
    group === undefined
      ? []
      : [{ text: wording.print.between + wording.print.groupOf }, { text: group, style: "bold" }];
  return [own, { text: rungText(routine, version, wording) }, ...whose];
}

/** After a version's name, where it is the easiest or the hardest level, or one whose name does not say which. */
export function rungText({ levels }: Routine, { id }: Version, { print }: Wording): string {
  return print.rung(levels.indexOf(id), levels.length, !/^\d+$/.test(id));
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
): { readonly place: (position: Position) => readonly StructureElement[] } {
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
    const [value] = wrap([{ text: figureText, style: "bold" }], 12);
    const [name] = wrap([{ text: unit, tone: "soft" }], smallest);
    const after = (value?.width ?? 0) + 3;
    return { value, name, after, width: after + (name?.width ?? 0) + apart };
  });
  const place = (position: Position) => {
    let { x } = position;
    return set.map(({ value, name, after, width }): StructureElement => {
      const at = { ...position, x };
      x += width;
      return {
        tag: "P",
        content: [
          ...(value === undefined ? [] : [{ ...at, line: value }]),
          // On the same base line.
          ...(name === undefined ? [] : [{ ...at, x: at.x + after, y: at.y + (12 - smallest) * ascent, line: name }]),
        ],
      };
    });
  };
  return { place };
}

interface HeadLine {
  readonly label: string;
  readonly sign?: { readonly alt: string; readonly shapes: readonly Shape[] };
  readonly spans: readonly Span[];
  readonly size?: number;
}

function headLines(dance: Dance, { within, wording }: SheetOptions): readonly HeadLine[] {
  const { routine, version } = dance;
  const { print, stance } = wording;
  const built = timesThrough(routine);
  const across = oppositeGroups(routine);
  return [
    ...dancersOf(routine, version).map(({ group = "", start }, index) => ({
      label: index === 0 ? print.starts : "",
      sign: { alt: stance.facing(start.facing), shapes: [facingSign(start.facing, [4.5, 0], 4.5)] },
      spans: [{ text: print.opening(print.start(group, stance.whole(start), across.has(group))) }],
    })),
    ...(routine.music.pauses.length === 0
      ? []
      : [{ label: print.pauses, spans: [{ text: print.opening(print.pausesOn(routine.music.pauses)) }] }]),
    ...gearLine(dance, within, wording),
    ...(built === undefined
      ? []
      : [{ label: print.timesThrough(routine.walls), spans: [{ text: wording.run.timesThrough(built).join(" ") }] }]),
    ...cautionLine(routine, version, within, wording),
  ];
}

/** What to bring; where no page of a pack says why, that too. */
function gearLine({ routine, version }: Dance, within: SheetOptions["within"], wording: Wording): readonly HeadLine[] {
  const { print } = wording;
  if (version.gear.length === 0) return [];
  const items = version.gear.map(({ item, need }) => print.item(item, need === "optional"));
  if (within === "pack") return [{ label: print.bring, spans: [{ text: print.opening(items.join(", ")) }] }];
  const texts = gearTexts([offeredAlone(routine, version)], wording);
  const [first, ...rest] = texts.flatMap((text, index): readonly Span[] => [
    ...(index === 0 ? [] : [{ text: print.between }]),
    ...text,
  ]);
  const spans = first === undefined ? [] : [{ ...first, text: print.opening(first.text) }, ...rest];
  return [{ label: print.bring, spans }];
}

/** What to take care of, each by its name and in its own sentence; or else what holds for every dance. */
function cautionLine(
  routine: Routine,
  version: Version,
  within: SheetOptions["within"],
  { print, risks }: Wording,
): readonly HeadLine[] {
  const none = version.cautions.length === 0;
  if (none && within === "pack") return [];
  const general: readonly Span[] = none ? [{ text: risks.generalCaution }] : [];
  const spans = version.cautions.flatMap((risk): readonly Span[] => [
    { text: `${print.opening(risks.of(risk, groupsMeeting(routine, version, risk)))}. `, style: "bold" },
    { text: `${risks.caution(risk)} ` },
  ]);
  const sign = { alt: print.caution, shapes: cautionSign([4.5, 0], 4.5) };
  return [{ label: print.takeCare, sign, spans: [...spans, ...general], ...(none && { size: smallest }) }];
}

import type { Routine } from "../../routine/routine.js";
import type { Facing } from "../../routine/vocabulary.js";
import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import { type Line, type Span, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { facingSign } from "../drawing/signs.js";
import { feelTexts } from "../feel-texts.js";
import { type Band, canonFacts } from "./bands.js";
import { linesHeight, sign, signFigure, smallest, stackLines } from "./cell.js";
import { facingTexts } from "./facings.js";
import { waitText } from "./run-order.js";
import { theirs } from "./theirs.js";

/** The line over a section's rows: its name, which way they face, its landing words, and how it differs from the rest. */
export interface SectionBar {
  readonly height: number;
  /** What the section's header cell holds. */
  readonly place: (position: Position) => readonly StructureElement[];
}

const nameSize = 10;
const above = 2;
/** Least width of what stands beside a name; where there is less room, it stands under it. */
const least = 150;

export function sectionBar(band: Band, routine: Routine, width: number, wording: Wording): SectionBar {
  const { number, section, rows } = band;
  const apart = rows[0]?.facesApart === true || rows[0]?.facings !== undefined;
  const name = [{ text: `${number} `, style: "bold" } as const, theirs(section.name, wording, { style: "bold" })];
  return layoutBar(
    {
      name,
      tag: "H2",
      rest: aboutSection(band, routine, wording),
      facing: apart ? undefined : rows[0]?.facing,
    },
    width,
    wording,
  );
}

/** Over the rest of a section on the next page, or where its counts have other numbers. */
export function continuedBar({ number, section }: Band, width: number, wording: Wording): SectionBar {
  const name = theirs(`${section.name} `, wording, { style: "bold" });
  const spans: readonly Span[] = [{ text: `${number} `, style: "bold" }, name, { text: wording.print.continued }];
  return layoutBar({ name: spans, tag: "P", rest: [], facing: undefined }, width, wording);
}

interface BarContent {
  readonly name: readonly Span[];
  readonly tag: "H2" | "P";
  readonly rest: readonly Span[];
  readonly facing: Facing | undefined;
}

function layoutBar({ name, tag, rest, facing }: BarContent, width: number, wording: Wording): SectionBar {
  const names = wrap(name, nameSize, width - 24);
  const signX = (names.at(-1)?.width ?? 0) + 6;
  const beside = signX + (facing === undefined ? 0 : sign.width + 8);
  const under = width - beside < least;
  const lines = wrap(rest, smallest, under ? width : width - beside);
  const namesHeight = linesHeight(names);
  // The last line of the name and the first of the rest share their base line.
  const restY = above + (under ? namesHeight : namesHeight - lastHeight(names) + (nameSize - smallest) * 0.94);
  const height = Math.max(above + namesHeight, restY + linesHeight(lines)) + 1;
  return {
    height,
    place: (position) => {
      const heading: readonly (StructureElement | Mark)[] = stackLines(names, { ...position, y: position.y + above });
      const at = { ...position, x: position.x + signX, y: position.y + above + namesHeight - nameSize * 0.6 };
      const figure =
        facing === undefined
          ? []
          : [signFigure(wording.stance.facing(facing), [facingSign(facing, [4.5, 0], 4.5)], at)];
      const text = { ...position, x: position.x + (under ? 0 : beside), y: position.y + restY };
      return [
        { tag, content: heading },
        ...(figure.length + lines.length === 0
          ? []
          : [{ tag: "P", content: [...figure, ...stackLines(lines, text)] } as const]),
      ];
    },
  };
}

const lastHeight = (lines: readonly Line[]): number => linesHeight(lines.slice(-1));

/** Its landing words, and how it differs from the rest. */
function aboutSection(band: Band, routine: Routine, wording: Wording): readonly Span[] {
  const { print, time } = wording;
  const { section, again } = band;
  const words: readonly Span[] =
    section.words === undefined ? [] : [theirs(print.quoted(section.words), wording, { style: "italic" })];
  const other = !section.countsPerMinute.equals(routine.music.countsPerMinute);
  const facts = [
    ...facingTexts(band.rows[0]?.facings ?? [], wording),
    ...(section.mirrored ? [print.otherSide] : []),
    ...(section.improvised ? [print.ownSection] : []),
    ...(other ? [print.tempoHere(time.tempo(section))] : []),
    ...feelTexts(routine, section, wording),
    ...(band.everybody ? [print.everybody] : []),
    ...canonFacts(band, wording),
    ...[again, waitText(routine, band.entry.section, wording)].filter((text) => text !== ""),
  ];
  return [...words, ...facts.map((text, index): Span => ({ text: index + words.length === 0 ? text : ` · ${text}` }))];
}

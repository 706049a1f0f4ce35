import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import type { Shape } from "../../typesetting/shape.js";
import { leading, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { accentDisc, cautionSign, facingSign, hitCorner, otherSide, upsideDown } from "../drawing/signs.js";
import type { Band } from "./bands.js";
import { sign, smallest } from "./cell.js";

export interface Legend {
  /** What the signs mean; they themselves are decoration, since the words say it all. */
  readonly element: StructureElement;
  readonly decoration: readonly Mark[];
  readonly height: number;
}

/** Between one entry and the next. */
const apart = 12;
const step = smallest * leading + 1;

/** What signs mean, one beside the other. */
export function layoutLegend(entries: readonly LegendEntry[], position: Position, width: number): Legend {
  let { x, y } = position;
  const decoration: Mark[] = [];
  const content = entries.flatMap(([text, shapes]): readonly Mark[] => {
    const [set] = wrap([{ text, tone: "soft" }], smallest);
    if (set === undefined) return [];
    if (x > position.x && x + sign.width + sign.gap + set.width > position.x + width) {
      x = position.x;
      y += step;
    }
    decoration.push({ page: position.page, x, y, shapes });
    const mark: Mark = { page: position.page, x: x + sign.width + sign.gap, y, line: set };
    x += sign.width + sign.gap + set.width + apart;
    return [mark];
  });
  return { element: { tag: "P", content }, decoration, height: y + step - position.y };
}

export type LegendEntry = readonly [text: string, shapes: readonly Shape[]];

const middle = [sign.width / 2, 5.5] as const;

/** The signs of a grid, as far as it has them. */
export function gridSigns(bands: readonly Band[], { print: { legend } }: Wording): readonly LegendEntry[] {
  const rows = bands.flatMap((band) => band.rows);
  const cells = rows.flatMap((row) => row.cells);
  const accent: readonly Shape[] = [
    { kind: "box", at: [-1, 0], width: 11, height: 11, fill: "tint" },
    accentDisc(middle, 3.6),
  ];
  const arrow: Shape = {
    kind: "path",
    points: [
      [3, 1.5],
      [7, 5.5],
      [3, 9.5],
    ],
    stroke: { tone: "ink", width: 1.2 },
  };
  return used([
    [rows.some(({ accents }) => accents.length > 0), [legend.accent, accent]],
    [cells.some(({ move, begins }) => move.hit && begins), [legend.hit, [hitCorner([1.5, 1.5], 6)]]],
    [cells.some(({ move }) => move.cautions.length > 0), [legend.caution, cautionSign(middle, 4.5)]],
    [cells.some(({ ends }) => !ends), [legend.goesOn, [arrow]]],
    [true, [legend.facing, [facingSign("front", middle, 4.5)]]],
  ]);
}

/** The signs that only the map has. */
export function mapSigns(bands: readonly Band[], { print: { legend } }: Wording): readonly LegendEntry[] {
  const moves = bands.flatMap(({ rows }) => rows.flatMap(({ cells }) => cells.map(({ move }) => move)));
  const inverted = moves.some(({ after, through }) => after.height === "inverted" || through === "inverted");
  return used([
    [inverted, [legend.inverted, [upsideDown(middle, 4)]]],
    [bands.some(({ section }) => section.mirrored), [legend.otherSide, otherSide(middle, 4)]],
  ]);
}

function used(entries: readonly (readonly [boolean, LegendEntry])[]): readonly LegendEntry[] {
  return entries.flatMap(([is, entry]) => (is ? [entry] : []));
}

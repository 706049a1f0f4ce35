import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import { line, type Shape } from "../../typesetting/shape.js";
import { leading, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { accentDisc, cautionSign, facingSign, hitCorner, otherSide, upsideDown } from "../drawing/signs.js";
import type { Band } from "./bands.js";
import { sign, smallest } from "./cell.js";

export interface Legend {
  readonly element: StructureElement;
  readonly decoration: readonly Mark[];
  readonly height: number;
}

/** Between one entry and the next. */
const apart = 14;
const step = smallest * leading + 2;

/** What the signs of a grid mean, as far as it has them; closes the grid with a rule. */
export function layoutLegend(bands: readonly Band[], position: Position, width: number, wording: Wording): Legend {
  let { x } = position;
  let y = position.y + 5;
  const content = entriesFor(bands, wording).flatMap(([text, shapes]): readonly (StructureElement | Mark)[] => {
    const [set] = wrap([{ text, tone: "soft" }], smallest);
    if (set === undefined) return [];
    if (x + sign.width + sign.gap + set.width > position.x + width) {
      x = position.x;
      y += step;
    }
    const box = [x, y, x + sign.width, y + 10] as const;
    const figure: StructureElement = {
      tag: "Figure",
      alt: wording.print.legend.sign,
      box,
      content: [{ page: position.page, x, y, shapes }],
    };
    const mark: Mark = { page: position.page, x: x + sign.width + sign.gap, y, line: set };
    x += sign.width + sign.gap + set.width + apart;
    return [figure, mark];
  });
  const rule = line("ink", 1.3, [0, 0], [width, 0]);
  return {
    element: { tag: "P", content },
    decoration: [{ ...position, shapes: [rule] }],
    height: y + step - position.y,
  };
}

type LegendEntry = readonly [text: string, shapes: readonly Shape[]];

function entriesFor(bands: readonly Band[], { print: { legend } }: Wording): readonly LegendEntry[] {
  const rows = bands.flatMap((band) => band.rows);
  const moves = rows.flatMap(({ cells }) => cells.map(({ move }) => move));
  const middle = [sign.width / 2, 5] as const;
  const entries: readonly (readonly [boolean, LegendEntry])[] = [
    [rows.some(({ accents }) => accents.length > 0), [legend.accent, [accentDisc(middle, 4)]]],
    [moves.some(({ hit }) => hit), [legend.hit, [hitCorner([1.5, 1.5], 6)]]],
    [moves.some(({ cautions }) => cautions.length > 0), [legend.caution, cautionSign(middle, 4.5)]],
    [
      moves.some(({ after, through }) => after.height === "inverted" || through === "inverted"),
      [legend.inverted, [upsideDown(middle, 4)]],
    ],
    [bands.some(({ section }) => section.mirrored), [legend.otherSide, otherSide(middle, 4)]],
    [true, [legend.facing, [facingSign("front", middle, 4.5)]]],
  ];
  return entries.flatMap(([used, entry]) => (used ? [entry] : []));
}

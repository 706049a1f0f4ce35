import type { Library } from "../../routine/routine.js";
import { type Block, textBlock } from "../../typesetting/block.js";
import type { Span } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { gearIn, meeting, type Offered, riskName, risksIn } from "../offered.js";
import { proseBlocks } from "./markdown.js";
import { bold, bullet, italic, type NoteStyle, plain, under } from "./note-style.js";
import { placesOf, sharedSections } from "./printed-moves.js";
import { theirs } from "./theirs.js";

/**
 * What to bring, each item once, with whose it is, every reason and every place where it is used.
 *
 * @param places false where there is room for the things alone: the sheets say where they are used
 */
export function gearBlocks(dances: readonly Offered[], style: NoteStyle, places = true): readonly Block[] {
  const blocks = gearTexts(dances, style.wording, places).map((spans) => bullet(spans, style));
  return under(style.wording.print.gear, blocks, style);
}

/** The same, an item a text. */
export function gearTexts(dances: readonly Offered[], wording: Wording, places = true): readonly (readonly Span[])[] {
  const { print } = wording;
  const all = dances.flatMap((dance) => gearIn(dance, wording).map((gear) => ({ ...gear, dance })));
  return [...new Set(all.map(({ item }) => item.toLowerCase()))].map((name) => {
    const uses = all.filter(({ item }) => item.toLowerCase() === name);
    const reasons = uses.map(({ why, only, dance }) => {
      const used = placesOf(sharedSections(dance), wording, ({ gear }) =>
        gear.some((one) => one.toLowerCase() === name),
      );
      const whole = [
        ...(only === undefined ? [] : [print.neededBy(only)]),
        ...(why === undefined ? [] : [why]),
        ...(used === "" || !places ? [] : [print.usedFor(used)]),
      ].join("; ");
      return dances.length === 1 ? whole : [dance.routine.title, ...(whole === "" ? [] : [whole])].join(": ");
    });
    const tail = reasons.filter((reason) => reason !== "").join(". ");
    const optional = uses.every((one) => one.optional);
    const after = `${optional ? print.optionally : ""}${tail === "" ? "" : `: ${tail}`}`;
    return [theirs(uses[0]?.item ?? name, wording, { style: "bold" }), plain(after)];
  });
}

/**
 * The cautions in full, whose they are, where they apply, and whom they defer to.
 *
 * @param where false where there is room for the cautions alone: the sheets have them beside the moves
 * @param general false where that stands elsewhere to which all of them defer
 */
export function cautionBlocks(
  dances: readonly Offered[],
  library: Library,
  style: NoteStyle,
  { where = true, general = true }: { readonly where?: boolean; readonly general?: boolean } = {},
): readonly Block[] {
  const { wording } = style;
  const { print, risks: cautions } = wording;
  const items = risksIn(dances).map((risk) => {
    const places = dances.flatMap((dance) => {
      if (meeting(dance, risk).length === 0) return [];
      const here = placesOf(sharedSections(dance), wording, (move) => move.cautions.includes(risk));
      const { title } = dance.routine;
      if (dances.length === 1) return here === "" ? [] : [here];
      return [here === "" ? title : `${title}: ${here}`];
    });
    const here = places.length === 0 || !where ? [] : [italic(` (${places.join(". ")})`)];
    const name = riskName(dances, risk, wording);
    return bullet([bold(`${print.opening(name)}. `), plain(cautions.caution(risk)), ...here], style);
  });
  const deferring = general ? [textBlock([plain(cautions.generalCaution)], style)] : [];
  return under(print.takeCare, [...items, ...deferring, ...houseBlocks(library, style)], style);
}

/**
 * Whom all cautions defer to, and the house's own rules.
 *
 * @param general false where the first of them stands elsewhere
 */
export function deferringBlocks(library: Library, style: NoteStyle, general: boolean): readonly Block[] {
  const { print, risks } = style.wording;
  const lead = bold(`${print.leading(print.takeCare)} `);
  if (!general) return houseBlocks(library, style, lead);
  const first = textBlock([lead, plain(risks.generalCaution)], { ...style, before: style.size });
  return [first, ...houseBlocks(library, style)];
}

function houseBlocks({ cautions }: Library, style: NoteStyle, lead?: Span): readonly Block[] {
  return cautions === undefined ? [] : proseBlocks(cautions, { ...style, level: 3, ...(lead && { lead }) });
}

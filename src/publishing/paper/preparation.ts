import type { Library } from "../../routine/routine.js";
import { risks } from "../../routine/vocabulary.js";
import { whoMeets } from "../../routine/whose.js";
import { type Block, textBlock } from "../../typesetting/block.js";
import type { Dance } from "./dance.js";
import { proseBlocks } from "./markdown.js";
import { bold, bullet, italic, type NoteStyle, plain, under } from "./note-style.js";
import { placesOf, printedSections } from "./printed-moves.js";
import { theirs } from "./theirs.js";

/** What to bring, each item once, with every reason and every place where it is used. */
export function gearBlocks(dances: readonly Dance[], style: NoteStyle): readonly Block[] {
  const { wording } = style;
  const { print } = wording;
  const names = new Set(dances.flatMap(({ version }) => version.gear.map(({ item }) => item.toLowerCase())));
  const blocks = [...names].map((name) => {
    const uses = dances.flatMap((dance) => dance.version.gear.filter(isItem(name)).map((gear) => ({ ...gear, dance })));
    const optional = uses.every(({ need }) => need === "optional");
    const reasons = uses.map(({ why, dance }) => {
      const used = placesOf(printedSections(dance.routine, dance.version), wording, ({ gear }) =>
        gear.some((one) => one.toLowerCase() === name),
      );
      const whole = [...(why === undefined ? [] : [why]), ...(used === "" ? [] : [print.usedFor(used)])].join("; ");
      return dances.length === 1 ? whole : [dance.routine.title, ...(whole === "" ? [] : [whole])].join(": ");
    });
    const tail = reasons.filter((reason) => reason !== "").join(". ");
    const item = uses[0]?.item ?? name;
    const after = `${optional ? print.optionally : ""}${tail === "" ? "" : `: ${tail}`}`;
    return bullet([theirs(item, wording, { style: "bold" }), plain(after)], style);
  });
  return under(print.gear, blocks, style);
}

const isItem = (name: string) => (gear: { readonly item: string }) => gear.item.toLowerCase() === name;

/** The cautions in full, where they apply, and whom they defer to. */
export function cautionBlocks(dances: readonly Dance[], library: Library, style: NoteStyle): readonly Block[] {
  const { wording } = style;
  const { print, risks: cautions } = wording;
  const met = risks.filter((risk) => dances.some(({ version }) => version.cautions.includes(risk)));
  const items = met.map((risk) => {
    const places = dances.flatMap(({ routine, version }) => {
      const here = placesOf(printedSections(routine, version), wording, (move) => move.cautions.includes(risk));
      if (!version.cautions.includes(risk)) return [];
      return dances.length === 1
        ? here === ""
          ? []
          : [here]
        : [here === "" ? routine.title : `${routine.title}: ${here}`];
    });
    const where = places.length === 0 ? [] : [italic(` (${places.join(". ")})`)];
    const name = cautions.of(risk, whoMeets(dances, risk));
    return bullet([bold(`${print.opening(name)}. `), plain(cautions.caution(risk)), ...where], style);
  });
  const house = library.cautions === undefined ? [] : proseBlocks(library.cautions, { ...style, level: 3 });
  return under(print.takeCare, [...items, textBlock([plain(cautions.generalCaution)], style), ...house], style);
}

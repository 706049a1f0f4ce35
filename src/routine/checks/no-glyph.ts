import { everyMove } from "../every-move.js";
import { unprintable } from "../printable.js";
import type { Place } from "../problem.js";
import type { WrittenMove, WrittenRoutine, WrittenSection } from "../written.js";
import { counts, type Remark, type Rule } from "./rule.js";

export const noGlyph: Rule = {
  name: "no-glyph",
  severity: "warning",
  why: "Paper has only the letters of the bundled faces: Latin, Greek and Cyrillic, and arrows. A sign that they lack (an emoji) is printed as [?], so that nobody meets an empty box.",
  good: counts("1-4: Drag to the left\n5-8: Hold"),
  bad: counts("1-4: Drag 👣 left\n5-8: Hold"),
  find: ({ written }) =>
    [
      ...headTexts(written),
      ...written.sections.flatMap(sectionTexts),
      ...everyMove(written).flatMap(moveTexts),
    ].flatMap(({ place, text }): readonly Remark[] => {
      const signs = text === undefined ? [] : unprintable(text);
      if (signs.length === 0) return [];
      const named = signs.map((sign) => `"${sign}"`).join(", ");
      return [{ place, message: `the faces of the printed sheet do not have ${named}; write it in words` }];
    }),
};

interface Text {
  readonly place: Place;
  readonly text: string | undefined;
}

function headTexts({ place, title, choreographer, credit, music, gear, prose }: WrittenRoutine): readonly Text[] {
  return [
    { place: `${place}/title`, text: title },
    { place: `${place}/choreographer`, text: choreographer },
    { place: `${place}/credit`, text: credit },
    { place: `${music.place}/title`, text: music.title },
    { place: `${music.place}/artist`, text: music.artist },
    ...gear.flatMap((item) => [
      { place: `${item.place}/item`, text: item.item },
      { place: `${item.place}/why`, text: item.why },
    ]),
    {
      place: `${place}/prose`,
      text: [prose.introduction, ...prose.notes.map(({ markdown }) => markdown), prose.after].join(" "),
    },
  ];
}

function sectionTexts({ place, name, words, counts: phrases }: WrittenSection): readonly Text[] {
  return [
    { place: `${place}/name`, text: name },
    { place: `${place}/words`, text: words },
    ...(phrases ?? []).map((phrase) => ({ place: `${phrase.place}/say`, text: phrase.say?.join(" ") })),
  ];
}

function moveTexts({ place, cue, say, note, words, choose, gear }: WrittenMove): readonly Text[] {
  return [
    { place: `${place}/do`, text: cue.text },
    { place: `${place}/say`, text: say?.calls.map(({ text }) => text).join(" ") },
    { place: `${place}/note`, text: note?.text },
    { place: `${place}/words`, text: words },
    { place: `${place}/gear`, text: gear.join(" ") },
    ...choose.map(({ text }) => ({ place: `${place}/choose`, text })),
  ];
}

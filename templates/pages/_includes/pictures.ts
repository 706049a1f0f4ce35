import { type Html, html, raw } from "#src/publishing/site/html.js";
import type { PictureView, RoutineView } from "#src/publishing/site/routine-view.js";
import type { Wording } from "#src/wording/wording.js";
import { fold } from "./fold.js";

/** The maps and floor plans. Only what is shown is fetched: a browser leaves a picture out of sight alone until it comes near. */
export function pictures(
  { maps, floors, facts, groups, firstCount }: RoutineView,
  { routine: words }: Wording,
): Html | false {
  if (maps.length === 0) return false;
  const dancer = groups.length === 0 ? words.oneDancer : words.eachGroup;
  const mapText = (map: PictureView, mirrored: boolean) => words.mapText(map.name, mirrored, firstCount !== undefined);
  const floorText = (floor: PictureView, mirrored: boolean) =>
    words.floorText(floor.name, mirrored, dancer, facts.times);
  return fold(
    "pictures",
    words.pictures,
    words.picturesLine(floors.length > 0),
    html`<div class="pictures"><div class="strip">${maps.map((map) => picture(map, mapText))}</div>
${floors.length > 0 && html`<div class="floor">${floors.map((floor) => picture(floor, floorText))}<p class="floor-caption">${words.floorCaption(dancer, facts.times)}</p></div>`}</div>`,
  );
}

function picture(of: PictureView, textOf: (of: PictureView, mirrored: boolean) => string): Html {
  const side = (name: string, own: PictureView["asTaught"], mirrored: boolean) => {
    const text = textOf(of, mirrored);
    if (own.folded === undefined)
      return html`<img class="${name}" ${source("src", own.whole)} loading="lazy" alt="${text}">`;
    return html`<picture class="${name}"><source media="(min-width: 48rem)" ${source("srcset", own.whole)}><img ${source("src", own.folded)} loading="lazy" alt="${text}"></picture>`;
  };
  return html`<figure class="${of.classes}">${side("as-taught", of.asTaught, false)}${side("mirrored", of.mirrored, true)}</figure>`;
}

function source(name: string, { file, size }: PictureView["asTaught"]["whole"]): Html {
  return html`${raw(name)}="${file}"${size && raw(` width="${size.width}" height="${size.height}"`)}`;
}

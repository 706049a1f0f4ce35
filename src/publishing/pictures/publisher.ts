import { mirror } from "../../routine/mirror.js";
import type { Library, Routine } from "../../routine/routine.js";
import type { Drawing } from "../../typesetting/shape.js";
import { svgText } from "../../typesetting/svg.js";
import { wordingOf } from "../../wording/wording.js";
import { floorPlan } from "../drawing/floor-plan.js";
import { phraseMap } from "../drawing/phrase-map.js";
import type { OutFile, Publisher } from "../publisher.js";

/** The pictures of a routine as files of their own, which its page shows: every version, on both sides. */
export const pictures: Publisher<Routine> = {
  name: "pictures",
  publish: (routine, { library }) => [
    ...sidePictures(routine, library, ""),
    ...sidePictures(mirror(routine), library, "-mirrored"),
  ],
};

function sidePictures(routine: Routine, library: Library, side: string): readonly OutFile[] {
  const wording = wordingOf(library.language);
  return routine.versions.flatMap((version) => {
    const map = phraseMap(routine, version, { width: 760, size: 12, wording });
    const folded = phraseMap(routine, version, { width: 300, size: 12, strips: 4, wording });
    const plan = floorPlan(routine, version, library, { width: 320, size: 12, wording });
    const file = (name: string, drawing: Drawing): OutFile => ({
      path: `routines/${routine.slug}/${name}-${version.id}${side}.svg`,
      kind: "picture",
      mediaType: "image/svg+xml",
      size: { width: Math.round(drawing.width), height: Math.round(drawing.height) },
      content: pictureText(drawing),
    });
    return [file("map", map), file("folded-map", folded), ...(plan ? [file("floor", plan)] : [])];
  });
}

/** The same ink on paper as the page around it, by day and by night. */
const style = `<style>
.fill-paper{fill:#fbf5ea}.fill-tint{fill:#f3e8d7}.fill-ink{fill:#2a1c17}.fill-beat{fill:#8c2a1c}.fill-soft{fill:#5f4b3c}.fill-line{fill:#9d8873}
.stroke-ink{stroke:#2a1c17}.stroke-soft{stroke:#5f4b3c}.stroke-line{stroke:#9d8873}.stroke-tint{stroke:#d9c7af}.stroke-paper{stroke:#fbf5ea}
@media (prefers-color-scheme:dark){
.fill-paper{fill:#1b1513}.fill-tint{fill:#281f1b}.fill-ink{fill:#f6ebdd}.fill-beat{fill:#ff8a75}.fill-soft{fill:#cab8a7}.fill-line{fill:#7d6a5d}
.stroke-ink{stroke:#f6ebdd}.stroke-soft{stroke:#cab8a7}.stroke-line{stroke:#7d6a5d}.stroke-tint{stroke:#4d3d34}.stroke-paper{stroke:#1b1513}}
</style>`;

function pictureText(drawing: Drawing): string {
  return `${svgText(drawing, "m").replace("<title", `${style}<title`)}\n`;
}

import { wholeRun } from "../../routine/clock.js";
import type { Library, Routine, Workshop } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import type { OutFile, Publisher } from "../publisher.js";
import { type Cover, coverPicture } from "./cover.js";
import { iconPicture } from "./icon.js";
import { type Indexed, pngFile } from "./png.js";

/* The pictures that stand for a page where its address is shared: beside it, of one name. Without an address there is nothing to share. */

/** Counts and accents of a picture that is of no routine alone. */
const plainPhrase = { phrase: 8, accents: [] };

/** The picture of a routine: `routines/<slug>/preview.png`. */
export const preview: Publisher<Routine> = {
  name: "preview",
  publish: (routine, { library }) =>
    shared(library, `routines/${routine.slug}/`, () => previewPicture(routine, library)),
};

/** The picture of a workshop: `workshops/<slug>/preview.png`. */
export const workshopPreview: Publisher<Workshop> = {
  name: "preview",
  publish: (workshop, { library }) =>
    shared(library, `workshops/${workshop.slug}/`, () => coverPicture(workshopCover(workshop, library))),
};

/** Of a library only this is looked at. */
interface Whole {
  readonly facts: { readonly routines: readonly unknown[]; readonly workshops: readonly unknown[] };
}

/** The picture of the library, `preview.png`, and its sign on a phone's first screen. */
export const libraryPreview: Publisher<Whole> = {
  name: "preview",
  publish: ({ facts }, { library }) => [
    ...shared(library, "", () => coverPicture(libraryCover(facts, library))),
    ...[192, 512].map((size) => picture(`assets/icon-${size}.png`, iconPicture(size))),
  ],
};

function shared({ url }: Library, folder: string, draw: () => Indexed): readonly OutFile[] {
  return url === undefined ? [] : [picture(`${folder}preview.png`, draw())];
}

function picture(path: string, pixels: Indexed): OutFile {
  return { path, kind: "picture", mediaType: "image/png", content: pngFile(pixels) };
}

export function previewPicture(routine: Routine, library: Library): Indexed {
  const { preview, time } = wordingOf(library.language);
  const { counts, music, title, choreographer } = routine;
  return coverPicture({
    over: library.name,
    title,
    byline: preview.byline(choreographer),
    phrase: music.phrase,
    accents: music.accents,
    figures: preview.figures(counts, time.run(wholeRun(routine)), time.tempo(music)),
  });
}

function workshopCover({ title, date, venue, minutes, routines }: Workshop, library: Library): Cover {
  const { preview, dates } = wordingOf(library.language);
  const day = date === undefined ? undefined : dates.weekday(date);
  return {
    over: library.name,
    title,
    byline: [day, venue].filter((text) => text !== undefined).join(" · "),
    ...plainPhrase,
    figures: preview.classFigures(minutes, routines.length),
  };
}

function libraryCover({ routines, workshops }: Whole["facts"], library: Library): Cover {
  const { preview } = wordingOf(library.language);
  const figures = preview.libraryFigures(routines.length, workshops.length);
  return { over: "", title: library.name, byline: library.teacher ?? "", ...plainPhrase, figures };
}

import type { Workshop } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import type { Context, DeclaredFile, Publisher } from "../publisher.js";

/** Everything for one class on paper: `workshops/<slug>/pack.pdf`. */
export const pack: Publisher<Workshop> = {
  name: "pack",
  async publish(workshop, context) {
    // What draws takes a while to load, and pages are made without it.
    const { drawPack } = await import("./pack.js");
    return [{ ...declared(workshop, context), content: await drawPack(workshop, context.library) }];
  },
  declare: (workshop, context) => [declared(workshop, context)],
};

function declared({ slug }: Workshop, { library }: Context): DeclaredFile {
  return {
    path: `workshops/${slug}/pack.pdf`,
    kind: "handout",
    mediaType: "application/pdf",
    label: wordingOf(library.language).outputs.pack,
  };
}

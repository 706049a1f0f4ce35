import type { Workshop } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import type { Context, DeclaredFile, OutFile, Publisher } from "../publisher.js";
import type { Reader } from "./pack.js";

/** Everything for one class on paper: `workshops/<slug>/pack.pdf`, and without the plan, for those who come, `pack-dancers.pdf`. */
export const pack: Publisher<Workshop> = {
  name: "pack",
  async publish(workshop, context) {
    // What draws takes a while to load, and pages are made without it.
    const { drawPack, handoutLeaves } = await import("./pack.js");
    const handouts = handoutLeaves(workshop, context.library);
    const files: OutFile[] = [];
    // One after the other: while one is drawn, no other lies about in memory.
    for (const { reader, file } of declared(workshop, context))
      files.push({ ...file, content: await drawPack(workshop, context.library, reader, handouts) });
    return files;
  },
  declare: (workshop, context) => declared(workshop, context).map(({ file }) => file),
};

function declared(
  { slug, title }: Workshop,
  { library }: Context,
): readonly { readonly reader: Reader; readonly file: DeclaredFile }[] {
  const { outputs } = wordingOf(library.language);
  const file = (name: string, label: string, reader: Reader) => {
    const path = `workshops/${slug}/${name}`;
    const saveAs = outputs.savedPack(title, reader === "dancers");
    return { reader, file: { path, kind: "handout", mediaType: "application/pdf", label, saveAs } } as const;
  };
  return [file("pack.pdf", outputs.pack, "teacher"), file("pack-dancers.pdf", outputs.dancersPack, "dancers")];
}

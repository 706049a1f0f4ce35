import { reflect } from "../../routine/reflect.js";
import type { Library, Routine } from "../../routine/routine.js";
import type { HandoutKind } from "../../routine/words.js";
import type { OutFile, Publisher } from "../publisher.js";
import { drawHandout, type Variant } from "./handout.js";

interface Wanted {
  readonly dance: Routine;
  readonly id: string;
  readonly variant: Variant;
  /** Of the file's name. */
  readonly ending: string;
}

/** The handouts that a library asks for: `routines/<slug>/handout-<version>.pdf`, `-mirrored`, `-large` and `-card`. */
export const handout: Publisher<Routine> = {
  name: "handout",
  async publish(routine, library) {
    const files: OutFile[] = [];
    // One after the other: while one is drawn, no other lies about in memory.
    for (const one of wanted(routine, library)) {
      const { dance, id, variant } = one;
      const version = dance.versions.find((each) => each.id === id);
      if (version === undefined) throw new Error(`The routine ${routine.slug} has no version ${id}.`);
      files.push({ path: pathOf(one), content: await drawHandout(dance, version, library, variant) });
    }
    return files;
  },
  paths: (routine, library) => wanted(routine, library).map(pathOf),
};

function pathOf({ dance, id, ending }: Wanted): string {
  return `routines/${dance.slug}/handout-${id}${ending}.pdf`;
}

function wanted(routine: Routine, { handouts }: Library): readonly Wanted[] {
  const only = (kind: HandoutKind, list: () => readonly Wanted[]) => (handouts.includes(kind) ? list() : []);
  const taught = { dance: routine, id: routine.taught };
  return [
    ...only("versions", () =>
      routine.versions.map(({ id }): Wanted => ({ dance: routine, id, variant: "sheet", ending: "" })),
    ),
    ...only("mirrored", () => [{ ...taught, dance: reflect(routine), variant: "sheet", ending: "-mirrored" }]),
    ...only("large", () => [{ ...taught, variant: "large", ending: "-large" }]),
    ...only("card", () => [{ ...taught, variant: "card", ending: "-card" }]),
  ];
}

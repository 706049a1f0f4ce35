import { mirror } from "../../routine/mirror.js";
import type { Library, Routine } from "../../routine/routine.js";
import type { HandoutKind } from "../../routine/vocabulary.js";
import { wordingOf } from "../../wording/wording.js";
import type { DeclaredFile, OutFile, Publisher } from "../publisher.js";
import type { Variant } from "./handout.js";

interface Wanted {
  readonly dance: Routine;
  readonly id: string;
  readonly variant: Variant;
  /** Of the file's name. */
  readonly ending: string;
  readonly label: string;
}

/** The handouts that a library asks for: `routines/<slug>/handout-<version>.pdf`, `-mirrored`, `-large` and `-card`. */
export const handout: Publisher<Routine> = {
  name: "handout",
  async publish(routine, { library }) {
    // What draws takes a while to load, and pages are made without it.
    const { drawHandout } = await import("./handout.js");
    const files: OutFile[] = [];
    // One after the other: while one is drawn, no other lies about in memory.
    for (const one of wanted(routine, library)) {
      const { dance, id, variant } = one;
      const version = dance.versions.find((each) => each.id === id);
      if (version === undefined) throw new Error(`The routine ${routine.slug} has no version ${id}.`);
      files.push({ ...declared(one), content: await drawHandout(dance, version, library, variant) });
    }
    return files;
  },
  declare: (routine, { library }) => wanted(routine, library).map(declared),
};

function declared({ dance, id, ending, label }: Wanted): DeclaredFile {
  const path = `routines/${dance.slug}/handout-${id}${ending}.pdf`;
  return { path, kind: "handout", mediaType: "application/pdf", label };
}

/** What a library asks for, the version that is taught first. */
function wanted(routine: Routine, { handouts, language }: Library): readonly Wanted[] {
  const { outputs, versions } = wordingOf(language);
  const only = (kind: HandoutKind, list: () => readonly Wanted[]) => (handouts.includes(kind) ? list() : []);
  const taught = { dance: routine, id: routine.taught };
  const others = routine.versions.map(({ id }) => id).filter((id) => id !== routine.taught);
  const sheet = (id: string): Wanted => {
    return { dance: routine, id, variant: "sheet", ending: "", label: outputs.handout(versions.name(id)) };
  };
  const large = (id: string): Wanted => {
    return { dance: routine, id, variant: "large", ending: "-large", label: outputs.largeHandout(versions.name(id)) };
  };
  return [
    ...only("versions", () => [routine.taught, ...others].map(sheet)),
    ...only("mirrored", () => [
      { ...taught, dance: mirror(routine), variant: "sheet", ending: "-mirrored", label: outputs.mirroredHandout },
    ]),
    ...only("large", () => [routine.taught, ...others].map(large)),
    ...only("card", () => [{ ...taught, variant: "card", ending: "-card", label: outputs.cueCard }]),
  ];
}

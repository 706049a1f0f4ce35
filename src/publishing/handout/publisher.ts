import { definedOnly } from "../../routine/defined-only.js";
import { mirror } from "../../routine/mirror.js";
import { asDancedBy } from "../../routine/one-group.js";
import type { Library, Routine } from "../../routine/routine.js";
import type { HandoutKind } from "../../routine/vocabulary.js";
import { wordingOf } from "../../wording/wording.js";
import { countsMarks } from "../counts-mark.js";
import type { Dance } from "../paper/dance.js";
import type { DeclaredFile, OutFile, Publisher } from "../publisher.js";
import { groupNames } from "./group-names.js";
import type { Variant } from "./handout.js";

interface Wanted {
  readonly dance: Routine;
  readonly id: string;
  readonly variant: Variant;
  /** Of the file's name. */
  readonly ending: string;
  readonly label: string;
  /** Whose it is, where it is for one group. */
  readonly group?: string;
}

/** The handouts that a library asks for: `routines/<slug>/handout-<version>.pdf`, `-<group>`, `-mirrored`, `-large` and `-card`. */
export const handout: Publisher<Routine> = {
  name: "handout",
  async publish(routine, { library }) {
    // What draws takes a while to load, and pages are made without it.
    const { drawHandout } = await import("./handout.js");
    const marks = countsMarks(routine);
    const files: OutFile[] = [];
    // One after the other: while one is drawn, no other lies about in memory.
    for (const one of wanted(routine, library)) {
      const { dance, id, variant, group } = one;
      const version = dance.versions.find((each) => each.id === id);
      if (version === undefined) throw new Error(`The routine ${routine.slug} has no version ${id}.`);
      const more = definedOnly<Omit<Dance, "routine" | "version">>({ group, mark: marks.get(id) });
      files.push({ ...declared(one, library), content: await drawHandout(dance, version, library, variant, more) });
    }
    return files;
  },
  declare: (routine, { library }) => wanted(routine, library).map((one) => declared(one, library)),
};

function declared({ dance, id, variant, ending, label, group }: Wanted, { language }: Library): DeclaredFile {
  const { outputs, versions } = wordingOf(language);
  const saveAs = outputs.savedHandout(dance.title, {
    version: dance.versions.length > 1 ? versions.name(id) : undefined,
    group,
    mirrored: dance.mirrored,
    variant,
  });
  const path = `routines/${dance.slug}/handout-${id}${ending}.pdf`;
  return { path, kind: "handout", mediaType: "application/pdf", label, saveAs };
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
  const ids = [routine.taught, ...others];
  const large = (id: string): Wanted => {
    return { dance: routine, id, variant: "large", ending: "-large", label: outputs.largeHandout(versions.name(id)) };
  };
  return [
    ...only("versions", () => [...ids.map(sheet), ...groupSheets(routine, ids, language)]),
    ...only("mirrored", () => [
      { ...taught, dance: mirror(routine), variant: "sheet", ending: "-mirrored", label: outputs.mirroredHandout },
    ]),
    ...only("large", () => ids.map(large)),
    ...only("card", () => [{ ...taught, variant: "card", ending: "-card", label: outputs.cueCard }]),
  ];
}

/** A sheet for each group beside those for all. */
function groupSheets(routine: Routine, ids: readonly string[], language: string): readonly Wanted[] {
  const { outputs, versions } = wordingOf(language);
  const names = groupNames(routine);
  const dances = routine.groups.map((group) => asDancedBy(routine, group));
  return ids.flatMap((id) =>
    dances.map((dance, index): Wanted => {
      const group = routine.groups[index] ?? "";
      const label = outputs.groupHandout(versions.name(id), group);
      return { dance, id, variant: "sheet", ending: `-${names[index]}`, label, group };
    }),
  );
}

import { reflect } from "../../routine/reflect.js";
import type { Routine } from "../../routine/routine.js";
import type { OutFile, Publisher } from "../publisher.js";
import { drawHandout, type Variant } from "./handout.js";

/** A printed handout a version; the taught one mirrored and in large print as well. */
export const handout: Publisher<Routine> = {
  name: "handout",
  async publish(routine, library) {
    const files: OutFile[] = [];
    const add = async (dance: Routine, id: string, variant: Variant, ending = "") => {
      const version = dance.versions.find((one) => one.id === id);
      if (version === undefined) return;
      const content = await drawHandout(dance, version, library, variant);
      files.push({ path: `routines/${routine.slug}/handout-${id}${ending}.pdf`, content });
    };
    for (const { id } of routine.versions) await add(routine, id, "sheet");
    await add(reflect(routine), routine.taught, "sheet", "-mirrored");
    await add(routine, routine.taught, "large", "-large");
    return files;
  },
};

import type { Library } from "../routine/routine.js";
import { aboutFile } from "./files.js";
import type { TextFinding } from "./finding.js";
import { given } from "./given.js";
import { readKeys } from "./read-keys.js";
import { type LibraryKeys, librarySchema } from "./schema/library.js";

/** A library that says nothing: stands in where `library.yaml` has errors, so that the routines can be checked all the same. */
export const emptyLibrary = writeLibrary({ name: "" });

/** Reads `library.yaml`, its line ends "\n". */
export function readLibrary(text: string): { readonly library?: Library; readonly findings: readonly TextFinding[] } {
  if (text.replace(/#.*/g, "").trim() === "") {
    return {
      findings: [
        aboutFile(
          "error",
          "empty",
          "This file says nothing yet. Write at least one line: `name: The name of your studio`.",
        ),
      ],
    };
  }
  const { keys, findings } = readKeys(text, librarySchema);
  return { ...(keys ? { library: writeLibrary(keys) } : {}), findings };
}

function writeLibrary(keys: LibraryKeys): Library {
  const { name, teacher, url, credit, cautions } = keys;
  return {
    name,
    ...given({ teacher, url: url?.replace(/\/+$/, ""), credit, cautions }),
    language: keys.language ?? "en",
    paper: keys.paper ?? "A4",
    handouts: keys.handouts ?? ["versions", "mirrored", "large"],
    practiceSpeeds: keys["practice-speeds"] ?? [60, 75, 90, 100],
    wordsLimit: keys["words-limit"] ?? 8,
    stepLength: keys["step-length"]?.valueOf() ?? 0.6,
    outlineLimit: keys["outline-limit"] ?? 5000,
    mirrorWords: keys["mirror-words"] ?? [],
    teaching: keys.teaching ?? {},
  };
}

import type { Library } from "../routine/routine.js";
import { aboutFile } from "./files.js";
import type { TextFinding } from "./finding.js";
import { given } from "./given.js";
import { placeOf } from "./place.js";
import { readKeys } from "./read-keys.js";
import { type LibraryKeys, librarySchema } from "./schema/library.js";

/** A library that says nothing: stands in where `library.yaml` has errors, so that the routines can be checked all the same. */
export const emptyLibrary = writeLibrary({ name: "" });

/** What the class planner has against its settings: each setting by its keys with full stops between, and why. */
export type CheckTeaching = (
  teaching: Library["teaching"],
) => readonly { readonly key: string; readonly message: string }[];

/** Reads `library.yaml`, its line ends "\n". */
export function readLibrary(
  text: string,
  checkTeaching: CheckTeaching = () => [],
): { readonly library?: Library; readonly findings: readonly TextFinding[] } {
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
  const { front, keys, findings } = readKeys(text, librarySchema);
  const settings = checkTeaching(keys?.teaching ?? {}).map(
    ({ key, message }): TextFinding => ({
      severity: "error",
      rule: "teaching",
      message,
      ...front.locate(placeOf(["teaching", ...key.split(".")]), "key"),
    }),
  );
  if (!keys || settings.length > 0) return { findings: [...findings, ...settings] };
  return { library: writeLibrary(keys), findings };
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

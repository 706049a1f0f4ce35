import { definedOnly } from "../routine/defined-only.js";
import type { Library } from "../routine/routine.js";
import { aboutFile } from "./files.js";
import type { TextFinding } from "./finding.js";
import type { NothingLeft } from "./nothing-left.js";
import { placeOf } from "./place.js";
import { readKeys } from "./read-keys.js";
import { type LibraryKeys, librarySchema } from "./schema/library.js";

/** A library that says nothing: stands in where `library.yaml` has errors, so that the routines can be checked all the same. */
export const emptyLibrary: Library = { ...writeLibrary(librarySchema.parse({ name: "-" })), name: "" };

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
  const { name, teacher, url, language, paper, handouts, credit, cautions, teaching, ...more } = keys;
  const { "practice-speeds": practiceSpeeds, "words-limit": wordsLimit, "step-length": stepLength, ...others } = more;
  const { "outline-limit": outlineLimit, "mirror-words": mirrorWords, ...left } = others;
  left satisfies NothingLeft;
  return {
    name,
    ...definedOnly<Library>({ teacher, url: url?.replace(/\/+$/, ""), credit, cautions }),
    language,
    paper,
    handouts,
    practiceSpeeds,
    wordsLimit,
    stepLength,
    outlineLimit,
    mirrorWords,
    teaching: teaching ?? {},
  };
}

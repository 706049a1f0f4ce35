import { definedOnly } from "../routine/defined-only.js";
import type { Library } from "../routine/routine.js";
import { aboutFile } from "./files.js";
import type { TextFinding } from "./finding.js";
import type { NothingLeft } from "./nothing-left.js";
import { readKeys } from "./read-keys.js";
import { type LibraryKeys, librarySchema } from "./schema/library.js";
import { writeTeaching } from "./write-teaching.js";

/** A library that says nothing: stands in where `library.yaml` has errors, so that the routines can be checked all the same. */
export const emptyLibrary: Library = { ...writeLibrary(librarySchema.parse({ name: "-" })), name: "" };

export interface LibraryRead {
  /** Absent where there is an error. */
  readonly library?: Library;
  readonly findings: readonly TextFinding[];
}

/**
 * Reads the text of a `library.yaml`.
 *
 * @returns the library with every default filled in, absent where there is an error, and the findings; it does not throw
 * @example
 * const { library } = readLibrary("name: Saltmarsh Dance Room\nteacher: Ines Varga\n")
 * library.practiceSpeeds // [60, 75, 90, 100]
 */
export function readLibrary(text: string): LibraryRead {
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
  return { ...definedOnly<LibraryRead>({ library: keys && writeLibrary(keys) }), findings };
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
    teaching: writeTeaching(teaching),
  };
}

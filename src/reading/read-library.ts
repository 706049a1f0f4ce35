import type { Library } from "../routine/routine.js";
import { type Finding, inOrder } from "./finding.js";
import { given } from "./given.js";
import { readKeys } from "./read-text.js";
import { type LibraryKeys, librarySchema } from "./schema/library.js";

/** A library that says nothing: stands in where `library.yaml` has errors, so that the routines can be checked all the same. */
export const emptyLibrary = writeLibrary({ name: "" });

/** Reads `library.yaml`. */
export function readLibraryText(
  text: string,
  file: string,
): { readonly library?: Library; readonly findings: readonly Finding[] } {
  const { keys, findings } = readKeys(text.replace(/^\ufeff/, "").replace(/\r\n?/g, "\n"), librarySchema);
  return {
    ...(keys ? { library: writeLibrary(keys) } : {}),
    findings: inOrder(findings.map((finding) => ({ file, ...finding }))),
  };
}

function writeLibrary(keys: LibraryKeys): Library {
  const { name, teacher, url, credit, cautions } = keys;
  return {
    name,
    ...given({ teacher, url: url?.replace(/\/+$/, ""), credit, cautions }),
    language: keys.language ?? "en",
    paper: keys.paper ?? "A4",
    practiceSpeeds: keys["practice-speeds"] ?? [60, 75, 90, 100],
    wordsLimit: keys["words-limit"] ?? 8,
    stepLength: keys["step-length"]?.valueOf() ?? 0.6,
    outlineLimit: keys["outline-limit"] ?? 5000,
    mirrorWords: (keys["mirror-words"] ?? []).map(([one = "", other = ""]) => [one, other] as const),
    teaching: keys.teaching ?? {},
  };
}

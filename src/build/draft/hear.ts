import { readFileSync, statSync } from "node:fs";
import { readCaptions } from "../../hearing/captions.js";
import { listen } from "../../hearing/listen.js";
import { readNotes } from "../../hearing/notes.js";
import type { Draft, NotHeard } from "../../hearing/types.js";
import { decode } from "../../reading/decode.js";
import type { Position, TextFinding } from "../../reading/finding.js";

/** Bytes; a film or a sound file has more, and captions of a day have less. */
const largest = 20 * 1024 * 1024;

/** What was heard in a file, or why nothing was; with its text, where it has one. */
export type HeardIn =
  | { readonly draft: Draft }
  | { readonly not: NotHeard; readonly text?: string }
  | { readonly wrong: TextFinding; readonly text: string };

/**
 * Listens to a file of captions, or reads one of typed notes.
 *
 * @throws the error of the system where it can't be read
 */
export function hearFile(path: string, options: { readonly phrase?: number } = {}): HeardIn {
  if (statSync(path).size > largest) return { not: { why: "too-big", line: 1, column: 1 } };
  const bytes = readFileSync(path);
  const { text, findings } = decode(bytes);
  // UTF-16 is a text, though every second byte of it may be 0.
  const wide = ["255 254", "254 255"].includes(`${bytes[0]} ${bytes[1]}`);
  const binary = wide ? undefined : binaryIn(text);
  if (binary) return { not: { why: "binary", ...binary } };
  const [wrong] = findings;
  if (wrong) return { wrong, text };
  const heard = hearText(text, options);
  return "why" in heard ? { not: heard, text } : { draft: heard };
}

function hearText(text: string, options: { readonly phrase?: number }): Draft | NotHeard {
  const recording = readCaptions(text);
  if (!("why" in recording)) return listen(recording, options);
  if (recording.why !== "no-captions") return recording;
  const notes = readNotes(text);
  // A text that has neither could have been meant as either.
  return "why" in notes && notes.why === "no-counts" ? recording : notes;
}

/** Where a text has signs that no text has: of the controls below the space those alone that end a line or part its words. */
function binaryIn(text: string): Position | undefined {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  const at = text.search(/[\u0000-\u0008\u000e-\u001a\u001c-\u001f]/);
  if (at < 0) return undefined;
  const before = text.slice(0, at).split("\n");
  return { line: before.length, column: (before.at(-1) ?? "").length + 1 };
}

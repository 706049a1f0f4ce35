import type { TextFinding } from "./finding.js";

const advice = "In your editor choose “save with encoding” and there UTF-8.";

/**
 * Text from a file's bytes, its line ends "\n". Where the bytes are not UTF-8 a finding says where the first wrong one is,
 * and the text has replacement characters, so that everything else in it can still be checked.
 */
export function decode(bytes: Uint8Array): { readonly text: string; readonly findings: readonly TextFinding[] } {
  const wide =
    bytes[0] === 0xff && bytes[1] === 0xfe
      ? "utf-16le"
      : bytes[0] === 0xfe && bytes[1] === 0xff
        ? "utf-16be"
        : undefined;
  const decoded = new TextDecoder(wide ?? "utf-8").decode(bytes);
  const text = decoded.replace(/\r\n?/g, "\n");
  if (wide) return { text, findings: [encoding(`This file is saved as UTF-16. ${advice}`, 1, 1)] };
  if (isUtf8(bytes)) return { text, findings: [] };
  const before = text.slice(0, text.search("\ufffd")).split("\n");
  const message = `From here on letters are saved in an older way than UTF-8 (accents and curly quotes suffer first). ${advice}`;
  return { text, findings: [encoding(message, before.length, (before.at(-1) ?? "").length + 1)] };
}

function isUtf8(bytes: Uint8Array): boolean {
  try {
    new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    return true;
  } catch {
    return false;
  }
}

function encoding(message: string, line: number, column: number): TextFinding {
  return { severity: "error", rule: "encoding", message, line, column };
}

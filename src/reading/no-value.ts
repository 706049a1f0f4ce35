import { inQuotes } from "./mistakes/mistake.js";
import { quoted, suggested } from "./nearest.js";
import type { KeyNames } from "./schema/keys.js";

/**
 * What is said of keys without a value that commas inside { } made.
 *
 * @param keys those that follow each other
 * @param around the key whose value the { } is
 * @param before the key that they follow, and its value
 */
export function commaMessage(
  keys: readonly string[],
  around: string,
  { isList, isKey }: KeyNames,
  before?: { readonly key: string; readonly value: unknown },
): string {
  const start = `${quoted(keys[0] ?? "")} has no value: inside { } a comma begins a new key.`;
  if (typeof before?.value !== "string") {
    if (keys.length === 1 && /^\d/.test(around))
      return `Inside { } everything has a key. Leave the braces out: ${suggested(`${around}: ${keys[0]}`)}.`;
    return `${start} Write \`key: value\`, for example \`{ do: Walk, step: left }\`.`;
  }
  const whole = (text: string) => suggested(`${before.key}: ${inQuotes(text)}`);
  const text = [before.value, ...keys].join(", ");
  if (/^[“”„]/.test(text))
    return `${start} Curly quotes do not hold a text together; type straight ones: ${whole(text.replace(/[“”„]/g, ""))}.`;
  if (isList(before.key)) return `${start} Put a list in square brackets: ${suggested(`${before.key}: [${text}]`)}.`;
  const [, name = "", value = ""] = /^([a-z-]+)[ :=]+(.+)$/.exec(keys[0] ?? "") ?? [];
  const meant = isKey(name)
    ? ` If \`${name}\` is the key, put a colon and a space after it: ${suggested(`${name}: ${value}`)}.`
    : "";
  return `${start}${meant} If it belongs to the text before it, put that in quotes: ${whole(text)}.`;
}

/** What is said of a key with nothing after its colon; `from` is the text from the key on. */
export function emptyMessage(key: string, from: string, { isOwnWords }: KeyNames): string {
  const [, remark] = /^[^\n:]*:[ \t]+(#[^\n]*)/.exec(from) ?? [];
  if (remark?.startsWith("# ") === false) {
    return `\`${key}:\` has no value: everything from the \`#\` on is left out as a remark. Put the text in quotes: ${suggested(`${key}: "${remark}"`)}.`;
  }
  if (/^\d/.test(key)) return `Nothing is written after \`${key}:\`. Write the move, for example \`${key}: hold\`.`;
  return isOwnWords(key)
    ? `Nothing is written after \`${key}:\`. Write it there; a line that is not needed can go.`
    : `Nothing is written after \`${key}:\`. Write it there, or start the lines that belong to it two spaces further in.`;
}

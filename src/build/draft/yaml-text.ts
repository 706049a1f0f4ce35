import { stringify } from "yaml";

/** Words that mean nothing to YAML, wherever they stand. */
const safe = /^(?:\d{1,2}(?::\d\d){1,2} )?\p{L}[\p{L}\p{M}\p{N}’'-]*(?: [\p{L}\p{N}][\p{L}\p{M}\p{N}’'-]*)*$/u;

/**
 * A text as a value of YAML: as it is where nothing in it could mean anything else, quoted everywhere else.
 *
 * @example [scalar("step out"), scalar("yes: #1")] // ["step out", '"yes: #1"']
 */
export function scalar(text: string): string {
  if (safe.test(text)) return text;
  return stringify(text, { lineWidth: 0, defaultStringType: "QUOTE_DOUBLE" }).trimEnd();
}

/** A remark behind a value, or on a line of its own: two spaces or more keep it from being taken for part of a text. */
export function remark(text: string): string {
  const line = [...text.replace(/[\p{Cc}\p{Cf}\p{Cs}\u2028\u2029]+/gu, " ")].slice(0, 400).join("");
  return `# ${line.trimEnd()}`;
}

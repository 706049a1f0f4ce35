import { suggested } from "../nearest.js";
import { type Entry, entryOf, inQuotes, type Mistake, type Spot } from "./mistake.js";

/** Parts of a move, `step: right`, below a count that has its words beside it already. */
export function partBelow({ lines, line, isKey }: Spot): Mistake | undefined {
  for (const at of [line, line - 1]) {
    const move = entryOf(lines[at - 1] ?? "");
    if (!move || !/^\d/.test(move.key) || !isPlain(move)) continue;
    const column = move.start.indexOf(move.key);
    const below = lines.slice(at);
    const end = below.findIndex((text) => text.trim() !== "" && text.search(/\S/) <= column);
    const parts = (end < 0 ? below : below.slice(0, end)).map(entryOf);
    const whole = parts.flatMap((part) =>
      part && isKey(part.key) && part.key !== "do" && isPlain(part) ? [part] : [],
    );
    if (whole.length === 0 || whole.length < parts.length) continue;
    const braces = `{ ${[`do: ${inBraces(move.value)}`, ...whole.map(({ key, value }) => `${key}: ${inBraces(value)}`)].join(", ")} }`;
    const names = whole.map(({ key }) => `\`${key}\``).join(", ");
    return {
      line: at + 1,
      column: (lines[at] ?? "").search(/\S/) + 1,
      rule: "indent",
      message: `${names} can't stand below a count that has its move beside it: write all of it there, ${suggested(`${move.key}: ${braces}`)}.`,
      fixed: (text, number) => {
        if (number === at) return `${move.start}${braces}`;
        return number > at && number <= at + parts.length ? "" : text;
      },
    };
  }
  return undefined;
}

/** One value on its line, with no remark behind it. */
const isPlain = ({ value }: Entry): boolean => value !== "" && !/^[|>#]|\s#/.test(value);

/** A value as it may stand inside { }. */
function inBraces(value: string): string {
  return /^["'[{]/.test(value) || !/[,[\]{}]/.test(value) ? value : inQuotes(value);
}

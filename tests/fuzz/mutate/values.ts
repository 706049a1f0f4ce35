import type { Random } from "../random.js";
import { keys, values } from "./words.js";

/** Puts another value, or another key, into a line of a text that has a key and a value. */
export function mutateValue(text: string, random: Random): string {
  const spots = [...text.matchAll(/([\w&,-]+): +([^\s{[|>][^,}\n]*)/g)];
  if (spots.length === 0) return text;
  const spot = random.pick(spots);
  const [whole, key = "", value = ""] = spot;
  const other = random.pick(spots);
  const put = random.chance(80)
    ? `${key}: ${newValue(value, other[2] ?? "", random)}`
    : `${random.chance(50) ? random.pick(keys) : (other[1] ?? "")}: ${value}`;
  return text.slice(0, spot.index) + put + text.slice(spot.index + whole.length);
}

function newValue(value: string, other: string, random: Random): string {
  const strange = random.pick(random.pick(values));
  const ways: readonly (() => string)[] = [
    () => strange,
    () => strange,
    () => JSON.stringify(strange),
    () => `${value} ${strange}`,
    () => `${value.slice(0, random.below(value.length + 1))}${strange}`,
    () => other,
    () => "",
    () => value.replace(/\d+/, (digits) => String(Number(digits) + random.below(5) - 2)),
    () => value.replace(/\d+/, "$&".repeat(random.below(4))),
    () => value.toUpperCase(),
    () => value.split("").reverse().join(""),
  ];
  return random.pick(ways)();
}

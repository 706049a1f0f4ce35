const lists = new Intl.ListFormat("en-GB", { type: "conjunction" });
const plurals = new Intl.PluralRules("en-GB");
const ordinals = new Intl.PluralRules("en-GB", { type: "ordinal" });

/** @example list(["2", "4", "6"]) // "2, 4 and 6" */
export function list(items: readonly string[]): string {
  return lists.format(items);
}

/** @example counted(2, "count", "counts") // "2 counts" */
export function counted(number: number, one: string, other: string): string {
  return `${number} ${plural(number, one, other)}`;
}

/** The form of a word that goes with a number. */
export function plural(number: number, one: string, other: string): string {
  return plurals.select(number) === "one" ? one : other;
}

const endings: Partial<Record<Intl.LDMLPluralRule, string>> = { one: "st", two: "nd", few: "rd" };

/** @example ordinal(3) // "3rd" */
export function ordinal(number: number): string {
  return `${number}${endings[ordinals.select(number)] ?? "th"}`;
}

/** The text with its first letter large. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** @example often(2) // "twice" */
export function often(times: number): string {
  return ["no times", "once", "twice"][times] ?? `${times} times`;
}

/** Time without counts: "15 seconds, no counts". */
export function uncounted(seconds: number): string {
  return `${counted(seconds, "second", "seconds")}, no counts`;
}

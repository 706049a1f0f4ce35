const list = new Intl.ListFormat("en-GB", { type: "conjunction" });

/** "a, b and c" */
export function listed(words: readonly string[]): string {
  return list.format(words);
}

/** An author's text on one line, and without angle brackets: some description boxes refuse them. */
export function plain(text: string): string {
  return text.replace(/\s+/g, " ").replaceAll("<", "‹").replaceAll(">", "›").trim();
}

/** "1 count", "16 counts" */
export function counted(number: number, noun: string): string {
  return `${number} ${noun}${number === 1 ? "" : "s"}`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

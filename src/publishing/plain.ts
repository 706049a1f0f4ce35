/** An author's text on one line, and without angle brackets: some description boxes refuse them. */
export function plain(text: string): string {
  return text.replace(/\s+/g, " ").replaceAll("<", "‹").replaceAll(">", "›").trim();
}

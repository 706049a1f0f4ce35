import type { Position, TextFinding } from "./finding.js";
import { quoted } from "./nearest.js";

/** A name that a routine had before, and where that stands. */
export interface FormerSlug extends Position {
  readonly text: string;
}

/** Whose name is whose, in one content folder. */
export interface SlugsTaken {
  /** The routines that there are. */
  readonly now: ReadonlySet<string>;
  /** Names that others had, with the slug of the routine that has each. */
  readonly before: Map<string, string>;
}

/** Checks that an old address leads to one page, and remembers whose it is. */
export function formerFindings(slug: string, former: readonly FormerSlug[], taken: SlugsTaken): readonly TextFinding[] {
  return former.flatMap(({ text, ...position }) => {
    const wrong = wrongWith(text, slug, taken);
    if (wrong === undefined) taken.before.set(text, slug);
    return wrong === undefined ? [] : [{ severity: "error" as const, rule: "formerly", message: wrong, ...position }];
  });
}

function wrongWith(text: string, slug: string, { now, before }: SlugsTaken): string | undefined {
  if (text === slug) return `${quoted(text)} is what this routine is called now: take it out of \`formerly\`.`;
  if (now.has(text)) {
    return `${quoted(text)} is what another routine is called now, so its page is there: take it out of \`formerly\`, or give \`${text}.md\` another name.`;
  }
  const other = before.get(text);
  if (other === undefined) return undefined;
  if (other === slug) return `${quoted(text)} stands here twice: keep one of the two.`;
  return `\`${other}.md\` was ${quoted(text)} before as well, and an old address leads to one page: take it out of one of the two.`;
}

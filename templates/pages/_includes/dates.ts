import { type Html, html } from "#src/publishing/site/html.js";
import type { Wording } from "#src/wording/wording.js";

/** An ISO 8601 calendar date as people read it. */
export function dateTime(date: string, { day }: Wording["dates"]): Html {
  return html`<time datetime="${date}">${day(date)}</time>`;
}

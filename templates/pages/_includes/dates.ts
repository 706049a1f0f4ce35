import { type Html, html } from "#src/publishing/site/html.js";
import type { Wording } from "#src/wording/wording.js";

/** An ISO 8601 calendar date as people read it. */
export function dateTime(date: string, { day }: Wording["dates"]): Html {
  return html`<time datetime="${date}">${day(date)}</time>`;
}

/** When something takes place: the one day, or the first and the last of several; nothing where nobody has said it. */
export function dayOrDays(days: readonly string[], { dates, workshop }: Wording): Html | undefined {
  const [first, last] = [days[0], days.at(-1)];
  if (first === undefined || last === undefined) return undefined;
  if (days.length === 1) return dateTime(first, dates);
  return html`${workshop.days(dateTime(first, dates), dateTime(last, dates))}`;
}

import { type Html, html } from "#src/publishing/site/html.js";

const months = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
];

/** An ISO 8601 calendar date as people read it. */
export function dateTime(date: string): Html {
  const [year, month = 0, day] = date.split("-").map(Number);
  return html`<time datetime="${date}">${day} ${months[month - 1]} ${year}</time>`;
}

import { html } from "../../dist/publishing/site/html.js";

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

/**
 * An ISO 8601 calendar date as people read it.
 *
 * @param {string} date
 */
export function dateTime(date) {
  const [year, month, day] = date.split("-").map(Number);
  return html`<time datetime="${date}">${day} ${months[month - 1]} ${year}</time>`;
}

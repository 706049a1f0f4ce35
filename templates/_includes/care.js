import { html } from "../../dist/publishing/site/html.js";

/**
 * The cautions at the top of a page, with what stands under every list of them.
 *
 * @param {object} of
 * @param {readonly { classes: string, value: { label: string, text: string } }[]} of.cautions
 * @param {string} of.deference
 * @param {import("../../src/publishing/site/html.js").Html} of.houseRules
 */
export function care({ cautions, deference, houseRules }) {
  return html`<section class="care-list" aria-labelledby="care"><h2 id="care">Take care</h2>
${cautions.length > 0 && html`<ul>${cautions.map(({ classes, value }) => html`<li class="${classes}"><b>${value.label}</b>. ${value.text}</li>`)}</ul>`}
<p>${deference}</p>${houseRules}</section>`;
}

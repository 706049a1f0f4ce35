import { type Html, html } from "#src/publishing/site/html.js";
import type { RoutineView } from "#src/publishing/site/routine-view.js";
import type { Wording } from "#src/wording/wording.js";

/** The cautions at the top of a page, with what stands under every list of them. */
export function care(
  { cautions, generalCaution, houseRules }: Pick<RoutineView, "cautions" | "generalCaution" | "houseRules">,
  { routine }: Wording,
): Html {
  return html`<section class="care-list" aria-labelledby="care"><h2 id="care">${routine.takeCare}</h2>
${cautions.length > 0 && html`<ul>${cautions.map(({ classes, value }) => html`<li class="${classes}"><b>${value.label}</b>. ${value.text}</li>`)}</ul>`}
<p>${generalCaution}</p>${houseRules}</section>`;
}

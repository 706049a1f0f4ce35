import { type Html, html } from "#src/publishing/site/html.js";
import type { RoutineView } from "#src/publishing/site/routine-view.js";
import type { Wording } from "#src/wording/wording.js";
import { theirs } from "./theirs.js";

/** The cautions at the top of a page, with what stands under every list of them. */
export function care(
  { cautions, generalCaution, houseRules }: Pick<RoutineView, "cautions" | "generalCaution" | "houseRules">,
  wording: Wording,
): Html {
  const { routine } = wording;
  return html`<section class="care-list" aria-labelledby="care"><h2 id="care">${routine.takeCare}</h2>
${cautions.length > 0 && html`<ul>${cautions.map(({ classes, value }) => html`<li class="${classes}"><b>${value.label}.</b> ${value.text}</li>`)}</ul>`}
<p>${generalCaution}</p>${houseRules.html !== "" && wording.authors !== undefined ? html`<div${theirs(wording)}>${houseRules}</div>` : houseRules}</section>`;
}

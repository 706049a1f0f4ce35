import { type Html, html } from "#src/publishing/site/html.js";
import type { RoutineView } from "#src/publishing/site/routine-view.js";
import type { Wording } from "#src/wording/wording.js";
import { fold } from "./fold.js";
import { theirs } from "./theirs.js";

type Cautions = Pick<RoutineView, "cautions" | "generalCaution" | "houseRules">;

/** The cautions at the top of a page, with what stands under every list of them. */
export function care(view: Cautions, wording: Wording): Html {
  return html`<section class="care-list" aria-labelledby="care"><h2 id="care">${wording.routine.takeCare}</h2>
${careText(view, wording)}</section>`;
}

/** The same on a page that names the risks at its top and says here what to do about them; folded, the cautions stand in the line. */
export function foldedCare(view: Cautions, wording: Wording): Html {
  const { cautions, generalCaution } = view;
  const line =
    cautions.length === 0
      ? generalCaution
      : html`${cautions.map(({ classes, value }) => html`<span class="${classes}"><b>${value.label}.</b> ${value.text}</span>`)}`;
  return fold("care", wording.routine.takeCare, line, html`<div class="care-list">${careText(view, wording)}</div>`);
}

function careText({ cautions, generalCaution, houseRules }: Cautions, wording: Wording): Html {
  return html`${cautions.length > 0 && html`<ul>${cautions.map(({ classes, value }) => html`<li class="${classes}"><b>${value.label}.</b> ${value.text}</li>`)}</ul>`}
<p>${generalCaution}</p>${houseRules.html !== "" && wording.authors !== undefined ? html`<div${theirs(wording)}>${houseRules}</div>` : houseRules}`;
}

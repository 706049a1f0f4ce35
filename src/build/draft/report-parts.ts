import { type Html, html } from "../../publishing/site/html.js";
import type { Wording } from "../../wording/wording.js";

/** A button a time, each of which plays the film from there. */
export function playButtons(times: readonly number[], { draft }: Wording): Html {
  const known = times.filter((at) => Number.isFinite(at) && at >= 0);
  return html`<span class="times">${known.map(
    (at) =>
      html`<button type="button" data-at="${at.toFixed(2)}" aria-label="${draft.report.play(at)}">${draft.clock(at)}</button>`,
  )}</span>`;
}

/** Something that was said, with where it can be heard. */
export function saidItem(text: string, times: readonly number[], wording: Wording): Html {
  return html`<li>${text} ${playButtons(times, wording)}</li>
`;
}

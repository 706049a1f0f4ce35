import { type Html, type HtmlValue, html } from "#src/publishing/site/html.js";

/**
 * A part of a page that a phone folds to one telling line. It stands open as it is published, so that a page without script, and
 * paper, has all of it; a script folds it where the window is narrow.
 */
export function fold(id: string, title: string, line: HtmlValue, body: Html): Html {
  return html`<details class="fold" open data-fold><summary><h2 id="${id}">${title}</h2><span class="fold-line">${line}</span></summary>
<div class="fold-body">${body}</div></details>`;
}

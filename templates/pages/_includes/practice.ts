import { type Html, html, jsonBlock } from "#src/publishing/site/html.js";
import type { PlayerData } from "#src/publishing/site/player-data.js";
import type { Wording } from "#src/wording/wording.js";
import { theirs } from "./theirs.js";

/** What the dancer looks at, in the page and from afar: the script writes into the parts that say what they show. */
const stage = (wording: Wording) => html`<div class="stage" data-face data-state="rest">
    <p class="stage-section"${theirs(wording)} data-show="section"></p>
    <p class="stage-count" data-fit><span data-show="count"></span><span class="stage-part" data-show="part"></span></p>
    <div class="stage-cue" data-fit>
      <p class="stage-kicker" data-show="kicker"></p>
      <p class="stage-call"${theirs(wording)} data-show="call"></p>
      <p class="stage-text"${theirs(wording)} data-show="cue"></p>
      <p class="stage-words"${theirs(wording)} data-show="words"></p>
    </div>
    <div class="stage-next" data-fit>
      <p><span class="stage-on" data-show="next-on"></span> <span${theirs(wording)} data-show="next"></span></p>
    </div>
  </div>`;

/**
 * The part of a routine's page to practise with. It works by script only, so it is left out without; the script is
 * `practice/main.ts`. It follows the version, side and group of dancers that the page keeps in `data-version`, `data-side` and
 * `data-group` of its root, and looks again at each `countleaf:view` event of the document. A button with `data-practise="3"`, anywhere in the page,
 * offers the fourth danced section for practice.
 *
 * @param data what it plays. It stands in the page, since a page that is opened from a folder may ask for nothing
 */
export function practice(data: PlayerData, wording: Wording): Html {
  const { practice: words, player } = wording;
  return html`<section class="practice by-script" id="practice" data-practice aria-labelledby="practice-title">
  <h2 id="practice-title">${words.title}</h2>

  ${stage(wording)}

  <form class="desk" data-desk>
    <div class="desk-row">
      <button class="desk-start" type="button" data-start data-key="p" disabled>${player.start}</button>
      <button type="button" data-top data-key="t" disabled>${words.fromTheTop}</button>
      <button type="button" data-afar data-key="f" disabled>${words.fromAfar}</button>
    </div>
    <p class="desk-news" role="status" data-news></p>
    <p class="desk-silent" role="status" data-silent></p>

    <fieldset class="desk-group">
      <legend>${words.what}</legend>
      <label class="desk-field">${words.from} <select name="from"></select></label>
      <label class="desk-field">${words.to} <select name="to"></select></label>
      <label class="desk-tick"><input type="checkbox" name="loops" data-key="r" checked> ${words.loops}</label>
      <label class="desk-tick"><input type="checkbox" name="again" checked> ${words.countInAgain}</label>
    </fieldset>

    <fieldset class="desk-group">
      <legend>${words.howFast}</legend>
      <div class="desk-speed">
        <label class="desk-slide">
          <span data-speed></span>
          <input type="range" name="speed" min="50" max="110" value="75" step="1" aria-label="${words.speed}">
        </label>
        <button type="button" data-step="-5" data-key="- _">${words.slower}</button>
        <button type="button" data-step="5" data-key="+ =">${words.faster}</button>
        <span class="desk-speeds" data-speeds></span>
      </div>
      <p class="desk-climb">
        <label class="desk-tick"><input type="checkbox" name="climbs"> ${words.climbs}</label>
        <label>${words.climbBy(html`<input type="number" name="by" min="1" max="20" value="5" inputmode="numeric">`)}</label>
        <label>${words.climbAfter(html`<input type="number" name="every" min="1" max="32" value="2" inputmode="numeric">`)}</label>
        <label>${words.climbUntil(html`<input type="number" name="until" min="50" max="110" value="100" inputmode="numeric">`)}</label>
      </p>
    </fieldset>

    <details class="desk-more">
      <summary>${words.ownSong}</summary>
      <p>${words.ownSongHow}</p>
      <label class="desk-field">${words.songFile} <input type="file" name="file" accept="audio/*"></label>
      <div data-song hidden>
        <audio controls preload="auto" data-audio></audio>
        <p>${words.alignHow}</p>
        <div class="desk-row">
          <button type="button" data-one data-key="1">${words.firstCountOf(html`<span data-one-of></span>`)}</button>
          <button type="button" data-nudge="-0.02">${words.earlier}</button>
          <button type="button" data-nudge="0.02">${words.later}</button>
        </div>
        <p data-first-count></p>
        <div class="desk-row"><button type="button" data-away>${words.putAway}</button></div>
      </div>
    </details>

    <details class="desk-more">
      <summary>${words.keys}</summary>
      <p>${words.keysWhere}</p>
      <dl class="desk-keys">
        <div><dt><kbd>P</kbd></dt><dd>${words.key.start}</dd></div>
        <div><dt><kbd>T</kbd></dt><dd>${words.key.top}</dd></div>
        <div><dt><kbd>R</kbd></dt><dd>${words.key.loops}</dd></div>
        <div><dt><kbd>−</kbd> <kbd>+</kbd></dt><dd>${words.key.speed}</dd></div>
        <div><dt><kbd>F</kbd></dt><dd>${words.key.afar(html`<kbd>Esc</kbd>`)}</dd></div>
        <div><dt><kbd>1</kbd></dt><dd>${words.key.first}</dd></div>
      </dl>
      <p>${words.noSound}</p>
    </details>
  </form>

  <script type="application/json" data-counts>${jsonBlock(data)}</script>

  <dialog class="afar" data-far aria-label="${words.seenFromAfar}">
    ${stage(wording)}
    <div class="afar-row">
      <button type="button" data-start>${player.start}</button>
      <button type="button" data-leave>${words.backToThePage}</button>
    </div>
  </dialog>
</section>`;
}

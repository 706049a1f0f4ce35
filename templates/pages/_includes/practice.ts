import { type Html, html, jsonBlock, raw } from "#src/publishing/site/html.js";
import type { PlayerData } from "#src/publishing/site/player-data.js";
import type { RoutineView } from "#src/publishing/site/routine-view.js";
import type { Wording } from "#src/wording/wording.js";
import { theirs } from "./theirs.js";

type Face = Pick<RoutineView, "facts" | "accents" | "inRow">;

/** The counts of a phrase, a numeral each: the face that lights count by count. The counts themselves say the same in words. */
const row = ({ facts, accents, inRow }: Face) => {
  const numbers = Array.from({ length: facts.phrase }, (_, index) => index + 1);
  return html`<p class="stage-row" data-row data-columns="${inRow}" aria-hidden="true">${numbers.map((number) => html`<span${accents.includes(number) && raw(" data-accent")}>${number}</span>`)}</p>`;
};

/** What the dancer looks at: the script writes into the parts that say what they show. */
const stage = (
  wording: Wording,
  kind: string,
  counts: Html,
) => html`<div class="stage ${kind}" data-face data-state="rest">
    ${counts}
    <p class="stage-section"${theirs(wording)} data-show="section"></p>
    <p class="stage-count" data-fit><span data-show="count"></span><span class="stage-part" data-show="part"></span></p>
    <div class="stage-cue" data-fit>
      <p class="stage-kicker" data-show="kicker"></p>
      <p class="stage-call"${theirs(wording)} data-show="call"></p>
      <p class="stage-text"${theirs(wording)} data-show="cue"></p>
      <ul class="stage-lines"${theirs(wording)} data-lines></ul>
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
 * plays the fourth danced section where it stands.
 *
 * @param data what it plays. It stands in the page, since a page that is opened from a folder may ask for nothing
 */
export function practice(data: PlayerData, face: Face, wording: Wording): Html {
  const { practice: words, player } = wording;
  const counts = row(face);
  return html`<section class="practice by-script" id="practice" data-practice aria-labelledby="practice-title">
  <h2 class="unseen" id="practice-title">${words.title}</h2>

  <div class="practice-body">
  ${stage(wording, "stage-page", counts)}

  <form class="desk" data-desk>
    <div class="desk-row desk-go">
      <button class="desk-start" type="button" data-start data-key="p" disabled>${player.start}</button>
      <button type="button" data-afar data-key="f" disabled>${words.fromAfar}</button>
    </div>
    <p class="desk-news unseen" role="status" data-news></p>
    <p class="desk-silent" role="status" data-silent></p>
    <div class="desk-row desk-what">
      <label class="desk-field"><span class="unseen">${words.what}</span> <select name="from"><option value="all">${words.whole}</option></select></label>
      <div class="desk-speed" role="group" aria-label="${words.howFast}">
        <button type="button" data-step="-5" data-key="- _" aria-label="${words.slower}" disabled>−</button>
        <output data-speed></output>
        <button type="button" data-step="5" data-key="+ =" aria-label="${words.faster}" disabled>+</button>
      </div>
      <label class="desk-tick"><input type="checkbox" name="loops" data-key="r" checked> ${words.loops}</label>
    </div>

    <details class="desk-more" data-more>
      <summary>${words.more}</summary>
      <div class="desk-group">
        <button type="button" data-top data-key="t" disabled>${words.fromTheTop}</button>
        <label class="desk-field">${words.to} <select name="to"></select></label>
        <label class="desk-tick"><input type="checkbox" name="again" checked> ${words.countInAgain}</label>
      </div>
      <div class="desk-group">
        <label class="desk-slide">${words.speed} <input type="range" name="speed" min="50" max="110" value="75" step="1"></label>
        <span class="desk-speeds" data-speeds></span>
        <label class="desk-field">${words.climbs} <select name="climb"><option value="">${words.climb.off}</option><option value="gently">${words.climb.gently}</option><option value="steeply">${words.climb.steeply}</option></select></label>
      </div>
      ${ownSong(wording)}
      ${keys(wording)}
    </details>
  </form>
  </div>

  <script type="application/json" data-counts>${jsonBlock(data)}</script>

  <div class="dock" data-dock hidden><div class="dock-body">
    ${stage(wording, "stage-dock", counts)}
    <button type="button" data-start>${player.start}</button>
  </div></div>

  <dialog class="afar" data-far aria-label="${words.seenFromAfar}">
    ${stage(wording, "stage-afar", counts)}
    <p class="afar-pace"><span data-round></span> <span data-pace></span></p>
    <p class="afar-row">
      <button type="button" data-start>${player.start}</button>
      <button type="button" data-leave>${words.backToThePage}</button>
    </p>
  </dialog>
</section>`;
}

/** The learner's own copy of the song: opened, put under the counts, played. */
function ownSong({ practice: words }: Wording): Html {
  return html`<div class="desk-part">
        <h3>${words.ownSong}</h3>
        <p>${words.ownSongHow}</p>
        <label class="desk-file"><input type="file" name="file" accept="audio/*"><span>${words.songFile}</span></label>
        <p class="desk-silent" data-refused></p>
        <div data-song hidden>
          <audio preload="auto" data-audio></audio>
          <p class="desk-song"><b data-song-name></b></p>
          <div class="desk-row desk-track">
            <button type="button" data-song-play>${words.playSong}</button>
            <label class="desk-slide"><span class="unseen">${words.songPlace}</span><input type="range" name="place" min="0" max="1" value="0" step="0.1"></label>
            <output data-song-clock></output>
          </div>
          <div class="desk-row">
            <label class="desk-tick"><input type="checkbox" name="over"> ${words.clicksOver}</label>
            <label class="desk-slide desk-level">${words.clicksLevel} <input type="range" name="level" min="0" max="200" value="100" step="10" disabled></label>
          </div>
          <p>${words.alignHow}</p>
          <div class="desk-row">
            <button type="button" data-one data-key="1">${words.firstCountOf(html`<span data-one-of></span>`)}</button>
            <button type="button" data-nudge="-0.02">${words.earlier}</button>
            <button type="button" data-nudge="0.02">${words.later}</button>
          </div>
          <p>${words.tapHow(html`<span data-one-of></span>`)}</p>
          <div class="desk-row"><button class="desk-tap" type="button" data-tap data-key="c">${words.tap}</button></div>
          <p data-first-count></p>
          <p data-tapped></p>
          <div class="desk-row">
            <button type="button" data-forget hidden>${words.forget}</button>
            <button type="button" data-away>${words.putAway}</button>
          </div>
        </div>
      </div>`;
}

function keys({ practice: words }: Wording): Html {
  return html`<div class="desk-part">
        <h3>${words.keys}</h3>
        <p>${words.keysWhere}</p>
        <dl class="desk-keys">
          <div><dt><kbd>P</kbd></dt><dd>${words.key.start}</dd></div>
          <div><dt><kbd>T</kbd></dt><dd>${words.key.top}</dd></div>
          <div><dt><kbd>R</kbd></dt><dd>${words.key.loops}</dd></div>
          <div><dt><kbd>−</kbd> <kbd>+</kbd></dt><dd>${words.key.speed}</dd></div>
          <div><dt><kbd>F</kbd></dt><dd>${words.key.afar(html`<kbd>Esc</kbd>`)}</dd></div>
          <div><dt><kbd>1</kbd></dt><dd>${words.key.first}</dd></div>
          <div><dt><kbd>C</kbd></dt><dd>${words.key.tap}</dd></div>
        </dl>
        <p>${words.noSound}</p>
      </div>`;
}

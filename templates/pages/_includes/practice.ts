import { type Html, html } from "#src/publishing/site/html.js";

/** What the dancer looks at, in the page and from afar: the script writes into the parts that say what they show. */
const stage = html`<div class="stage" data-face data-state="rest">
    <p class="stage-section" data-show="section"></p>
    <p class="stage-count" data-fit><span data-show="count"></span><span class="stage-part" data-show="part"></span></p>
    <div class="stage-cue" data-fit>
      <p class="stage-kicker" data-show="kicker"></p>
      <p class="stage-call" data-show="call"></p>
      <p class="stage-text" data-show="cue"></p>
      <p class="stage-words" data-show="words"></p>
    </div>
    <div class="stage-next" data-fit>
      <p><span class="stage-on" data-show="next-on"></span> <span data-show="next"></span></p>
    </div>
  </div>`;

/**
 * The part of a routine's page to practise with. It works by script only, so it is hidden until that runs; the script is
 * `practice/main.js`. It follows the version, side and group of dancers that the page keeps in `data-version`, `data-side` and
 * `data-group` of its root, and looks again at each `countleaf:view` event of the document. A button with `data-practise="3"`, anywhere in the page,
 * offers the fourth danced section for practice.
 *
 * @param figures where `routine.json` is, seen from the page
 */
export function practice(figures: string): Html {
  return html`<section class="practice" id="practice" data-practice="${figures}" aria-labelledby="practice-title" hidden>
  <h2 id="practice-title">Practise</h2>

  ${stage}

  <form class="desk" data-desk>
    <div class="desk-row">
      <button class="desk-start" type="button" data-start data-key="p" disabled>Start</button>
      <button type="button" data-top data-key="t" disabled>From the top</button>
      <button type="button" data-afar data-key="f" disabled>See it from afar</button>
    </div>
    <p class="desk-news" role="status" data-news></p>

    <fieldset class="desk-group">
      <legend>What</legend>
      <label class="desk-field">From <select name="from"></select></label>
      <label class="desk-field">to the end of <select name="to"></select></label>
      <label class="desk-tick"><input type="checkbox" name="loops" data-key="r" checked> again and again</label>
      <label class="desk-tick"><input type="checkbox" name="again" checked> a count-in before every round</label>
    </fieldset>

    <fieldset class="desk-group">
      <legend>How fast</legend>
      <div class="desk-speed">
        <label class="desk-slide">
          <span data-speed></span>
          <input type="range" name="speed" min="50" max="110" value="75" step="1" aria-label="Speed, per cent of the tempo">
        </label>
        <button type="button" data-step="-5" data-key="- _">Slower</button>
        <button type="button" data-step="5" data-key="+ =">Faster</button>
        <span class="desk-speeds" data-speeds></span>
      </div>
      <p class="desk-climb">
        <label class="desk-tick"><input type="checkbox" name="climbs"> work it up, round by round</label>
        <label>by <input type="number" name="by" min="1" max="20" value="5" inputmode="numeric"> %</label>
        <label>after every <input type="number" name="every" min="1" max="32" value="2" inputmode="numeric"> rounds</label>
        <label>up to <input type="number" name="until" min="50" max="110" value="100" inputmode="numeric"> %</label>
      </p>
    </fieldset>

    <details class="desk-more">
      <summary>With your own copy of the song</summary>
      <p>Open the song from this device, or drop it here. It plays on this device and is sent to nobody. Slower keeps its pitch.</p>
      <label class="desk-field">Song file <input type="file" name="file" accept="audio/*"></label>
      <div data-song hidden>
        <audio controls preload="auto" data-audio></audio>
        <p>If the counts are off, play the song and press this button right on the count:</p>
        <div class="desk-row">
          <button type="button" data-one data-key="1">This is the first count of <span data-one-of></span></button>
          <button type="button" data-nudge="-0.02">Counts a touch earlier</button>
          <button type="button" data-nudge="0.02">Counts a touch later</button>
        </div>
        <p data-first-count></p>
        <div class="desk-row"><button type="button" data-away>Put the song away</button></div>
      </div>
    </details>

    <details class="desk-more">
      <summary>Keys</summary>
      <p>They work while the focus is on something in this part of the page, and nowhere else.</p>
      <dl class="desk-keys">
        <div><dt><kbd>P</kbd></dt><dd>start or pause</dd></div>
        <div><dt><kbd>T</kbd></dt><dd>from the top: the whole routine</dd></div>
        <div><dt><kbd>R</kbd></dt><dd>again and again, or once</dd></div>
        <div><dt><kbd>−</kbd> <kbd>+</kbd></dt><dd>slower, faster</dd></div>
        <div><dt><kbd>F</kbd></dt><dd>see it from afar, and back; <kbd>Esc</kbd> leaves too</dd></div>
        <div><dt><kbd>1</kbd></dt><dd>with your own song: this is the first count</dd></div>
      </dl>
      <p>No sound? On some phones the silent switch mutes the clicks too.</p>
    </details>
  </form>

  <dialog class="afar" data-far aria-label="Seen from afar">
    ${stage}
    <div class="afar-row">
      <button type="button" data-start>Start</button>
      <button type="button" data-leave>Back to the page</button>
    </div>
  </dialog>
</section>`;
}

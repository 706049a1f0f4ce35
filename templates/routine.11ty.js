import { html, raw } from "../dist/publishing/site/html.js";
import { counts } from "./_includes/counts.js";
import { dateTime } from "./_includes/dates.js";
import { page } from "./_includes/page.js";

export const data = {
  pagination: { data: "routineSlugs", size: 1, alias: "slug" },
  permalink: ({ slug }) => `routines/${slug}/index.html`,
};

export async function render({ slug }) {
  const library = this.library();
  const view = await this.routineView(slug);
  return page({
    library,
    root: "../../",
    path: `routines/${slug}/`,
    title: view.title,
    description:
      view.facts.summary ?? `${view.title}, a routine of ${view.facts.counts} counts by ${view.choreographer}.`,
    scripts: ["choice.js"],
    body: body(view),
  }).html;
}

function body(view) {
  return html`<article class="routine">
${head(view)}
${chooser(view)}
${care(view)}
<div class="ready">${needs(view)}${start(view)}</div>
${view.introduction.html !== "" && html`<div class="prose introduction">${view.introduction}</div>`}
${counts(view.sections)}
${view.after.html !== "" && html`<div class="prose after">${view.after}</div>`}
${videos(view)}
${downloads(view)}
</article>`;
}

function head(view) {
  const { facts } = view;
  return html`<header class="title">
<p class="kicker">${[...facts.styles, ...(facts.audience === "adult" ? ["adults only"] : facts.audience === "teen" ? ["teens and adults"] : [])].join(" · ")}</p>
<h1>${view.title}</h1>
<p class="byline">Choreography by ${view.choreographer}${view.song && html`, to ${view.song}`}${facts.date && html`. ${dateTime(facts.date)}`}</p>
${facts.summary && html`<p class="summary">${facts.summary}</p>`}
<dl class="facts">
<div><dt>Counts</dt><dd>${facts.counts}</dd></div>
<div><dt>One run</dt><dd>${view.run}</dd></div>
<div><dt>Tempo</dt><dd>${view.tempo} <small>a minute</small></dd></div>
<div><dt>Phrases of</dt><dd>${facts.phrase}</dd></div>
${facts.walls > 1 && html`<div><dt>Walls</dt><dd>${facts.walls}</dd></div>`}
<div><dt>Count one at</dt><dd>${view.firstCount}</dd></div>
</dl>
</header>`;
}

function chooser({ versions }) {
  return html`<form class="choice" autocomplete="off">
<fieldset><legend>Version</legend>${versions.map(
    ({ id, name, taught }, index) =>
      html`<label><input type="radio" name="version" id="v${index}" value="${id}"${taught && raw(" checked")}><span>${name}</span></label>`,
  )}</fieldset>
<fieldset><legend>Side</legend><label><input type="radio" name="side" id="as-taught" value="as-taught" checked><span>As taught</span></label><label><input type="radio" name="side" id="mirrored" value="mirrored"><span>Mirrored</span></label></fieldset>
</form>`;
}

function care({ cautions, deference, houseRules }) {
  return html`<section class="care-list" aria-labelledby="care"><h2 id="care">Take care</h2>
<ul>${cautions.map(({ classes, value }) => html`<li class="${classes}"><b>${value.label}</b> ${value.text}</li>`)}</ul>
<p>${deference}</p>${houseRules}</section>`;
}

function needs({ gear }) {
  return html`<section aria-labelledby="needs"><h2 id="needs">What you need</h2>
${
  gear.length === 0
    ? html`<p>Nothing but room to move.</p>`
    : html`<ul class="gear">${gear.map(
        ({ classes, item, required, why }) =>
          html`<li class="${classes}"><b>${item}</b>${!required && " (if you like)"}${why && html`: ${why}`}</li>`,
      )}</ul>`
}</section>`;
}

function start({ starts, countIn, firstCount, versions }) {
  return html`<section aria-labelledby="start"><h2 id="start">How it starts</h2>
${starts.map(({ classes, value }) => html`<p class="${classes}">${value}</p>`)}
<p>${countIn} counts in; count one falls at ${firstCount} in the track.</p>
${versions.map(({ classes, load, space }) => html`<p class="${classes}">Room to travel: ${space} m.${load.length > 0 && ` In one run: ${load.join(", ")}.`}</p>`)}</section>`;
}

function videos({ videos, chapters }) {
  if (videos.length === 0) return "";
  return html`<section aria-labelledby="videos"><h2 id="videos">Videos</h2>
<ul>${videos.map((link) => html`<li>${link}</li>`)}</ul>
${chapters.length > 0 && html`<ol class="chapters">${chapters.map(({ clock, link }) => html`<li><span class="clock">${clock}</span> ${link}</li>`)}</ol>`}</section>`;
}

function downloads({ downloads, credit, videoText }) {
  return html`<section aria-labelledby="take"><h2 id="take">Take away</h2>
<ul class="downloads">${downloads.map(({ file, name, kind }) => html`<li><a href="${file}">${name}</a> <small>${kind}</small></li>`)}</ul>
${credit && html`<h3>Credit</h3><p class="credit">${credit}</p>`}
${videoText && html`<details class="video-text"><summary>Text for the video</summary><pre>${videoText}</pre></details>`}</section>`;
}

import type { PhraseView, SectionView } from "#src/publishing/site/counts-view.js";
import { type Html, type HtmlValue, html } from "#src/publishing/site/html.js";
import type { MoveView, OtherVersionView } from "#src/publishing/site/move-view.js";
import type { RoutineView } from "#src/publishing/site/routine-view.js";
import type { Wording } from "#src/wording/wording.js";
import { theirs } from "./theirs.js";

/** The counts, section by section. */
export function counts({ sections, versions }: RoutineView, wording: Wording): Html {
  const words = wording.sections;
  return html`<section class="counts" aria-labelledby="counts">
<h2><span id="counts">${words.title}</span>${versions.length > 1 && versions.map(({ classes, name }) => html`<span class="shown ${classes}">, ${name}</span>`)}<span class="shown mirrored">, ${words.mirrored}</span></h2>
<p class="mirrored">${words.mirroredFor}</p>
${versions.length > 1 && html`<p><label class="tick"><input type="checkbox" id="beside"> ${words.besideEveryMove}</label></p>`}
${sections.map((of) => section(of, wording))}
</section>`;
}

function section(of: SectionView, wording: Wording): Html {
  const { sections, practice } = wording;
  const times = of.times.filter(({ clock, through }) => clock !== undefined || through !== undefined);
  const facts = [
    of.seconds === undefined ? sections.counts(of.counts) : sections.uncounted(of.seconds),
    of.countsPerMinute && sections.tempoHere(of.countsPerMinute),
    ...of.feel,
    of.improvised && sections.own,
    of.otherSide && sections.otherSide,
    of.tag && sections.tag,
    ...of.videos,
  ];
  return html`<section class="part">
<header><div><h3 id="${of.id}"${theirs(wording)}>${of.name}</h3>
${of.words && html`<p class="landing"><q${theirs(wording)}>${of.words}</q></p>`}
<p class="times">${times.length > 0 && html`<span class="clocks">${times.map(time)}</span>`}${facts.filter(Boolean).map((text) => html`<span>${text}</span>`)}</p></div>
<button class="button by-script" type="button" data-practise="${of.danced}" aria-label="${practice.section(of.name)}">${practice.title}</button></header>
${of.canon.map((text) => html`<p class="canon">${text}.</p>`)}
${of.doubt && html`<p class="doubt">${sections.doubt(authored(of.doubt, wording))}</p>\n`}${of.note.html !== "" && html`<div class="note prose"${theirs(wording)}>${of.note}</div>`}
${of.phrases.map((of) => phrase(of, wording))}
</section>
`;
}

function time({ clock, through }: SectionView["times"][number], index: number): Html {
  return html`${index > 0 && " · "}<span class="time">${through}${through && clock && " "}${clock && html`<span class="clock">${clock}</span>`}</span>`;
}

function phrase(of: PhraseView, wording: Wording): Html {
  const words = wording.sections;
  return html`<div class="phrase"><h4>${words.phrase(of.number)}<span>${of.counts}</span>${of.say && html`<span class="called">${words.called(authored(of.say, wording))}</span>`}${of.clock && html`<span class="clock">${of.clock}</span>`}</h4>
<ol class="moves">${of.moves.map((of) => move(of, wording))}</ol></div>
`;
}

function move(of: MoveView, wording: Wording): Html {
  const words = wording.sections;
  const kinds = ["move", of.hold && "hold", of.hit && "hit", of.cautions.length > 0 && "risky", of.classes]
    .filter(Boolean)
    .join(" ");
  return html`<li class="${kinds}"><div class="${of.on.length > 3 ? "on long" : "on"}"><span>${of.on}</span>${of.lasts && html`<small>${of.lasts}</small>`}</div><div class="what">${of.groups && html`<p class="group">${of.groups}</p>`}<p class="cue">${of.improvised && html`<span class="mark">${wording.counts.own}</span> `}${of.hold ? of.cue : authored(of.cue, wording)}${of.hit && html` <span class="mark">${words.hit}</span>`}</p>${details(of, wording)}</div></li>
`;
}

/** An author's words within a sentence of ours. */
function authored<Value extends HtmlValue>(value: Value, wording: Wording): Value | Html {
  return wording.authors === undefined ? value : html`<span${theirs(wording)}>${value}</span>`;
}

function details(of: MoveView, wording: Wording): readonly HtmlValue[] {
  const words = wording.sections;
  return [
    of.say.length > 0 &&
      html`<p class="say">${words.called(of.say.map((call, index) => html`${index > 0 && " · "}<q${theirs(wording)}>${call}</q>`))}</p>`,
    of.words && html`<p class="landing"><q${theirs(wording)}>${of.words}</q></p>`,
    of.body.length > 0 && html`<p class="body">${of.body.map((text) => html`<span>${text}</span>`)}</p>`,
    of.cautions.length > 0 &&
      html`<p class="care">${words.takeCare(of.cautions, (read) => html`<a href="#care">${read}</a>`)}</p>`,
    of.gear.length > 0 && html`<p class="with">${words.withGear(of.gear)}</p>`,
    of.choose.length > 0 && html`<p class="choose">${words.choose(of.choose.map((way) => authored(way, wording)))}</p>`,
    of.note && html`<p class="tip"${theirs(wording)}>${of.note}</p>`,
    of.doubt && html`<p class="doubt">${words.doubt(authored(of.doubt, wording))}</p>`,
    of.otherVersions.length > 0 &&
      html`<ul class="others">${of.otherVersions.map((of) => otherVersion(of, wording))}</ul>`,
  ];
}

function otherVersion({ name, moves }: OtherVersionView, wording: Wording): Html {
  const words = wording.sections;
  return html`<li><b>${name}</b> ${moves.map(({ on, cue, cautions, improvised }, index) => html`${index > 0 && "; "}${moves.length > 1 && html`<span class="small-on">${on}</span> `}${improvised && html`<span class="mark">${wording.counts.own}</span> `}${authored(cue, wording)}${cautions.length > 0 && html` <span class="care">${words.takeCareShort(cautions)}</span>`}`)}</li>`;
}

import type { PhraseView, SectionView } from "#src/publishing/site/counts-view.js";
import { escapeText, type Html, type HtmlValue, html, raw } from "#src/publishing/site/html.js";
import type { CellView, ItemView, LineView } from "#src/publishing/site/lines-view.js";
import type { MoveView, OtherVersionView } from "#src/publishing/site/move-view.js";
import type { RoutineView } from "#src/publishing/site/routine-view.js";
import type { Wording } from "#src/wording/wording.js";
import { theirs } from "./theirs.js";

/** The counts, section by section. */
export function counts({ sections, versions, marks }: RoutineView, wording: Wording): Html {
  const words = wording.sections;
  return html`<section class="counts" aria-labelledby="counts">
<h2><span id="counts">${words.title}</span>${versions.length > 1 && versions.map(({ classes, name }) => html`<span class="shown ${classes}">, ${name}</span>`)}<span class="shown mirrored">, ${words.mirrored}</span></h2>
<p class="mirrored">${words.mirroredFor}</p>
${versions.length > 1 && html`<p><label class="tick"><input type="checkbox" id="beside"> ${words.besideEveryMove}</label></p>`}
${sections.map((of) => section(of, wording))}
${marks.map(({ classes, value }) => html`<p class="counts-mark ${classes}">${words.mark(html`<b>${value}</b>`)}</p>\n`)}<p class="asking by-script">${words.asked}</p>
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
${of.phrases.length > 0 && table(of, wording)}
</section>
`;
}

function time({ clock, through }: SectionView["times"][number], index: number): Html {
  return html`${index > 0 && " · "}<span class="time">${through}${through && clock && " "}${clock && html`<span class="clock">${clock}</span>`}</span>`;
}

/** A phrase is a row of the table, a long one several; numerals stand over the first and wherever others serve. */
function table({ id, phrases }: SectionView, wording: Wording): Html {
  let over: LineView | undefined;
  const rows = phrases.flatMap((phrase) =>
    phrase.lines.map((of, index) => {
      const stands = serves(over, of);
      if (!stands) over = of;
      return html`${!stands && numeralRow(of, wording)}${line(of, phrase, index, wording)}`;
    }),
  );
  return html`<div class="sheet" role="table" aria-labelledby="${id}">${rows}</div>`;
}

/** Whether a line can stand under numerals that are there already. */
function serves(over: LineView | undefined, { columns, numerals }: LineView): boolean {
  const same = ({ text }: LineView["numerals"][number], index: number) =>
    text === "" || text === over?.numerals[index]?.text;
  return over?.columns === columns && numerals.every(same);
}

function numeralRow({ columns, numerals }: LineView, { sections: words }: Wording): Html {
  const cell = ({ text, accent }: LineView["numerals"][number]) =>
    html`<span role="columnheader">${accent ? html`<b>${text}</b><span class="unseen"> ${words.accent}</span>` : text}</span>`;
  return html`<div class="numerals by-${columns}" role="row"><span class="corner" role="columnheader">${words.phrases}</span>${numerals.map(cell)}</div>
`;
}

function line({ columns, cells }: LineView, phrase: PhraseView, index: number, wording: Wording): Html {
  const head =
    index === 0
      ? html`<div class="head" role="rowheader"><h4 id="${phrase.anchor}">${phraseHead(phrase, wording)}</h4></div>`
      : html`<div class="head more" role="rowheader">${wording.sections.phraseOn(phrase.number)}</div>`;
  return html`<div class="phrase by-${columns}" role="row">${head}
${cells.map((of) => cell(of, phrase.across !== undefined, wording))}</div>
`;
}

function phraseHead({ number, counts, say, across, clock }: PhraseView, wording: Wording): Html {
  const words = wording.sections;
  return html`${words.phrase(number)}<span>${counts}</span>${say && html`<span class="called">${words.called(authored(say, wording))}</span>`}${across && html`<span class="across">${words.groupsAcross(across.groups, across.others)}</span>`}${clock && html`<span class="clock">${clock}</span>`}`;
}

/**
 * A cell is there whatever is chosen, so that the first count in it has its address there.
 *
 * @param said true where the phrase says of all its moves who dances them
 */
function cell({ column, span, listed, items }: CellView, said: boolean, wording: Wording): Html {
  const [first] = items;
  const spans = span > 1 && raw(` aria-colspan="${span}"`);
  const own = first?.anchor?.here === true && raw(` id="${escapeText(first.anchor.id)}"`);
  return html`<div class="${listed ? "cell listed" : "cell"} ${columnClasses({ column, span })}" role="cell" aria-colindex="${column + 1}"${spans}${own}>${items.map(
    (of, index) => [
      index > 0 && of.anchor?.here === true && html`<span class="at ${columnClasses(of)}" id="${of.anchor.id}"></span>`,
      "on" in of.row ? move(of.row, of, said, wording) : goesOn(of, wording),
    ],
  )}</div>
`;
}

const columnClasses = ({ column, span }: Pick<CellView, "column" | "span">): string => `c${column} w${span}`;

/** What goes on from the phrase before; a list, which names it where it begins, has no need of it. */
function goesOn(of: ItemView, { sections: words }: Wording): Html {
  return html`<div class="goes-on ${columnClasses(of)} ${of.row.classes}">${words.goesOn}</div>`;
}

function move(of: MoveView, { column, span, anchor }: ItemView, said: boolean, wording: Wording): Html {
  const words = wording.sections;
  const kinds = [
    "move",
    columnClasses({ column, span }),
    of.hold && "hold",
    of.hit && "hit",
    of.cautions.length > 0 && "risky",
    of.classes,
  ]
    .filter(Boolean)
    .join(" ");
  const on = html`<span>${of.on}</span>${of.lasts && html`<small>${of.lasts}</small>`}`;
  const across = of.across && !said && html`<span class="across">${words.across(of.across)}</span>`;
  return html`<div class="${kinds}"><a class="${of.on.length > 3 ? "on long" : "on"}" href="#${anchor?.id}">${on}</a><div class="what">${of.groups && html`<p class="${said ? "group alone" : "group"}">${of.groups}${across}</p>`}<p class="cue">${of.improvised && html`<span class="own">${wording.counts.own}</span> `}${of.hold ? of.cue : authored(of.cue, wording)}${of.hit && html` <span class="mark">${words.hit}</span>`}</p>${details(of, wording)}</div></div>
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
  return html`<li><b>${name}</b> ${moves.map(({ on, cue, cautions, improvised }, index) => html`${index > 0 && "; "}${moves.length > 1 && html`<span class="small-on">${on}</span> `}${improvised && html`<span class="own">${wording.counts.own}</span> `}${authored(cue, wording)}${cautions.length > 0 && html` <span class="care">${words.takeCareShort(cautions)}</span>`}`)}</li>`;
}

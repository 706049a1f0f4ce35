import { plainWords } from "../../hearing/plain-words.js";
import type { DraftRow } from "../../hearing/types.js";
import { type Html, html } from "../../publishing/site/html.js";
import { type Point, parseSpans, partOfCount, pointText } from "../../routine/spans.js";
import type { Wording } from "../../wording/wording.js";
import { mostRemarks, toldText } from "./remarks.js";
import { playButtons, saidItem } from "./report-parts.js";
import { quoteOf, type SheetMove, type SheetPhrase } from "./sheet.js";

/** A cue in a column of the table. */
interface TableCue {
  readonly on: string;
  readonly text: string;
}

/** A phrase as its runs called it, a row a run and a column a count, the draft in the last row; and what was said about it. */
export function phraseTable(section: string, phrase: SheetPhrase, wording: Wording): Html {
  const words = wording.draft.report;
  const rows = phrase.heard.rows ?? [];
  const drafted = phrase.moves.map(({ on, cue }): TableCue => ({ on, text: cue }));
  const columns = columnsOf(phrase.counts, [...drafted, ...rows.flatMap((row) => row.cells)]);
  const caption = words.phrase(section, phrase.number);
  const head = columns.map(
    ({ name, between }) => html`<th scope="col" class="${between ? "between" : "whole"}">${name}</th>`,
  );
  const said = saidOf(phrase, wording);
  return html`<div class="scroll" role="region" tabindex="0" aria-label="${caption}">
<table>
<caption>${caption}</caption>
<thead><tr><th scope="col">${words.runs}</th>${head}</tr></thead>
<tbody>
${rows.map((row) => runRow(row, columns, drafted, wording))}
${draftRow(phrase.moves, columns, wording)}
</tbody>
</table>
</div>
${said.length > 0 && html`<p class="quiet">${words.told}</p><ul>${said}</ul>`}`;
}

interface Column {
  /** "3", "3&" */
  readonly name: string;
  readonly between: boolean;
}

/** Every whole count, and of the parts of counts those on which something was heard. */
function columnsOf(counts: number, cues: readonly TableCue[]): readonly Column[] {
  const whole = Array.from({ length: counts }, (_, index): Point => ({ count: index + 1, part: "" }));
  const heard = cues.flatMap(({ on }) => startOf(on) ?? []).filter(({ count }) => count >= 1 && count <= counts);
  const points = new Map([...whole, ...heard].map((point) => [pointText(point), point]));
  const position = ({ count, part }: Point) => count + (partOfCount(part, "straight")?.valueOf() ?? 0);
  return [...points]
    .sort(([, a], [, b]) => position(a) - position(b))
    .map(([name, { part }]) => ({ name, between: part !== "" }));
}

function startOf(on: string): Point | undefined {
  const parsed = parseSpans(on);
  return "wrong" in parsed ? undefined : parsed.spans[0]?.first;
}

const begins = (name: string) => (cue: TableCue) => {
  const start = startOf(cue.on);
  return start !== undefined && pointText(start) === name;
};

function runRow(
  { run, at, cells }: DraftRow,
  columns: readonly Column[],
  drafted: readonly TableCue[],
  wording: Wording,
): Html {
  const words = wording.draft.report;
  const cell = ({ name }: Column) => {
    const there = drafted.filter(begins(name)).map(({ text }) => text.toLowerCase());
    return html`<td>${cells.filter(begins(name)).map((cue) => {
      const text = plainWords(cue.text);
      if (there.includes(text.toLowerCase())) return html`${text}${lasting(cue)} `;
      return html`<span class="other"><span class="heard">${words.differs}: </span>${text}</span>${lasting(cue)} `;
    })}</td>`;
  };
  return html`<tr><th scope="row">${words.run(run + 1)} ${playButtons([at], wording)}</th>${columns.map(cell)}</tr>
`;
}

function draftRow(moves: readonly SheetMove[], columns: readonly Column[], { draft }: Wording): Html {
  const words = draft.report;
  const cell = ({ name }: Column) =>
    html`<td>${moves
      .filter(({ on, cue }) => begins(name)({ on, text: cue }))
      .map(({ on, cue, doubt }) =>
        doubt === undefined
          ? html`${cue}${lasting({ on })} `
          : html`<span class="asks">${cue}<span class="heard"> (${words.question})</span></span>${lasting({ on })} `,
      )}</td>`;
  return html`<tr class="drafted"><th scope="row">${words.draft}</th>${columns.map(cell)}</tr>`;
}

/** The counts of a cue that lasts over more than one. */
function lasting({ on }: Pick<TableCue, "on">): Html | undefined {
  const counts = plainWords(on, 12);
  return /[-&]\d/.test(on) ? html` <small>${counts.replace("-", "–")}</small>` : undefined;
}

/** What she said about the phrase, in the order of its counts as far as it was tied to them. */
function saidOf({ heard, moves }: SheetPhrase, wording: Wording): readonly Html[] {
  const told = heard.told.slice(0, mostRemarks).map((one) => ({
    on: one.on ?? "",
    html: saidItem(toldText(one, wording), [one.said.at], wording),
  }));
  const beside = moves.flatMap(({ on, heard: move }) =>
    [...(move?.unsure ?? []), ...(move?.hit ? [move.hit] : [])].map((said) => ({
      on,
      html: saidItem(wording.draft.told("other", on, [], quoteOf(said)), [said.at], wording),
    })),
  );
  const position = (on: string) => startOf(on)?.count ?? Number.POSITIVE_INFINITY;
  return [...told, ...beside].sort((a, b) => compare(position(a.on), position(b.on))).map((one) => one.html);
}

function compare(a: number, b: number): number {
  return a === b ? 0 : a - b;
}

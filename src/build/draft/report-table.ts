import { plainWords } from "../../hearing/plain-words.js";
import type { DraftRow } from "../../hearing/types.js";
import { type Html, html } from "../../publishing/site/html.js";
import { type Point, parseSpans, partOfCount, pointText } from "../../routine/spans.js";
import type { Wording } from "../../wording/wording.js";
import { mostRemarks, toldAlone } from "./remarks.js";
import { playButtons, saidItem } from "./report-parts.js";
import type { SheetMove, SheetPhrase } from "./sheet.js";

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
  return html`<section class="scroll" tabindex="0" aria-label="${caption}">
<table>
<caption>${caption}</caption>
<thead><tr><th scope="col">${words.runs}</th>${head}</tr></thead>
<tbody>
${rows.map((row) => runRow(row, columns, drafted, wording))}
${draftRow(phrase.moves, columns, wording)}
</tbody>
</table>
</section>
${said.length > 0 && html`<p class="quiet">${words.told}</p><ul>${said}</ul>`}`;
}

interface Column {
  /** "3", "3&" */
  readonly name: string;
  readonly between: boolean;
  /** In counts. */
  readonly position: number;
}

/** Every whole count, and of the parts of counts those on which something was heard. */
function columnsOf(counts: number, cues: readonly TableCue[]): readonly Column[] {
  const whole = Array.from({ length: counts }, (_, index): Point => ({ count: index + 1, part: "" }));
  const heard = cues.flatMap(({ on }) => startOf(on) ?? []).filter(({ count }) => count >= 1 && count <= counts);
  const points = new Map([...whole, ...heard].map((point) => [pointText(point), point]));
  return [...points]
    .map(([name, point]): Column => ({ name, between: point.part !== "", position: position(point) }))
    .sort((a, b) => a.position - b.position);
}

function position({ count, part }: Point): number {
  return count + (partOfCount(part, "straight")?.valueOf() ?? 0);
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
  const shown = (cue: TableCue, { name }: Column) => {
    const text = plainWords(cue.text);
    const same = drafted.some((other) => begins(name)(other) && other.text.toLowerCase() === text.toLowerCase());
    if (same) return html`${text} `;
    return html`<span class="other"><span class="heard">${words.differs}: </span>${text}</span> `;
  };
  const head = html`<th scope="row">${words.run(run + 1)} ${playButtons([at], wording)}</th>`;
  return html`<tr>${head}${cellsOf(cells, columns, shown)}</tr>
`;
}

function draftRow(moves: readonly SheetMove[], columns: readonly Column[], { draft }: Wording): Html {
  const words = draft.report;
  const cues = moves.map((move) => ({ ...move, text: move.cue }));
  const shown = ({ cue, doubt }: SheetMove) =>
    doubt === undefined
      ? html`${cue} `
      : html`<span class="asks">${cue}<span class="heard"> (${words.question})</span></span> `;
  return html`<tr class="drafted"><th scope="row">${words.draft}</th>${cellsOf(cues, columns, shown)}</tr>`;
}

/** The cells of a row, of which one that holds a cue reaches as far as the cue lasts and nothing else begins. */
function cellsOf<Cue extends TableCue>(
  cues: readonly Cue[],
  columns: readonly Column[],
  shown: (cue: Cue, column: Column) => Html,
): readonly Html[] {
  const cells: Html[] = [];
  for (let index = 0; index < columns.length; ) {
    const column = columns[index];
    if (column === undefined) break;
    const here = cues.filter(begins(column.name));
    const end = Math.max(...here.map(({ on }) => endOf(on)));
    let next = index + 1;
    while (reaches(columns[next], end) && !cues.some(begins(columns[next]?.name ?? ""))) next++;
    const over = next - index;
    cells.push(html`<td colspan="${over}">${here.map((cue) => shown(cue, column))}</td>`);
    index = next;
  }
  return cells;
}

const reaches = (column: Column | undefined, end: number) => column !== undefined && column.position <= end;

/** Where the last point of a cue begins. */
function endOf(on: string): number {
  const parsed = parseSpans(on);
  const last = "wrong" in parsed ? undefined : parsed.spans.at(-1)?.last;
  return last === undefined ? 0 : position(last);
}

/** What she said about the phrase, in the order of its counts as far as it was tied to them. */
function saidOf({ heard, moves }: SheetPhrase, wording: Wording): readonly Html[] {
  const told = [
    ...heard.told.slice(0, mostRemarks),
    ...moves.flatMap(({ on, heard: move }) => [
      ...(move?.unsure ?? []).map((said) => ({ kind: "unsure", on, said }) as const),
      ...(move?.hit ? [{ kind: "hit", on, said: move.hit } as const] : []),
    ]),
  ];
  const order = ({ on = "" }: { readonly on?: string }) => startOf(on)?.count ?? Number.MAX_SAFE_INTEGER;
  return told
    .sort((a, b) => order(a) - order(b))
    .map((one) => saidItem(toldAlone(one, wording), [one.said.at], wording));
}

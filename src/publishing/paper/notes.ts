import type { DancedSection, Library, Move, Routine, Version } from "../../routine/routine.js";
import { movesIn, sheetSections } from "../../routine/sheet.js";
import { risks } from "../../routine/words.js";
import { type Block, itemBlock, textBlock, wholeBlock } from "../../typesetting/block.js";
import type { Mark, Position, StructureElement } from "../../typesetting/print.js";
import { leading, type Span, wrap } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { cueSpans } from "./cue-spans.js";
import { linkTo } from "./link.js";
import { proseBlocks } from "./markdown.js";

/** How the notes under the counts are set, and in what words. */
export interface NoteStyle {
  readonly size: number;
  readonly width: number;
  /** What a relative link is relative to. */
  readonly base?: string;
  readonly wording: Wording;
}

export const plain = (text: string): Span => ({ text });
export const bold = (text: string): Span => ({ text, style: "bold" });
const italic = (text: string): Span => ({ text, style: "italic" });

export function headingBlock(
  text: string,
  { size, width }: Pick<NoteStyle, "size" | "width">,
  level: 2 | 3 = 2,
): Block {
  const set = level === 2 ? size * 1.3 : size;
  return textBlock([bold(text)], {
    size: set,
    width,
    tag: `H${level}`,
    before: size * (level === 2 ? 1.6 : 0.9),
    keepNext: true,
  });
}

/** A heading and what stands under it; nothing where that is nothing. */
export function under(title: string, blocks: readonly Block[], style: NoteStyle): readonly Block[] {
  return blocks.length === 0 ? [] : [headingBlock(title, style), ...blocks];
}

export const bullet = (spans: readonly Span[], style: NoteStyle): Block => itemBlock(plain("•"), spans, style);

interface PrintedSection {
  readonly section: DancedSection;
  readonly moves: readonly Move[];
}

/** The sections that the sheet prints, each with its moves. */
function printedSections(routine: Routine, version: Version): readonly PrintedSection[] {
  return sheetSections(routine).flatMap(({ section: index }): readonly PrintedSection[] => {
    const section = routine.sections[index];
    if (section === undefined) return [];
    const groups = version.groups.filter(({ name }) => section.parts.includes(name));
    const theirs = groups.flatMap(({ moves }) => moves.filter((move) => move.section === index));
    return [{ section, moves: [...movesIn(version, index), ...theirs] }];
  });
}

/** "Harbour wall 7–8, phrase 2: 4; Tag 1" */
function placesOf(
  printed: readonly PrintedSection[],
  { counts, print }: Wording,
  holds: (move: Move) => boolean,
): string {
  return printed
    .flatMap(({ section, moves }) => {
      const phrases = byPhrase(moves.filter(holds)).map(({ phrase, moves: here }) => {
        return print.inPhrase(phrase, [...new Set(here.map(({ on }) => counts.span(on)))]);
      });
      return phrases.length === 0 ? [] : [`${section.name} ${phrases.join(", ")}`];
    })
    .join("; ");
}

/** Moves by the phrase of their section, whose counts begin anew. */
function byPhrase(moves: readonly Move[]): readonly { readonly phrase: number; readonly moves: readonly Move[] }[] {
  const phrases = [...new Set(moves.map(({ phrase }) => phrase))].sort((a, b) => a - b);
  return phrases.map((phrase) => ({ phrase, moves: moves.filter((move) => move.phrase === phrase) }));
}

/** Blocks for moves, each by its counts; which phrase they are in is said from the second on. */
function moveBlocks(
  moves: readonly Move[],
  style: NoteStyle,
  block: (move: Move) => readonly Block[],
): readonly Block[] {
  return byPhrase(moves).flatMap(({ phrase, moves: here }): readonly Block[] => {
    const blocks = here.flatMap(block);
    if (blocks.length === 0 || phrase === 1) return blocks;
    const { size, width } = style;
    const head = textBlock([italic(style.wording.print.phrase(phrase))], {
      size,
      width,
      before: size * 0.35,
      keepNext: true,
    });
    return [head, ...blocks];
  });
}

/** What other versions dance on the same counts. */
export function optionBlocks(routine: Routine, version: Version, style: NoteStyle): readonly Block[] {
  const { counts, print } = style.wording;
  const blocks = printedSections(routine, version).flatMap(({ section, moves }): readonly Block[] => {
    const items = moveBlocks(moves, style, (move) =>
      move.others.length === 0
        ? []
        : [itemBlock(bold(counts.span(move.on)), otherWaySpans(move, style.wording), style)],
    );
    return items.length === 0 ? [] : [headingBlock(section.name, style, 3), ...items];
  });
  return under(print.otherWays, blocks, style);
}

function otherWaySpans({ others }: Move, { counts, print, risks: cautions, versions }: Wording): readonly Span[] {
  return others.flatMap(({ version, moves }, index) => [
    ...(index === 0 ? [] : [plain(" · ")]),
    italic(`${versions.name(version)}: `),
    ...moves.flatMap((move, at) => [
      ...(at === 0 ? [] : [plain(", ")]),
      ...(moves.length === 1 ? [] : [bold(`${counts.span(move.on)} `)]),
      ...cueSpans(move.cue),
      ...(move.risks.length === 0
        ? []
        : [plain(" ("), italic(print.takeCareShort(move.risks.map(cautions.label))), plain(")")]),
    ]),
  ]);
}

/** The author's prose, and what she wrote beside single moves. */
export function teachingBlocks(routine: Routine, version: Version, style: NoteStyle): readonly Block[] {
  const { prose } = routine;
  const text = (markdown: string, level: number) => proseBlocks(markdown, { ...style, level });
  const told = new Set<number>();
  const sections = printedSections(routine, version).flatMap(({ section, moves }): readonly Block[] => {
    const tips = moveBlocks(moves, style, (move) => tipBlocks(move, style));
    const note = told.has(section.written) ? undefined : prose.notes.find((one) => one.section === section.name);
    told.add(section.written);
    const blocks = [...(note === undefined ? [] : text(note.markdown, 4)), ...tips];
    return blocks.length === 0 ? [] : [headingBlock(section.name, style, 3), ...blocks];
  });
  return under(
    style.wording.print.teachingNotes,
    [...text(prose.introduction, 3), ...sections, ...text(prose.after, 3)],
    style,
  );
}

function tipBlocks(move: Move, style: NoteStyle): readonly Block[] {
  const { counts, print } = style.wording;
  const [before, ways] = print.choice(move.choose.map(cueSpans));
  const choices = ways.flatMap(([joint, way]) => [...(joint === "" ? [] : [plain(joint)]), ...way]);
  const spans = [
    ...(move.note === undefined ? [] : [...cueSpans(move.note), plain(" ")]),
    ...(choices.length === 0 ? [] : [italic(before), ...choices]),
  ];
  return spans.length === 0 ? [] : [itemBlock(bold(counts.span(move.on)), spans, style)];
}

/** A version of a routine; a pack has several. */
export interface Dance {
  readonly routine: Routine;
  readonly version: Version;
}

/** What to bring, each item once, with every reason and every place where it is used. */
export function gearBlocks(dances: readonly Dance[], style: NoteStyle): readonly Block[] {
  const { wording } = style;
  const { print } = wording;
  const names = new Set(dances.flatMap(({ version }) => version.gear.map(({ item }) => item.toLowerCase())));
  const blocks = [...names].map((name) => {
    const uses = dances.flatMap((dance) => dance.version.gear.filter(isItem(name)).map((gear) => ({ ...gear, dance })));
    const optional = uses.every(({ need }) => need === "optional");
    const reasons = uses.map(({ why, dance }) => {
      const used = placesOf(printedSections(dance.routine, dance.version), wording, ({ gear }) =>
        gear.some((one) => one.toLowerCase() === name),
      );
      const whole = [...(why === undefined ? [] : [why]), ...(used === "" ? [] : [print.usedFor(used)])].join("; ");
      return dances.length === 1 ? whole : [dance.routine.title, ...(whole === "" ? [] : [whole])].join(": ");
    });
    const tail = reasons.filter((reason) => reason !== "").join(". ");
    const item = uses[0]?.item ?? name;
    const after = `${optional ? print.optionally : ""}${tail === "" ? "" : `: ${tail}`}`;
    return bullet([bold(item), plain(after)], style);
  });
  return under(print.gear, blocks, style);
}

const isItem = (name: string) => (gear: { readonly item: string }) => gear.item.toLowerCase() === name;

/** The cautions in full, where they apply, and whom they defer to. */
export function cautionBlocks(dances: readonly Dance[], library: Library, style: NoteStyle): readonly Block[] {
  const { wording } = style;
  const { print, risks: cautions } = wording;
  const met = risks.filter((risk) => dances.some(({ version }) => version.cautions.includes(risk)));
  const items = met.map((risk) => {
    const places = dances.flatMap(({ routine, version }) => {
      const here = placesOf(printedSections(routine, version), wording, (move) => move.risks.includes(risk));
      if (!version.cautions.includes(risk)) return [];
      return dances.length === 1
        ? here === ""
          ? []
          : [here]
        : [here === "" ? routine.title : `${routine.title}: ${here}`];
    });
    const where = places.length === 0 ? [] : [italic(` (${places.join(". ")})`)];
    return bullet([bold(`${print.opening(cautions.label(risk))}. `), plain(cautions.caution(risk)), ...where], style);
  });
  const house = library.cautions === undefined ? [] : proseBlocks(library.cautions, { ...style, level: 3 });
  return under(print.takeCare, [...items, textBlock([plain(cautions.deference)], style), ...house], style);
}

/** Practice speeds as a table: per cent, counts a minute, time of one run. */
export function practiceBlocks(routine: Routine, style: NoteStyle): readonly Block[] {
  if (routine.practice.length === 0) return [];
  const { print, time } = style.wording;
  const rows = routine.practice.map(({ percent, countsPerMinute, seconds }) => [
    print.percent(percent),
    time.tempo(countsPerMinute),
    time.clock(seconds),
  ]);
  return under(print.practice.title, [tableBlock([print.practice.columns, ...rows], style)], style);
}

function tableBlock(rows: readonly (readonly string[])[], { size, width }: NoteStyle): Block {
  const height = size * leading + 3;
  const step = Math.min(width / (rows[0]?.length ?? 1), size * 9.5);
  const cell = (text: string, row: number, column: number, position: Position): StructureElement => {
    const [line] = wrap([row === 0 || column === 0 ? bold(text) : plain(text)], size);
    const at = { ...position, x: position.x + column * step, y: position.y + row * height };
    const content: readonly Mark[] = line === undefined ? [] : [{ ...at, line }];
    if (row === 0) return { tag: "TH", scope: "Column", content };
    return column === 0 ? { tag: "TH", scope: "Row", content } : { tag: "TD", content };
  };
  return wholeBlock(rows.length * height, size * 0.4, (position) => ({
    tag: "Table",
    content: rows.map((texts, row) => ({
      tag: "TR",
      content: texts.map((text, column) => cell(text, row, column, position)),
    })),
  }));
}

/** Where the routine's own page stands, if the library has a site. */
export function routineAddress(routine: Routine, library: Library): string | undefined {
  return library.url === undefined ? undefined : `${library.url}/routines/${routine.slug}/`;
}

/** The credit that a dancer who posts the routine should give. */
export function creditSpans(routine: Routine, library: Library): readonly Span[] {
  const credit = routine.credit ?? library.credit;
  const address = routineAddress(routine, library);
  return [
    ...(credit === undefined ? [] : [plain(`${credit} `)]),
    ...(address === undefined ? [] : [{ text: address.replace(/^https?:\/\//, ""), ...linkTo(address) }]),
  ];
}

import type { Place } from "../../routine/problem.js";
import type { DancedSection, Move, Routine, Version } from "../../routine/routine.js";
import { type Block, itemBlock, textBlock } from "../../typesetting/block.js";
import type { Span } from "../../typesetting/text.js";
import { cueSpans } from "./cue-spans.js";
import { proseBlocks } from "./markdown.js";
import { bold, headingBlock, italic, type NoteStyle, plain, under } from "./note-style.js";
import { byPhrase, placeIn, printedSections } from "./printed-moves.js";
import { theirs } from "./theirs.js";

/** Blocks for moves, each by its counts; which phrase they are in is said from the second on. */
function moveBlocks(
  section: DancedSection,
  moves: readonly Move[],
  style: NoteStyle,
  block: (move: Move, on: string) => readonly Block[],
): readonly Block[] {
  const placed = moves.map((move) => ({ move, ...placeIn(section, move) }));
  return byPhrase(placed).flatMap(({ phrase, moves: here }): readonly Block[] => {
    const blocks = here.flatMap(({ move, on }) => block(move, on));
    if (blocks.length === 0 || phrase === 1) return blocks;
    const head = textBlock([italic(style.wording.print.phrase(phrase))], {
      ...style,
      before: style.size * 0.35,
      keepNext: true,
    });
    return [head, ...blocks];
  });
}

/** Whose a move is. In the text, not beside the counts: a group's name may be long, and breaks there. */
function whoseSpans(group: string | undefined, { wording }: NoteStyle): readonly Span[] {
  return group === undefined ? [] : [bold(wording.print.whose(group))];
}

/** The author's prose, and what she wrote beside single moves. */
export function teachingBlocks(routine: Routine, version: Version, style: NoteStyle): readonly Block[] {
  const { prose } = routine;
  const { print } = style.wording;
  const text = (markdown: string, level: number) => proseBlocks(markdown, { ...style, level });
  const told = new Set<number>();
  const tipped = new Set<Place>();
  const sections = printedSections(routine, version).flatMap(({ section, moves, whose }): readonly Block[] => {
    // What is said beside a move holds wherever its section is danced again.
    const fresh = style.once === true ? moves.filter(({ place }) => !tipped.has(place)) : moves;
    for (const { place } of moves) tipped.add(place);
    const tips = moveBlocks(section, fresh, style, (move, on) => tipBlocks(move, on, whose.get(move), style));
    const note = told.has(section.written) ? undefined : prose.notes.find((one) => one.section === section.name);
    told.add(section.written);
    if (note === undefined && tips.length === 0) return [];
    const name = theirs(section.name, style.wording, { style: "bold" });
    if (style.tight !== true)
      return [headingBlock(name, style, 3), ...(note === undefined ? [] : text(note.markdown, 4)), ...tips];
    const lead = { ...name, text: print.leading(name.text) };
    return [...proseBlocks(note?.markdown ?? "", { ...style, level: 4, lead }), ...tips];
  });
  return under(print.teachingNotes, [...text(prose.introduction, 3), ...sections, ...text(prose.after, 3)], style);
}

function tipBlocks(move: Move, on: string, group: string | undefined, style: NoteStyle): readonly Block[] {
  const { counts, print } = style.wording;
  const [before, ways] = print.choice(move.choose.map((way) => cueSpans(way, style.wording)));
  const choices = ways.flatMap(([joint, way]) => [...(joint === "" ? [] : [plain(joint)]), ...way]);
  const spans = [
    ...(move.note === undefined ? [] : [...cueSpans(move.note, style.wording), plain(" ")]),
    ...(choices.length === 0 ? [] : [italic(before), ...choices]),
  ];
  return spans.length === 0 ? [] : [itemBlock(bold(counts.span(on)), [...whoseSpans(group, style), ...spans], style)];
}

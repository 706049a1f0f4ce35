import { mirror } from "../../routine/mirror.js";
import type { Library, Routine } from "../../routine/routine.js";
import * as paragraphs from "./paragraphs.js";

/** Paragraphs in the order in which they are read. */
const printed = [
  paragraphs.title,
  paragraphs.summary,
  paragraphs.side,
  paragraphs.introduction,
  paragraphs.music,
  paragraphs.gear,
  paragraphs.start,
  paragraphs.versions,
  paragraphs.options,
  paragraphs.optionsInShort,
  paragraphs.run,
  paragraphs.contents,
  paragraphs.changes,
  paragraphs.speeds,
  paragraphs.links,
  paragraphs.cautions,
  paragraphs.credit,
  paragraphs.tags,
] as const;

/** What says the same in fewer lines. */
const shorter: ReadonlyMap<paragraphs.Paragraph, paragraphs.Paragraph> = new Map([
  [paragraphs.options, paragraphs.optionsInShort],
]);

/**
 * Paragraphs in the order of their claim to the space. A paragraph that no longer fits is said in short, or left out whole, so that nothing is cut; what
 * comes after it still gets in where it fits. What must be said for safety and for credit comes first.
 */
const claims = [
  paragraphs.title,
  paragraphs.summary,
  paragraphs.side,
  paragraphs.cautions,
  paragraphs.credit,
  paragraphs.music,
  paragraphs.links,
  paragraphs.gear,
  paragraphs.start,
  paragraphs.versions,
  paragraphs.run,
  paragraphs.changes,
  paragraphs.contents,
  paragraphs.options,
  paragraphs.introduction,
  paragraphs.speeds,
  paragraphs.tags,
] as const;

/**
 * The text for the video's description box: plain text without markup, since the box shows none. Its first two lines stand
 * alone. Within the library's limit, which counts Unicode code points (a letter with an accent or an emoji is one, however
 * many units of storage it takes), the last line break included; only the first line stays whatever the limit.
 *
 * @param upload the film that it stands under
 * @example
 * descriptionText(routine, library).split("\n")[0] // "Sill: a dance routine by Ines Varga."
 */
export function descriptionText(routine: Routine, library: Library, upload: paragraphs.Upload = "plain"): string {
  return joined(keptOf(routine, library, upload));
}

/** The paragraphs that have something to say and no room within the library's limit, in the order in which they are read. */
export function leftOutOf(
  routine: Routine,
  library: Library,
  upload: paragraphs.Upload = "plain",
): readonly (keyof typeof paragraphs)[] {
  const kept = keptOf(routine, library, upload);
  const all = keptOf(routine, { ...library, outlineLimit: Number.POSITIVE_INFINITY }, upload);
  const isKept = (one: paragraphs.Paragraph) => kept.has(one) || kept.has(shorter.get(one) ?? one);
  const names = Object.entries(paragraphs) as [keyof typeof paragraphs, paragraphs.Paragraph][];
  const gone = printed.filter((one) => all.get(one) && !isKept(one));
  return gone.flatMap((one) => names.filter(([, paragraph]) => paragraph === one).map(([name]) => name));
}

/** The paragraphs that fit within the library's limit, each with its text. */
function keptOf(
  routine: Routine,
  library: Library,
  upload: paragraphs.Upload,
): ReadonlyMap<paragraphs.Paragraph, string> {
  const said = upload === "danced" ? mirror(routine) : routine;
  let kept = new Map(printed.slice(0, 1).map((paragraph) => [paragraph, paragraph(said, library, upload)]));
  for (const paragraph of claims.slice(1)) {
    const forms = [paragraph, shorter.get(paragraph) ?? paragraph];
    kept =
      forms
        .map((form) => new Map(kept).set(form, form(said, library, upload)))
        .find((more) => [...joined(more)].length <= library.outlineLimit) ?? kept;
  }
  return kept;
}

/** The first two lines follow each other; every other paragraph has an empty line before it. */
function joined(texts: ReadonlyMap<paragraphs.Paragraph, string>): string {
  const opening = [paragraphs.title, paragraphs.summary].map((paragraph) => texts.get(paragraph)).filter(Boolean);
  const rest = printed
    .slice(2)
    .map((paragraph) => texts.get(paragraph))
    .filter(Boolean);
  return `${[opening.join("\n"), ...rest].join("\n\n")}\n`;
}

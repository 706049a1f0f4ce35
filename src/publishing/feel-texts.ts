import type { DancedSection, Routine } from "../routine/routine.js";
import type { Wording } from "../wording/wording.js";

/** How a section's counts are divided, and single phrases of it, where that is not as around them. */
export function feelTexts(
  { music }: Pick<Routine, "music">,
  { feel, phrases }: Pick<DancedSection, "feel" | "phrases">,
  { sections }: Wording,
): readonly string[] {
  const own = phrases.filter((phrase) => phrase.feel !== feel);
  return [
    ...(feel === music.feel ? [] : [sections.feelHere(feel)]),
    ...own.map((phrase) => sections.phraseFeel(phrase.number, phrase.feel)),
  ];
}

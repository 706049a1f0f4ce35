import Fraction from "fraction.js";
import type { DancedPhrase, Version } from "../routine.js";
import { counts, inVersion, type Remark, type Rule, type Scene } from "./rule.js";

export const emptyCounts: Rule = {
  name: "empty-counts",
  severity: "note",
  why: "Counts that no move names are a hold. Write `hold` where that is meant, so that a reader knows that nothing was forgotten.",
  good: counts("1-4: Walk in a circle\n5-8: hold"),
  bad: counts("1-4: Walk in a circle"),
  find: (scene) => {
    const found = new Map<string, Remark>();
    for (const version of scene.versions)
      for (const remark of gaps(scene, version)) if (!found.has(remark.place)) found.set(remark.place, remark);
    return [...found.values()];
  },
};

/** A remark a phrase that has empty counts in a version. */
function gaps(scene: Scene, version: Version): readonly Remark[] {
  const remarks: Remark[] = [];
  let index = 0;
  let filled = new Fraction(0);
  for (const [section, danced] of scene.routine.sections.entries())
    for (const phrase of danced.phrases) {
      if (phrase.echo) continue;
      const empty: number[] = [];
      for (const [offset, number] of phrase.numbers.entries()) {
        const at = phrase.at + offset;
        for (; version.moves[index]?.at.lt(at + 1) === true; index++) {
          const move = version.moves[index];
          const to = move?.at.add(move.length);
          if (to?.gt(filled) === true) filled = to;
        }
        if (!filled.gt(at)) empty.push(number);
      }
      if (empty.length > 0)
        remarks.push({
          place: phrasePlace(scene, section, phrase.number),
          message: `${pickUp(phrase, empty)}${empty.length === 1 ? "count" : "counts"} ${empty.join(", ")}${inVersion(scene, version)}: nothing is written, so the dancer holds; write \`hold\` where that is meant`,
        });
    }
  return remarks;
}

function phrasePlace(scene: Scene, section: number, phrase: number): string {
  return scene.routine.sections[section]?.phrases[phrase - 1]?.place ?? scene.written.place;
}

/** A first phrase that only ends may be a pick-up: written with its own first number, it has no empty counts. */
function pickUp({ number, numbers }: DancedPhrase, empty: readonly number[]): string {
  const next = numbers[empty.length];
  const onlyEnds = empty.every((count, index) => count === numbers[index]);
  if (number !== 1 || !onlyEnds || next === undefined || empty.length * 2 < numbers.length) return "";
  return `a pick-up? then write \`from: ${next}\` in this phrase. Otherwise: `;
}

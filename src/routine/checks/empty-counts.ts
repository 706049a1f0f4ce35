import { chart } from "../chart.js";
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

/** A remark a phrase that has empty counts in a version: whole counts of which no move has any part. */
function gaps(scene: Scene, version: Version): readonly Remark[] {
  return chart(scene.routine, version).flatMap(({ phrase, cells }) => {
    const holds = cells.filter(({ move }) => move === undefined);
    const empty = phrase.numbers.filter((number, offset) => {
      if (scene.routine.music.pauses.includes(number)) return false;
      const at = phrase.at + offset;
      return holds.some(({ from, to }) => from.lte(at) && to.gte(at + 1));
    });
    if (phrase.echo || empty.length === 0) return [];
    const message = `${pickUp(phrase, empty)}${empty.length === 1 ? "count" : "counts"} ${empty.join(", ")}${inVersion(scene, version)}: nothing is written, so the dancer holds; write \`hold\` where that is meant`;
    return [{ place: phrase.place, message }];
  });
}

/** A first phrase that only ends may be a pick-up: written with its own first number, it has no empty counts. */
function pickUp({ number, numbers }: DancedPhrase, empty: readonly number[]): string {
  const next = numbers[empty.length];
  const onlyEnds = empty.every((count, index) => count === numbers[index]);
  if (number !== 1 || !onlyEnds || next === undefined || empty.length * 2 < numbers.length) return "";
  return `a pick-up? then write \`from: ${next}\` in this phrase. Otherwise: `;
}

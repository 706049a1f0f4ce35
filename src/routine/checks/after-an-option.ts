import { dancersOf } from "../chart.js";
import { english } from "../english/english.js";
import type { Move, Version } from "../routine.js";
import { counts, type Remark, type Rule, type Scene, versionName } from "./rule.js";

export const afterAnOption: Rule = {
  name: "after-an-option",
  severity: "warning",
  why: "Where an option takes the place of a move with a risk, later moves of the phrase may still be written for those who did it: they come up from a floor that nobody is on, or out of a spin that was not danced.",
  good: counts(
    "1-4: { do: Drop to the floor, height: lying, risk: [floor-drop], options: { 1: { do: Sink down, height: lying } } }\n5-8: { do: Roll up from the floor, height: standing }",
    "levels: [1, 2]\ntaught: 2\n",
  ),
  bad: counts(
    "1-4: { do: Drop to the floor, height: lying, risk: [floor-drop], options: { 1: Reach down } }\n5-8: { do: Roll up from the floor, height: standing }",
    "levels: [1, 2]\ntaught: 2\n",
  ),
  find: (scene) => {
    const found = new Map<string, Remark>();
    const [taught, ...others] = scene.versions;
    if (taught === undefined) return [];
    for (const version of others)
      for (const remark of inVersion(scene, taught, version))
        if (!found.has(remark.place)) found.set(remark.place, remark);
    return [...found.values()];
  },
};

function inVersion(scene: Scene, taught: Version, version: Version): readonly Remark[] {
  const theirs = dancersOf(scene.routine, taught);
  return dancersOf(scene.routine, version).flatMap(({ moves, group }, index) =>
    compare(scene, theirs[index]?.moves ?? [], moves, version, group),
  );
}

/** The taught moves and a version's side by side: plain moves that follow an option in the place of a risk. */
function compare(
  scene: Scene,
  taught: readonly Move[],
  own: readonly Move[],
  version: Version,
  group: string | undefined,
): readonly Remark[] {
  const plain = new Map(taught.map((move) => [momentOf(move), move]));
  const at = (move: Move) => plain.get(momentOf(move));
  let risky: Move | undefined;
  let option: Move | undefined;
  // Both are in the order of their counts, so that what is replaced is never before what was.
  let next = 0;
  return own.flatMap((move): readonly Remark[] => {
    if (option !== undefined && (move.section !== option.section || move.phrase !== option.phrase)) risky = undefined;
    if (move.option !== undefined) {
      while (taught[next]?.at.lte(move.at)) next++;
      const replaced = taught[next - 1];
      if (replaced?.at.add(replaced.length).gt(move.at) && replaced.risks.some((risk) => !move.risks.includes(risk)))
        [risky, option] = [replaced, move];
      return [];
    }
    const same = at(move);
    if (risky === undefined || option === undefined || same === undefined || same.place !== move.place) return [];
    const reason = presupposed(risky, option, same, move);
    if (reason === undefined) return [];
    const who = group === undefined || group === scene.routine.groups[0] ? "" : `${group}: `;
    const elsewhere = same.before.height === move.before.height ? "" : ` and is ${move.before.height} here`;
    return [
      {
        place: move.place,
        message: `${who}${reason}, but ${versionName(version)} dances "${option.cue.text}" in place of "${risky.cue.text}"${elsewhere}; give this move an option for ${versionName(version)} too`,
      },
    ];
  });
}

function momentOf({ at, place }: Move): string {
  return `${at.toFraction()} ${place}`;
}

/** What in a plain move is written for those who did the risky move before it, and does not fit those who did not. */
function presupposed(risky: Move, option: Move, taught: Move, own: Move): string | undefined {
  const height = taught.before.height;
  // A version that was at another height before has its own way through all of it.
  if (own.before.height !== height && option.before.height === risky.before.height) {
    if (taught.after.height !== height) return `this goes from ${height} to ${taught.after.height}`;
    if (taught.contacts.length > 0) return `this has weight on ${taught.contacts.join(" and ")}, and starts ${height}`;
    if (taught.risks.includes("kneework") && !own.risks.includes("kneework")) return "this is danced on the knees";
    const word = english.afterRisk(taught.cue.text, "floor-drop");
    if (word !== undefined) return `this speaks of "${word}"`;
  }
  for (const risk of risky.risks) {
    const word =
      own.risks.includes(risk) || risk === "floor-drop" ? undefined : english.afterRisk(taught.cue.text, risk);
    if (word !== undefined) return `this speaks of "${word}"`;
  }
  return undefined;
}

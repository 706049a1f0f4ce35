import { everyMove } from "../every-move.js";
import type { Place, Problem } from "../problem.js";
import type { Library, Routine } from "../routine.js";
import type { WrittenRoutine } from "../written.js";
import { accentWithoutHit, hitsOffAccents } from "./accents.js";
import { afterAnOption } from "./after-an-option.js";
import { canonGrows } from "./canon-grows.js";
import { chapterRules } from "./chapters.js";
import { credit } from "./credit.js";
import { dancedAgain } from "./danced-again.js";
import { doubt } from "./doubt.js";
import { dropNoLower } from "./drop-no-lower.js";
import { elsewhere } from "./elsewhere.js";
import { emptyCounts } from "./empty-counts.js";
import { gearNotListed } from "./gear-not-listed.js";
import { landingWords } from "./landing-words.js";
import { leftAlone } from "./left-alone.js";
import { leftRight } from "./left-right.js";
import { missingKey } from "./missing-key.js";
import { neverDanced } from "./never-danced.js";
import { noChapter } from "./no-chapter.js";
import { noEasyOption } from "./no-easy-option.js";
import { noGlyph } from "./no-glyph.js";
import { noWalls } from "./no-walls.js";
import { optionRisks } from "./option-risks.js";
import type { Rule, Scene } from "./rule.js";
import { rushed } from "./rushed.js";
import { sameFoot } from "./same-foot.js";
import { sameName } from "./same-name.js";
import { seatedStart } from "./seated-start.js";
import { tripletOrSwing } from "./triplet-or-swing.js";

/**
 * All rules that look at a routine that can be danced. `readRoutine` applies them; each has a name, its severity, a reason and a good and a
 * bad example.
 *
 * @example
 * rules.find(({ name }) => name === "missing-key").severity // "warning"
 */
export const rules: readonly Rule[] = [
  sameFoot,
  leftRight,
  rushed,
  dropNoLower,
  afterAnOption,
  elsewhere,
  dancedAgain,
  neverDanced,
  noWalls,
  missingKey,
  optionRisks,
  emptyCounts,
  canonGrows,
  tripletOrSwing,
  accentWithoutHit,
  hitsOffAccents,
  landingWords,
  leftAlone,
  noEasyOption,
  gearNotListed,
  credit,
  sameName,
  seatedStart,
  ...chapterRules,
  noChapter,
  noGlyph,
  doubt,
];

/** Not said of a draft: that counts are not filled yet and accents have no hit yet is what makes it one. */
const ofWhatIsDone: readonly Rule[] = [emptyCounts, accentWithoutHit];

/** What the rules have to say about a routine, less what its author silenced with `allow` on a move. */
export function checkRoutine(written: WrittenRoutine, routine: Routine, library: Library): readonly Problem[] {
  const taught = routine.versions.filter(({ id }) => id === routine.taught);
  const others = routine.versions.filter(({ id }) => id !== routine.taught);
  const scene: Scene = { written, routine, library, versions: [...taught, ...others] };
  const allowed = new Map(everyMove(written).map((move) => [move.place, move.allow] as const));
  const asked = routine.draft ? rules.filter((rule) => !ofWhatIsDone.includes(rule)) : rules;
  const found = asked.flatMap((rule) =>
    rule
      .find(scene)
      .filter(({ place }) => !isAllowed(rule.name, place, allowed))
      .map(
        ({ place, message, severity }): Problem => ({
          severity: severity ?? rule.severity,
          rule: rule.name,
          place,
          message,
        }),
      ),
  );
  return [...found, ...unknownRules(written)];
}

/** A move's own place, or one within it. */
function isAllowed(rule: string, place: Place, allowed: ReadonlyMap<Place, readonly string[]>): boolean {
  const within = place.slice(0, Math.max(place.lastIndexOf("/"), 0));
  return [place, within].some((at) => allowed.get(at)?.includes(rule) === true);
}

function unknownRules(written: WrittenRoutine): readonly Problem[] {
  const names = new Set(rules.map(({ name }) => name));
  return everyMove(written).flatMap((move) =>
    move.allow
      .filter((name) => !names.has(name))
      .map(
        (name): Problem => ({
          severity: "warning",
          rule: "allow",
          place: `${move.place}/allow`,
          message: `there is no rule called \`${name}\`; the rules are ${[...names].join(", ")}`,
        }),
      ),
  );
}

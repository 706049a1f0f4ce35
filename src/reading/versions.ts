import type { WrittenMove, WrittenRoutine } from "../routine/written.js";
import type { TextFinding } from "./finding.js";
import { eitherOf, nearest, quoted } from "./nearest.js";
import type { Front } from "./yaml.js";

/** Checks that every version which is named exists, and that no two get in each other's way. */
export function versionFindings(written: WrittenRoutine, locate: Front["locate"]): TextFinding[] {
  const findings: TextFinding[] = [];
  const error = (rule: string, place: string, message: string, part: "key" | "value" = "key") =>
    void findings.push({ severity: "error", rule, message, ...locate(place, part) });
  const adaptations = written.adaptations.map(({ name }) => name);
  const versions = [...written.levels, ...adaptations];
  const exists = (
    name: string,
    known: readonly string[],
    kind: string,
    place: string,
    part: "key" | "value" = "value",
  ) => {
    if (known.includes(name)) return;
    const near = nearest(name, known);
    const hint = near
      ? ` Did you mean ${quoted(near)}?`
      : ` There ${known.length === 1 ? "is" : "are"} ${eitherOf(known.map(quoted), "and")}.`;
    error("unknown-version", place, `${quoted(name)} is no ${kind} of this routine.${hint}`, part);
  };

  namesApart(written, error);
  exists(written.taught, written.levels, "level", "/taught");
  for (const { place, from } of written.adaptations)
    if (from !== undefined) exists(from, written.levels, "level", `${place}/from`);
  for (const { place, version } of written.start.versions)
    exists(version, versions, "level or adaptation", place, "key");
  for (const { place, for: list = [] } of written.gear)
    for (const [index, name] of list.entries()) exists(name, versions, "level or adaptation", `${place}/for/${index}`);
  for (const { place, version } of options(written)) {
    exists(version, versions, "level or adaptation", place, "key");
    if (version === written.taught) {
      error(
        "taught-option",
        place,
        `Level ${quoted(version)} is the one that is taught, so it dances the move itself: write it that way at \`do\`, and take this line out.`,
      );
    }
  }
  return findings;
}

function options(written: WrittenRoutine) {
  const ofMoves = (moves: readonly WrittenMove[]) => moves.flatMap((move) => move.options);
  const phrases = written.sections.flatMap(({ counts = [], change, parts = [] }) => [
    ...counts,
    ...change.map(({ by }) => by),
    ...parts.flatMap((part) => part.counts),
  ]);
  return phrases.flatMap((phrase) => [...phrase.options, ...ofMoves(phrase.moves)]);
}

/* Two versions whose names differ in case alone, or which end as another handout does, would share a file. */
function namesApart(
  written: WrittenRoutine,
  error: (rule: string, place: string, message: string, part?: "value") => void,
): void {
  const names = [
    ...written.levels.map((name, index) => ({ name, place: `/levels/${index}` })),
    ...written.adaptations.map(({ name, place }) => ({ name, place })),
  ];
  const sheets = [
    ...["mirrored", "card"].map((sheet) => ({ name: written.taught, sheet })),
    ...names.map(({ name }) => ({ name, sheet: "large" })),
  ];
  const seen = new Map(sheets.map(({ name, sheet }) => [`${name}-${sheet}`.toLowerCase(), `the ${sheet} handout`]));
  for (const { name, place } of names) {
    const other = seen.get(name.toLowerCase());
    if (other === undefined) seen.set(name.toLowerCase(), quoted(name));
    else
      error(
        "version-names",
        place,
        `${quoted(name)} would share its handout's file name with ${other}: choose another name.`,
        "value",
      );
  }
}

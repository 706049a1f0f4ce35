import { dancersOf } from "../chart.js";
import { english } from "../english/english.js";
import { everyPhrase } from "../every-move.js";
import type { Move, Version } from "../routine.js";
import { type Risk, risks } from "../vocabulary.js";
import type { WrittenMove, WrittenOption, WrittenRoutine } from "../written.js";
import { counts, type Remark, type Rule, type Scene, versionName } from "./rule.js";

export const optionRisks: Rule = {
  name: "option-risks",
  severity: "warning",
  why: "An option for a harder level keeps the risks that the plain move names. Those that follow from the plain move's other keys (a full turn, a drop to the floor, the knees, upside down) it does not have unless its own keys say so, and their caution is missing where it is needed most.",
  good: counts(
    "1-4: { do: Spin, turn: 2 right, options: { 2: { do: The technical version, risk: [spin] } } }\n5-8: hold",
    "levels: [1, 2]\n",
  ),
  bad: counts("1-4: { do: Spin, turn: 2 right, options: { 2: The technical version } }\n5-8: hold", "levels: [1, 2]\n"),
  find: (scene) => {
    const silent = harderOptions(scene.written).filter(
      ({ option }) => option.moves.every((move) => move.risks === undefined) && !option.moves.every(({ hold }) => hold),
    );
    if (silent.length === 0) return [];
    const [taught] = scene.versions;
    const plainRisks =
      taught === undefined ? new Map() : met(scene, taught, ({ risks, cautions }) => own(risks, cautions));
    return silent.flatMap((one): readonly Remark[] => {
      const version = scene.versions.find(({ id }) => id === one.option.version);
      return version === undefined ? [] : remarkOn(scene, one, version, plainRisks);
    });
  },
};

/** What on the knees or upside down only holds on is so by the dancer's height already; a spin is the whole of its moves'. */
function own(all: readonly Risk[], cautions: readonly Risk[]): readonly Risk[] {
  return all.filter((risk) => risk === "spin" || cautions.includes(risk));
}

/** An option for a level above the taught one, and the plain moves in whose place it stands. */
interface HarderOption {
  readonly option: WrittenOption;
  readonly plain: readonly WrittenMove[];
}

function harderOptions(written: WrittenRoutine): readonly HarderOption[] {
  const { levels, taught } = written;
  const all = everyPhrase(written).flatMap(({ moves, options }) => [
    ...options.map((option): HarderOption => ({ option, plain: moves })),
    ...moves.flatMap((move) => move.options.map((option): HarderOption => ({ option, plain: [move] }))),
  ]);
  return all.filter(({ option }) => levels.indexOf(option.version) > levels.indexOf(taught));
}

type MetRisks = ReadonlyMap<string, ReadonlySet<Risk>>;

/** The risks that a version's dancers meet, by the move's place in the file. */
function met({ routine }: Scene, version: Version, of: (move: Move) => readonly Risk[]): MetRisks {
  const found = new Map<string, Set<Risk>>();
  for (const { moves } of dancersOf(routine, version))
    for (const move of moves) {
      const here = found.get(move.place) ?? new Set();
      for (const risk of of(move)) here.add(risk);
      found.set(move.place, here);
    }
  return found;
}

function remarkOn(
  scene: Scene,
  { option, plain }: HarderOption,
  version: Version,
  plainRisks: MetRisks,
): readonly Remark[] {
  const places = new Set(option.moves.map(({ place }) => place));
  const danced = dancersOf(scene.routine, version).flatMap(({ moves }) =>
    moves.filter(({ place }) => places.has(place)),
  );
  if (danced.length === 0) return [];
  const hinted = danced
    .filter(({ allow }) => !allow.includes("missing-key"))
    .flatMap((move) => english.missingKeys(move).map(({ risk }) => risk));
  const said = new Set([...danced.flatMap((move) => move.risks), ...hinted]);
  const replaced = new Set(plain.flatMap(({ place }) => [...(plainRisks.get(place) ?? [])]));
  const lost = risks.filter((risk) => replaced.has(risk) && !said.has(risk));
  if (lost.length === 0) return [];
  const named = new Set([...lost, ...plain.flatMap((move) => move.risks ?? [])]);
  const list = risks.filter((risk) => named.has(risk)).join(", ");
  const where = option.moves.length > 1 ? " at the move that has it" : "";
  const what = plain.length > 1 ? "moves" : "a move";
  const message = `${versionName(version)} dances this in place of ${what} with ${lost.join(" and ")} and says nothing of it: write \`risk: [${list}]\`${where}, or \`risk: none\` if it has none`;
  // An option that is one move stands at that move, which may have an `allow`.
  return [{ place: option.moves.length === 1 ? (option.moves[0]?.place ?? option.place) : option.place, message }];
}

import type Fraction from "fraction.js";
import type { Move, Stance, Version } from "../routine.js";
import { counts, inVersion, type Remark, type Rule, type Scene, whereIs } from "./rule.js";

export const elsewhere: Rule = {
  name: "elsewhere",
  severity: "warning",
  why: "Where a version leaves a move in another facing, weight or height than the taught one, the next plain move may not be danceable from there. An option says its own `turn`, `weight` and `height`: it takes nothing from the move it replaces.",
  good: counts(
    "1-2: { do: Half turn to the right, turn: 1/2 right, options: { 1: { do: Walk round to the right, turn: 1/2 right } } }\n3-8: hold",
    "levels: [1, 2]\ntaught: 2\n",
  ),
  bad: counts(
    "1-2: { do: Half turn to the right, turn: 1/2 right, options: { 1: Sway } }\n3-8: hold",
    "levels: [1, 2]\ntaught: 2\n",
  ),
  find: (scene) => {
    const taught = scene.versions.find(({ id }) => id === scene.routine.taught);
    return taught === undefined
      ? []
      : scene.versions.filter((version) => version !== taught).flatMap((version) => partings(scene, taught, version));
  },
};

const ways = ["facing", "weight", "height"] as const;
type Way = (typeof ways)[number];

interface Parting {
  readonly move: Move;
  readonly own: Stance;
  readonly theirs: Stance;
  metAgain?: Move;
  /** Whether plain moves that the body has to carry over were danced in between. */
  stepped: boolean;
}

/** Where a version parts from the taught one in a way in which they were together, and where they meet again. */
function partings(scene: Scene, taught: Version, version: Version): readonly Remark[] {
  // An adaptation that starts at another height (on a chair, say) has a weight and a height of its own throughout.
  const compared =
    version.kind === "adaptation" && version.start.height !== taught.start.height ? (["facing"] as const) : ways;
  return compared.flatMap((way) => {
    let parting: Parting | undefined;
    let together = taught.start[way] === version.start[way];
    const all: Parting[] = [];
    for (const { own, theirs, move } of meetings(taught, version)) {
      const same = own[way] === theirs[way] || own[way] === undefined || theirs[way] === undefined;
      if (together && !same) {
        parting = { move, own, theirs, stepped: false };
        all.push(parting);
      } else if (!together && same && parting !== undefined) {
        parting.metAgain = move;
        parting = undefined;
      }
      if (parting !== undefined && move !== parting.move && move.option === undefined && isBodily(move))
        parting.stepped = true;
      together = same;
    }
    return remarks(
      scene,
      version,
      way,
      all.filter((one) => !isMeant(one, way, version)),
    );
  });
}

function remarks(scene: Scene, version: Version, way: Way, partings: readonly Parting[]): readonly Remark[] {
  const first = new Map<string, Parting>();
  for (const parting of partings) if (!first.has(parting.move.place)) first.set(parting.move.place, parting);
  return [...first.values()].map(({ move, own, theirs, metAgain, stepped }) => ({
    place: move.place,
    // Apart for no more than moves that leave the body where it is: worth knowing, not worth a warning.
    ...(metAgain !== undefined && !stepped ? { severity: "note" as const } : {}),
    message: `${inVersion(scene, version).trim()} this ends ${inWords(way, own)}, the taught move ${inWords(way, theirs)}; ${
      metAgain === undefined ? "they never meet again" : `they meet again after ${whereIs(scene.routine, metAgain)}`
    }. Give the option its own \`${way === "facing" ? "turn` or `facing" : way}\``,
  }));
}

/**
 * What ends apart is no slip where nothing is danced after it, or where an adaptation's own option goes to another height and
 * stays there: a version that is danced on the floor means to.
 */
function isMeant({ move, own, theirs, metAgain }: Parting, way: Way, version: Version): boolean {
  if (metAgain !== undefined) return false;
  if (move === version.moves.at(-1)) return true;
  const staysDown = version.kind === "adaptation" && move.option === version.id && own.height !== theirs.height;
  return staysDown && way !== "facing" && move.before.height !== own.height;
}

function isBodily({ steps, turn, travel, before, after }: Move): boolean {
  return steps.length > 0 || turn !== 0 || travel.length > 0 || before.height !== after.height;
}

function inWords(way: Way, stance: Stance): string {
  if (way === "facing") return `facing ${stance.facing}`;
  return way === "weight" ? `with the weight on ${stance.weight}` : stance.height;
}

/** The moments at which both versions stand between two moves, with the version's last move before each. */
function meetings(taught: Version, version: Version) {
  const found: { own: Stance; theirs: Stance; move: Move }[] = [];
  let index = 0;
  let last: Move | undefined;
  for (const theirs of taught.moves) {
    const end = endOf(theirs);
    for (; index < version.moves.length; index++) {
      const next = version.moves[index];
      if (next === undefined || endOf(next).gt(end)) break;
      last = next;
    }
    const spanning = version.moves[index]?.at.lt(end) === true;
    if (last !== undefined && !spanning) found.push({ own: last.after, theirs: theirs.after, move: last });
  }
  return found;
}

function endOf(move: Move): Fraction {
  return move.at.add(move.length);
}

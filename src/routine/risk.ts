import type Fraction from "fraction.js";
import { bearsOnKnees } from "./load.js";
import type { GearItem, Move } from "./routine.js";
import { type Height, type Risk, risks } from "./vocabulary.js";

type Dancing = Pick<Move, "at" | "length" | "start" | "end" | "before" | "after" | "through" | "turn" | "contacts">;

const floor: readonly Height[] = ["kneeling", "seated", "lying"];

/**
 * The risks of each move: those that its author named and those that follow from it, in the order of the caution list.
 *
 * - floor-drop: from standing to kneeling, seated or lying in under one second
 * - inversion: ends or passes inverted
 * - spin: a full turn or more, alone or in moves that turn one way with less than a count between them
 * - kneework: the knees take weight (a contact, a weight, a kneeling height)
 *
 * @param named the author's own risks, move by move
 */
export function risksOf(moves: readonly Dancing[], named: readonly (readonly Risk[])[]): readonly (readonly Risk[])[] {
  const spins = spinning(moves);
  return moves.map((move, index) => {
    const met = new Set<Risk>(named[index]);
    if (move.before.height === "standing" && floor.includes(move.after.height) && move.end.sub(move.start).lt(1))
      met.add("floor-drop");
    if (move.after.height === "inverted" || move.through === "inverted") met.add("inversion");
    if (spins.has(index)) met.add("spin");
    if (onKnees(move)) met.add("kneework");
    return risks.filter((risk) => met.has(risk));
  });
}

/**
 * The risks of a move that are said beside it: all that its author named there, and of those that follow from its keys the ones that begin
 * with it. What only holds on from the move before (on the knees, upside down, in one spin of several moves) was said where it began. A
 * section begins anew, since it is looked up by itself.
 */
export function saidRisks(
  moves: readonly (Dancing & Pick<Move, "section" | "risks">)[],
  named: readonly (readonly Risk[])[],
): readonly (readonly Risk[])[] {
  return moves.map((move, index) => {
    const last = moves[index - 1];
    if (last === undefined || last.section !== move.section) return move.risks;
    const holdsOn: Partial<Record<Risk, boolean>> = {
      kneework: bearsOnKnees(move.before),
      inversion: move.before.height === "inverted",
      spin: Math.abs(move.turn) < 8,
    };
    const isNamed = (risk: Risk) => named[index]?.includes(risk) === true;
    return move.risks.filter((risk) => isNamed(risk) || !(holdsOn[risk] === true && last.risks.includes(risk)));
  });
}

function onKnees({ contacts, through, after }: Dancing): boolean {
  return (
    contacts.includes("knees") || through === "kneeling" || after.weight === "knees" || after.height === "kneeling"
  );
}

/** Indexes of the moves that make up a full turn or more in one direction. */
function spinning(moves: readonly Dancing[]): ReadonlySet<number> {
  const found = new Set<number>();
  let chain: number[] = [];
  let sum = 0;
  let end: Fraction | undefined;
  for (const [index, move] of moves.entries()) {
    if (move.turn === 0) continue;
    const linked = end?.add(1).gt(move.at) === true && Math.sign(sum) === Math.sign(move.turn);
    if (!linked) [chain, sum] = [[], 0];
    chain.push(index);
    sum += move.turn;
    end = move.at.add(move.length);
    if (Math.abs(sum) < 8) continue;
    for (const one of chain) found.add(one);
    chain = [];
  }
  return found;
}

/** What a version meets: every risk of its moves, and heels where its gear lists them, required or optional. */
export function cautionsOf(moves: readonly Pick<Move, "risks">[], gear: readonly GearItem[]): readonly Risk[] {
  const met = new Set(moves.flatMap((move) => move.risks));
  if (gear.some(({ item }) => /\bheels\b/i.test(item))) met.add("heels");
  return risks.filter((risk) => met.has(risk));
}

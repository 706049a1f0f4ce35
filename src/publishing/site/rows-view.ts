import type { Place } from "../../routine/problem.js";
import type { Routine } from "../../routine/routine.js";
import type { Wording } from "../../wording/wording.js";
import { holdView, type MoveView, moveView, type RowDancers } from "./move-view.js";
import { isOtherSide, looksAlike, type PhraseEntry } from "./phrase-entries.js";
import { alone, classesFor, groupClasses } from "./version-choice.js";

/** A move, or a part of one, as it stands in a phrase. */
export interface RowView {
  /** In counts from the phrase's first. */
  readonly from: number;
  readonly to: number;
  /** What it says; of a move that goes on from the phrase before, only who dances it. */
  readonly row: MoveView | Pick<MoveView, "classes">;
}

/** Groups, and others that dance the same on the other side. */
export interface Across {
  readonly groups: string;
  readonly others: string;
}

/** What several versions or groups dance alike. */
interface Row {
  readonly entry: PhraseEntry;
  readonly versions: ReadonlySet<string>;
  readonly groups: ReadonlySet<string>;
}

/** A row that stands for that of other groups too while all of them are shown. */
interface JoinedRow extends Row {
  /** Who dances the same on the other side. */
  readonly across: readonly string[];
  /** Told by another row while all groups are shown. */
  readonly told: boolean;
}

/**
 * What several versions and groups dance alike is one row. Rows stand in the order of their counts, what the first group
 * and the taught level dance before the rest.
 */
export function rowViews(routine: Routine, entries: readonly PhraseEntry[], wording: Wording): readonly RowView[] {
  const first = ({ groups }: Row) => routine.groups.findIndex((name) => groups.has(name));
  const rank = (row: Row) => 2 * first(row) + (row.versions.has(routine.taught) ? 0 : 1);
  const rows = alike(byGroups(entries), (a, b) => looksAlike(a.entry, b.entry) && sameSet(a.groups, b.groups))
    .map((same): Row => ({ ...same[0], versions: new Set(same.map(({ entry }) => entry.version)) }))
    .sort((a, b) => a.entry.at.compare(b.entry.at) || rank(a) - rank(b));
  return joined(rows, rank).map((row) => ({
    from: row.entry.from,
    to: row.entry.to,
    row: row.entry.begins ? moveRow(routine, row, wording) : { classes: dancersOf(routine, row).classes },
  }));
}

/** What the groups of each version do, each different thing once with the groups that do it. */
function byGroups(entries: readonly PhraseEntry[]): readonly Omit<Row, "versions">[] {
  return alike(entries, (a, b) => a.version === b.version && looksAlike(a, b)).map((same) => ({
    entry: same[0],
    groups: new Set(same.map(({ group }) => group)),
  }));
}

/** Finds the rows that other rows tell while all groups are shown, since those dance the same on the other side. */
function joined(rows: readonly Row[], rank: (row: Row) => number): readonly JoinedRow[] {
  const tells = (row: Row, other: Row) =>
    rank(row) < rank(other) && sameSet(row.versions, other.versions) && isOtherSide(row.entry, other.entry);
  return rows.map((row) => ({
    ...row,
    across: rows.flatMap((other) => (tells(row, other) ? [...other.groups] : [])),
    told: rows.some((other) => tells(other, row)),
  }));
}

function sameSet(a: ReadonlySet<string>, b: ReadonlySet<string>): boolean {
  return a.size === b.size && [...a].every((name) => b.has(name));
}

/** Values in lists of those that are alike, in the order of the first of each. */
function alike<Value>(
  values: readonly Value[],
  are: (a: Value, b: Value) => boolean,
): readonly (readonly [Value, ...Value[]])[] {
  const lists: [Value, ...Value[]][] = [];
  for (const value of values) {
    const list = lists.find(([first]) => are(first, value));
    if (list) list.push(value);
    else lists.push([value]);
  }
  return lists;
}

function dancersOf(routine: Routine, { versions, groups, told }: JoinedRow): RowDancers {
  const some = routine.groups.length > groups.size;
  const classes = [classesFor(routine, versions), some && groupClasses(routine, groups), told && alone];
  return { classes: classes.filter(Boolean).join(" "), groups: some ? [...groups].join(", ") : "", told };
}

/** A move in canon stands on the room's counts, with the dancer's own beside the name. */
function moveRow(routine: Routine, row: JoinedRow, wording: Wording): MoveView {
  const { move, holdCounts, roomCounts } = row.entry;
  const dancers = dancersOf(routine, row);
  if (!move) return holdView(holdCounts, dancers, wording);
  const doubt = doubtAt(routine, move.place);
  const plain = moveView(move, routine.mirrorWords, dancers, wording);
  const view: MoveView = {
    ...plain,
    ...(doubt === undefined ? {} : { doubt }),
    ...(row.across.length === 0 ? {} : { across: row.across.join(", ") }),
  };
  if (roomCounts === undefined || roomCounts === view.on) return view;
  return { ...view, on: roomCounts, groups: wording.sections.ownCounts(dancers.groups, view.on) };
}

/** Who dances all of some rows on the other side of whom, where one sentence says it of all of them. */
export function acrossAll(rows: readonly RowView[]): Across | undefined {
  const told = rows.flatMap(({ row }) => ("on" in row && row.groups !== "" && !row.told ? [row] : []));
  const [first] = told;
  if (first?.across === undefined) return undefined;
  const { groups, across } = first;
  return told.every((row) => row.groups === groups && row.across === across) ? { groups, others: across } : undefined;
}

/** What the author is not sure of at a place. */
export function doubtAt({ doubts }: Routine, place: Place): string | undefined {
  return doubts.find((one) => one.place === place)?.text;
}

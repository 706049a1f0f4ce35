import { decode } from "../../src/reading/decode.js";
import type { Finding } from "../../src/reading/finding.js";
import { emptyLibrary } from "../../src/reading/read-library.js";
import { type RoutineRead, readRoutine } from "../../src/reading/read-routine.js";
import type { Routine } from "../../src/routine/routine.js";

/** What came of a file, and what is wrong with that. */
export interface Verdict {
  readonly routine?: Routine;
  readonly faults: readonly string[];
  /** Processor time, in milliseconds. */
  readonly took: number;
}

/** Nobody waits longer for one file, in milliseconds of processor time. */
const longest = 1000;
/** But for one that is danced a hundred times over each move takes its time, a thousand of them so many milliseconds. */
const perThousandMoves = 50;

/** Reads a file as the command does and holds the outcome against what every outcome must be. */
export function judge(bytes: Uint8Array, slug = "fuzz"): Verdict {
  const first = readTimed(bytes, slug);
  // The machine has other things to do, and so has the collector: slow is what is slow twice.
  const took = first.took > longest ? Math.min(first.took, readTimed(bytes, slug).took) : first.took;
  if (!first.read) return { faults: [first.thrown ?? "threw nothing"], took };
  const { routine, findings } = first.read;
  const moves = (routine?.versions ?? []).flatMap(({ moves, groups }) => [
    moves,
    ...groups.map((group) => group.moves),
  ]);
  const thousands = moves.reduce((sum, { length }) => sum + length, 0) / 1000;
  const slow = took > longest + thousands * perThousandMoves ? [`took ${Math.round(took)} ms`] : [];
  const errors = findings.filter(({ severity }) => severity === "error");
  const encoding = first.text.includes("\ufffd");
  const faults = [
    ...slow,
    ...findings.flatMap((finding) => misplaced(finding, first.text.split("\n"))),
    ...(routine && errors.length > 0 ? ["a routine and errors"] : []),
    ...(!routine && errors.length === 0 && !encoding ? ["neither a routine nor an error"] : []),
    ...(routine ? halfDone(routine) : []),
  ];
  return { ...(routine && first.sound ? { routine } : {}), faults, took };
}

interface Timed {
  readonly text: string;
  /** False where a finding speaks against the file's bytes. */
  readonly sound: boolean;
  readonly read?: RoutineRead<Routine, Finding>;
  readonly thrown?: string;
  readonly took: number;
}

function readTimed(bytes: Uint8Array, slug: string): Timed {
  const before = process.cpuUsage();
  const took = () => {
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  };
  let text = "";
  try {
    const decoded = decode(bytes);
    text = decoded.text;
    const read = readRoutine(text, slug, emptyLibrary);
    return { text, sound: decoded.findings.length === 0, read, took: took() };
  } catch (error) {
    return { text, sound: false, thrown: (error as Error).stack ?? String(error), took: took() };
  }
}

function misplaced({ line, column, message, rule }: Finding, lines: readonly string[]): readonly string[] {
  const where = `${rule} at ${line}:${column} (${message.slice(0, 200)})`;
  const text = Number.isInteger(line) ? lines[line - 1] : undefined;
  if (text === undefined) return [`no such line: ${where}`];
  if (!(Number.isInteger(column) && column >= 1 && column <= text.length + 1)) return [`no such column: ${where}`];
  if (/\bundefined\b|\bNaN\b|\[object /.test(message) && !lines.some((each) => /undefined|NaN|\[object/.test(each)))
    return [`not said in words: ${where}`];
  return [];
}

/** What a routine that is called whole lacks. */
function halfDone(routine: Routine): readonly string[] {
  const faults: string[] = [];
  const expect = (holds: boolean, what: string) => void (holds || faults.push(`half a routine: ${what}`));
  expect(routine.title !== "" && routine.choreographer !== "", "no title or choreographer");
  expect(Number.isInteger(routine.counts) && routine.counts > 0, `${routine.counts} counts`);
  expect(routine.seconds.compare(0) > 0, "no length");
  expect(routine.sections.reduce((sum, { counts }) => sum + counts, 0) === routine.counts, "sections miss counts");
  expect(
    routine.versions.some(({ id }) => id === routine.taught),
    "the taught level is missing",
  );
  for (const { id, moves } of routine.versions)
    for (const [index, move] of moves.entries()) {
      const next = moves[index + 1];
      const end = move.at.add(move.length);
      expect(move.length.compare(0) > 0, `a move of ${id} without a length`);
      expect(end.compare(routine.counts) <= 0, `a move of ${id} beyond the end`);
      expect(next === undefined || end.compare(next.at) <= 0, `moves of ${id} overlap`);
      expect(move.cue.text !== "", `a move of ${id} without words`);
    }
  return faults;
}

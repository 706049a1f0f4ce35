import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Context, DeclaredFile, FindingInFile, Kind, OutFile, Publisher, Work } from "../publishing/publisher.js";
import type { Library } from "../routine/routine.js";
import { type Digests, digestOfBytes } from "./digest.js";
import { writeInto } from "./staging.js";

/** What everything that is made has in common. */
export interface MakeOptions {
  readonly library: Library;
  /** Where the files are written. */
  readonly folder: string;
  /** For the author's eyes: pages show what is not sure yet as well. */
  readonly served?: true;
  /** Leaves what takes a while for later; pages link to it all the same. */
  readonly later?: true;
}

/** A routine, a workshop or a library that is published. */
export interface Subject<Value> {
  readonly subject: Value;
  /** What an error calls it. */
  readonly name: string;
  readonly title: string;
  readonly findings: readonly FindingInFile[];
}

/** A file that lies in the pack. */
export interface MadeFile {
  readonly path: string;
  readonly kind: Kind;
  readonly mediaType: string;
  readonly digest: string;
}

/** Called with the title of each subject once all but its page is made. */
export type Tell = (title: string) => void;

/** Writes what outputs make of some subjects; the files of each. */
export async function publish<Value>(
  options: MakeOptions,
  publishers: readonly Publisher<Value>[],
  subjects: readonly Subject<Value>[],
  tell: Tell = () => {},
): Promise<readonly (readonly MadeFile[])[]> {
  const alone = publishers.filter(({ publishAll }) => publishAll === undefined);
  const started = [];
  for (const one of subjects) {
    started.push(await publishAlone(options, alone, one));
    tell(one.title);
  }
  const made = started.map(({ made }) => [...made]);
  for (const { publishAll } of publishers) {
    const all = await publishAll?.(started.map(({ work }) => work));
    for (const [index, files] of (all ?? []).entries()) made[index]?.push(...files.map((file) => write(options, file)));
  }
  for (const [index, { work }] of started.entries()) {
    const { name } = subjects[index] ?? { name: "" };
    refuseMissing(promised(options, publishers, name, work), made[index] ?? []);
  }
  return made;
}

/** The files that outputs have said beforehand that they will make of a subject now. */
function promised<Value>(
  { later }: MakeOptions,
  publishers: readonly Publisher<Value>[],
  slug: string,
  { subject, context }: Work<Value>,
): readonly string[] {
  const declared = later ? [] : publishers.flatMap(({ declare }) => declare?.(subject, context) ?? []);
  return [...declared.map(({ path }) => path), ...publishers.flatMap(({ pages }) => pages?.({ slug }) ?? [])];
}

function refuseMissing(paths: readonly string[], made: readonly MadeFile[]): void {
  const there = new Set(made.map(({ path }) => path));
  const missing = paths.find((path) => !there.has(path));
  if (missing !== undefined) throw new Error(`${missing} should have been made and was not.`);
}

/** What the outputs that look at one subject at a time make of one. */
async function publishAlone<Value>(
  options: MakeOptions,
  publishers: readonly Publisher<Value>[],
  { subject, name, findings }: Subject<Value>,
): Promise<{ readonly work: Work<Value>; readonly made: readonly MadeFile[] }> {
  const { library, folder, later } = options;
  const made: MadeFile[] = [];
  const declared: DeclaredFile[] = [];
  const textOf = (path: string) => readFileSync(join(folder, path), "utf8");
  const context = (): Context => ({ library, findings, files: [...declared], textOf });
  for (const { name: output, publish, declare } of publishers) {
    if (later && declare) {
      declared.push(...declare(subject, context()));
      continue;
    }
    const files = await explained(`The ${output} of ${name}`, () => publish(subject, context()));
    // Their bytes are written and done with.
    declared.push(...files.map(({ content: _, ...file }) => file));
    made.push(...files.map((file) => write(options, file)));
  }
  return { work: { subject, context: context() }, made };
}

function write({ folder }: MakeOptions, file: OutFile): MadeFile {
  writeInto(folder, file);
  const { path, kind, mediaType } = file;
  return { path, kind, mediaType, digest: digestOfBytes(file.content) };
}

async function explained<Result>(what: string, make: () => Result | Promise<Result>): Promise<Result> {
  try {
    return await make();
  } catch (error) {
    throw new Error(`${what} could not be made: ${(error as Error).message}`, { cause: error });
  }
}

/** Files by their path, each with its digest. */
export function digestsOf(files: readonly MadeFile[]): Digests {
  return Object.fromEntries(files.map(({ path, digest }) => [path, digest]));
}

/** How many files there are of each kind. */
export type Counts = Partial<Readonly<Record<Kind, number>>>;

export function countsOf(files: readonly Pick<MadeFile, "kind">[]): Counts {
  const counts: Partial<Record<Kind, number>> = {};
  for (const { kind } of files) counts[kind] = (counts[kind] ?? 0) + 1;
  return counts;
}

export function sumOf(all: readonly Counts[]): Counts {
  const sum: Partial<Record<Kind, number>> = {};
  for (const counts of all)
    for (const [kind, count] of Object.entries(counts) as [Kind, number][]) sum[kind] = (sum[kind] ?? 0) + count;
  return sum;
}

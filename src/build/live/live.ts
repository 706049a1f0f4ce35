import { existsSync, mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { readFiles } from "../../reading/files.js";
import type { Finding } from "../../reading/finding.js";
import type { Library } from "../../routine/routine.js";
import { digestOf } from "../digest.js";
import { ignoreErrors } from "../ignore-errors.js";
import type { MadeFile, MakeOptions } from "../publish.js";
import { type Survey, survey } from "../survey.js";
import { surveyedBy } from "../survey-in.js";
import { openThreads } from "../threads.js";
import { keyOf, makeLater, makeUnits, type Unit, unitsOf } from "../units.js";
import { brokenIn } from "./broken.js";
import { rememberingReader } from "./remember.js";

/** A library that is read again when its files change, and whose pages are made when somebody asks for them. */
export interface Live {
  /** What lies at a path of the pack now. */
  readonly at: (path: string) => Promise<Found>;
  /** Changes whenever what lies there does. */
  readonly keyAt: (path: string) => string;
  /** What `library.yaml` says, as it could be read last. */
  readonly library: () => Library;
  /** Those that could be read. */
  readonly routines: () => readonly { readonly slug: string; readonly title: string }[];
  /** What there is to mend or to look at in the content, as it was read last. */
  readonly told: () => Mistakes;
  /** Reads what has changed. */
  readonly refresh: () => Promise<void>;
  readonly close: () => Promise<void>;
}

export type Found =
  | {
      readonly kind: "file";
      readonly body: Uint8Array;
      readonly mediaType: string;
      readonly key: string;
      /** Of a page: what to look at in the file that it is made of. */
      readonly told?: Mistakes;
      /** Of a page: that `library.yaml` can't be read, so that nothing that was changed in it since is seen here. */
      readonly stale?: true;
    }
  /** A page that can't be made before these are mended. */
  | { readonly kind: "mistakes"; readonly mistakes: Mistakes; readonly key: string }
  | { readonly kind: "nothing"; readonly key: string };

export interface Mistakes {
  readonly findings: readonly Finding[];
  readonly sources: ReadonlyMap<string, string>;
}

interface State {
  readonly seen: Survey;
  /** The last one that could be read. */
  readonly library: Library;
  /** Whether that is not the one that is there now. */
  readonly stale: boolean;
  readonly units: ReadonlyMap<string, Unit>;
  /** By place, why its page can't be made. */
  readonly errorsAt: ReadonlyMap<string, readonly Finding[]>;
  /** The same of what to look at in what could be made. */
  readonly toldAt: ReadonlyMap<string, readonly Finding[]>;
  /** The place where a routine is now, by each where it was before. */
  readonly moved: ReadonlyMap<string, string>;
  /** Digests of units and of lists of errors, as far as they were asked for: those of a large library take a while. */
  readonly keys: Map<object, string>;
}

interface Made {
  readonly key: string;
  /** With a folder for this alone: what was made from an earlier state lies elsewhere. */
  readonly options: MakeOptions;
  readonly files: Promise<readonly MadeFile[]>;
  /** What takes a while, from when it was first asked for. */
  later?: Promise<readonly MadeFile[]>;
}

/** Opens a content folder and reads it. What is made lies in a temporary folder until it is closed. */
export async function openLive(contentDir: string): Promise<Live> {
  const folders = [temporaryFolder()];
  // Pages have a thread of their own, where nothing stands before them: no handout, no reading of a large library.
  const [pages, others] = [openThreads(1), openThreads()];
  const readText = rememberingReader();
  const read = async (last?: State): Promise<State> => {
    const files = await readFiles(contentDir, readText);
    const seen = await survey(files, surveyedBy(others), { cached: last?.seen.reads });
    const errors = seen.content.findings.filter(({ severity }) => severity === "error");
    const broken = errors.some(({ file }) => file.endsWith("library.yaml"));
    const library = broken && last ? last.library : seen.content.library;
    const { entries, errorsAt } = brokenIn(files, seen.content, byPlace(errors));
    const toldAt = byPlace(seen.content.findings.filter(isToldOnPage));
    const whole = [...toldAt].filter(([place]) => place !== "" && !errorsAt.has(place));
    const toLookAt = Object.fromEntries(whole.map(([place, findings]) => [place, findings.length]));
    const units = new Map(unitsOf(seen, { broken: entries, toLookAt }).map((unit) => [unit.place, unit]));
    return { seen, library, stale: broken, errorsAt, toldAt, moved: movedIn(seen), units, keys: new Map() };
  };
  const close = async () => {
    await Promise.all([pages.close(), others.close()]);
    for (const folder of folders) rmSync(folder, { recursive: true, force: true });
  };
  let state = await read().catch(async (error) => {
    await close();
    throw error;
  });
  const made = new Map<string, Made>();

  const keyed = (of: object, work: () => string): string => {
    const key = state.keys.get(of) ?? work();
    state.keys.set(of, key);
    return key;
  };
  const keyOfUnit = (unit: Unit) => keyed(unit, () => keyOf(unit, state.library));
  /** A folder for what is made of one unit, though somebody may have cleared away all temporary ones. */
  const ownFolder = (): string => {
    let folder = folders.at(-1);
    if (folder === undefined || !existsSync(folder)) {
      folder = temporaryFolder();
      folders.push(folder);
    }
    return mkdtempSync(join(folder, "made-"));
  };
  const make = (unit: Unit): Made => {
    const key = keyOfUnit(unit);
    const before = made.get(unit.place);
    if (before?.key === key) return before;
    const options: MakeOptions = { library: state.library, folder: ownFolder(), served: true };
    const files = makeUnits(pages, { ...options, later: true }, unit.job, [unit]);
    const now: Made = { key, options, files: files.then(([made = []]) => made) };
    made.set(unit.place, now);
    now.files.catch(() => {
      if (made.get(unit.place) === now) made.delete(unit.place);
    });
    if (before) void clear(before);
    return now;
  };
  const later = (unit: Unit, now: Made): Promise<readonly MadeFile[]> => {
    now.later = makeLater(others, now.options, unit);
    // What could not be made is tried again when it is asked for again.
    now.later.catch(() => delete now.later);
    return now.later;
  };
  /** Where a path lies now, though it may name what a routine was called before. */
  const placeAt = (path: string): string => {
    const place = placeOf(path);
    return state.units.has(place) || state.errorsAt.has(place) ? place : (state.moved.get(place) ?? place);
  };
  const mistakesAt = (path: string): Mistakes | undefined => {
    const place = placeAt(path);
    // What all pages share is there as long as there is a page.
    if (place === "" && path !== "index.html") return undefined;
    const findings = state.errorsAt.get(place);
    return findings && { findings, sources: state.seen.content.sources };
  };
  /** What a page shows its author alone. */
  const toldOn = (path: string): Mistakes | undefined => {
    const findings = path.endsWith("index.html") ? state.toldAt.get(placeOf(path)) : undefined;
    return findings && { findings, sources: state.seen.content.sources };
  };
  const lineOf = ({ file, line }: Finding) => state.seen.content.sources.get(file)?.split(/\r\n?|\n/)[line - 1];
  const toldKey = (told: Mistakes | undefined) =>
    told ? keyed(told.findings, () => digestOf(told.findings, told.findings.map(lineOf))) : "";
  const isStale = (path: string) => state.stale && path.endsWith("index.html");
  const staleKey = (path: string) => (isStale(path) ? " stale" : "");
  const keyAt = (path: string): string => {
    const mistakes = mistakesAt(path);
    if (mistakes) return keyed(mistakes.findings, () => digestOf(mistakes.findings, mistakes.findings.map(lineOf)));
    const unit = state.units.get(placeAt(path));
    return unit ? keyOfUnit(unit) + toldKey(toldOn(path)) + staleKey(path) : "nothing";
  };
  /** What was made at a path of a unit; read at once, since it goes when it is made anew. */
  const madeAt = async (unit: Unit, path: string, again = false): Promise<Found> => {
    const now = make(unit);
    const isIt = (file: MadeFile) => file.path === path;
    try {
      const file = (await now.files).find(isIt) ?? (await (now.later ?? later(unit, now))).find(isIt);
      if (file === undefined) return { kind: "nothing", key: now.key };
      const body = await readFile(join(now.options.folder, path));
      const told = toldOn(path);
      const { mediaType } = file;
      const key = now.key + toldKey(told) + staleKey(path);
      return { kind: "file", body, mediaType, key, ...(told && { told }), ...(isStale(path) && { stale: true }) };
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      if (again || (code !== "ENOENT" && existsSync(now.options.folder))) throw error;
      // It was cleared away, by somebody or by a save in the middle of it.
      if (made.get(unit.place) === now) made.delete(unit.place);
      return madeAt(state.units.get(unit.place) ?? unit, path, true);
    }
  };

  return {
    keyAt,
    library: () => state.library,
    routines: () => state.seen.content.routines.map(({ slug, title }) => ({ slug, title })),
    told: () => {
      const { findings, sources } = state.seen.content;
      return { findings: findings.filter(({ severity }) => severity !== "note"), sources };
    },
    refresh: async () => {
      state = await read(state);
    },
    at: async (path) => {
      const mistakes = mistakesAt(path);
      if (mistakes) return { kind: "mistakes", mistakes, key: keyAt(path) };
      const unit = state.units.get(placeAt(path));
      if (unit === undefined) return { kind: "nothing", key: keyAt(path) };
      return madeAt(unit, path);
    },
    close,
  };
}

function temporaryFolder(): string {
  mkdirSync(tmpdir(), { recursive: true });
  return mkdtempSync(join(tmpdir(), "countleaf-live-"));
}

/** Removes what was made from an earlier state, once nothing writes there any more. */
async function clear({ options, files, later }: Made): Promise<void> {
  await Promise.allSettled([files, later]);
  // What is still open somewhere goes when all of it does.
  ignoreErrors(() => rmSync(options.folder, { recursive: true, force: true }));
}

function byPlace(findings: readonly Finding[]): ReadonlyMap<string, readonly Finding[]> {
  const found = new Map<string, Finding[]>();
  for (const finding of findings) {
    const place = placeOfFile(finding.file);
    found.set(place, [...(found.get(place) ?? []), finding]);
  }
  return found;
}

/** What is likely a mistake, and what its author was not sure of; further notes are for `check`. */
function isToldOnPage({ severity, rule }: Finding): boolean {
  return severity === "warning" || rule === "doubt";
}

function movedIn({ reads }: Survey): ReadonlyMap<string, string> {
  return new Map(
    Object.entries(reads).flatMap(([slug, { read }]) =>
      (read.formerly ?? []).map(({ text }) => [`routines/${text}`, `routines/${slug}`] as const),
    ),
  );
}

/** The unit that a path of the pack belongs to: "routines/low-tide" of "routines/low-tide/index.html". */
function placeOf(path: string): string {
  return /^(?:routines|workshops)\/[^/]+(?=\/)/.exec(path)?.[0] ?? "";
}

/** The unit that a file of the content folder is about. */
function placeOfFile(file: string): string {
  const [, kind, slug] = /(?:^|\/)(routines|workshops)\/([^/]+)\.md$/.exec(file) ?? [];
  return slug === undefined ? "" : `${kind}/${slug}`;
}

import type { RoutineFacts } from "../publishing/site/routine-facts.js";
import type { ContentFiles } from "../reading/files.js";
import {
  type Content,
  type MinutesNeeded,
  type Readable,
  type ReadRoutines,
  readContentBy,
} from "../reading/read-content.js";
import type { RoutineRead } from "../reading/read-routine.js";
import type { WorkshopOf } from "../reading/read-workshop.js";
import type { Library } from "../routine/routine.js";
import type { Cache, CachedRead } from "./cache.js";
import { digestOf } from "./digest.js";
import { mayBeTooShort } from "./may-be-too-short.js";
import type { Progress } from "./options.js";
import { portions } from "./portions.js";
import type { RoutineText } from "./recent.js";

/** A content folder as a build sees it: everything about it but the routines themselves, of which there may be thousands. */
export interface Survey {
  readonly content: Content<RoutineFacts>;
  /** The text of each routine that was read, by its slug. */
  readonly texts: ReadonlyMap<string, string>;
  readonly reads: Cache["reads"];
}

/** Routines that are read in one go: few, so that no thread waits for another. */
const portion = 20;

/** What takes a while of a survey, done here or in a thread. */
export interface SurveyJobs {
  /** Reads some routines. */
  readonly read: (library: Library, files: readonly RoutineText[]) => Promise<readonly RoutineRead<RoutineFacts>[]>;
  /** The minutes that each of some classes would need which has no time to teach anything. */
  readonly tooShort: (
    library: Library,
    workshops: readonly WorkshopOf<RoutineText>[],
  ) => Promise<readonly (number | undefined)[]>;
}

export interface SurveyOptions {
  /** What was read by the last build. */
  readonly cached?: Cache["reads"] | undefined;
  readonly progress?: Progress | undefined;
}

/** Reads a content folder's files; routines that the last build has read are not read again, the others side by side. */
export async function survey(from: ContentFiles, jobs: SurveyJobs, options: SurveyOptions = {}): Promise<Survey> {
  const { cached = {}, progress = () => {} } = options;
  const texts = new Map<string, string>();
  const reads: { [slug: string]: CachedRead } = {};
  const readRoutines: ReadRoutines<RoutineFacts> = async (files, library) => {
    const shared = digestOf(library);
    const keyed = files.map((file) => ({ slug: file.slug, text: file.text, key: shared + textDigest(file) }));
    const fresh = keyed.filter(({ slug, key }) => cached[slug]?.key !== key);
    let done = 0;
    const some = portions(fresh, portion).map(async (few) => {
      const results = await jobs.read(library, few);
      done += few.length;
      progress(done, fresh.length, "read");
      return few.map(({ slug }, index) => [slug, results[index]] as const);
    });
    const now = new Map((await Promise.all(some)).flat());
    return keyed.map(({ slug, text, key }) => {
      const read = now.get(slug) ?? cached[slug]?.read ?? { findings: [] };
      texts.set(slug, text);
      reads[slug] = { key, read };
      return read;
    });
  };
  const minutesNeeded: MinutesNeeded<RoutineFacts> = async (workshops, library) => {
    const short = workshops.filter(mayBeTooShort);
    if (short.length === 0) return new Map();
    const textOf = ({ slug }: RoutineFacts) => ({ slug, text: texts.get(slug) ?? "" });
    const asked = short.map((workshop) => ({ ...workshop, routines: workshop.routines.map(textOf) }));
    const needed = await jobs.tooShort(library, asked);
    return new Map(asked.flatMap(({ slug }, index) => (needed[index] === undefined ? [] : [[slug, needed[index]]])));
  };
  const content = await readContentBy(from, readRoutines, minutesNeeded);
  return { content, texts, reads };
}

/** A file that a reader remembers is the same object again, and one of a thousand that has changed costs one digest. */
const textDigests = new WeakMap<Readable, string>();

function textDigest(file: Readable): string {
  const digest = textDigests.get(file) ?? digestOf(file.text);
  textDigests.set(file, digest);
  return digest;
}

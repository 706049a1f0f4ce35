import type { RoutineFacts } from "../publishing/site/routine-facts.js";
import type { ReadFile } from "../reading/files.js";
import { type Content, readContentBy } from "../reading/read-content.js";
import { teachingSettings } from "../teaching/settings.js";
import { digestOf } from "./digest.js";
import type { Kept, KeptRead } from "./kept.js";
import type { Threads } from "./threads.js";

/** A content folder as a build sees it: everything about it but the routines themselves, of which there may be thousands. */
export interface Survey {
  readonly content: Content<RoutineFacts>;
  /** The text of each routine that was read, by its slug. */
  readonly texts: ReadonlyMap<string, string>;
  readonly reads: Kept["reads"];
}

/** Routines that are read in one go: few, so that no thread waits for another. */
const portion = 20;

/** Reads a content folder; routines that are known from last time are not read again, the others side by side. */
export async function survey(
  contentDir: string,
  known: Kept["reads"],
  threads: Threads,
  readFile?: ReadFile,
): Promise<Survey> {
  const texts = new Map<string, string>();
  const reads: { [slug: string]: KeptRead } = {};
  const content = await readContentBy<RoutineFacts>(
    contentDir,
    async (files, library) => {
      const keyed = files.map(({ slug, text }) => ({ slug, text, key: digestOf(library, text) }));
      const fresh = keyed.filter(({ slug, key }) => known[slug]?.key !== key);
      const done = await Promise.all(
        portions(fresh, portion).map(async (some) => {
          const gained = await threads.do("read", library, some);
          return some.map(({ slug }, index) => [slug, gained[index]] as const);
        }),
      );
      const now = new Map(done.flat());
      return keyed.map(({ slug, text, key }) => {
        const read = now.get(slug) ?? known[slug]?.read ?? { findings: [] };
        texts.set(slug, text);
        reads[slug] = { key, read };
        return read;
      });
    },
    { checkTeaching: (teaching) => teachingSettings(teaching).problems, ...(readFile ? { readFile } : {}) },
  );
  return { content, texts, reads };
}

/** A list in pieces of a size. */
export function portions<Value>(list: readonly Value[], size: number): readonly (readonly Value[])[] {
  return Array.from({ length: Math.ceil(list.length / size) }, (_, index) =>
    list.slice(index * size, (index + 1) * size),
  );
}

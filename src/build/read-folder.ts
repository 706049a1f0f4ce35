import type { RoutineFacts } from "../publishing/site/routine-facts.js";
import { readFiles } from "../reading/files.js";
import { type Content, readContentBy } from "../reading/read-content.js";
import { readRoutineSource } from "../reading/read-routine.js";
import { surveyIn } from "./survey-in.js";
import { openThreads } from "./threads.js";

/** Reads a content folder and all that is to be said about it. */
export async function readFolder(contentDir: string): Promise<Content<RoutineFacts>> {
  const threads = openThreads();
  try {
    return (await surveyIn(threads, await readFiles(contentDir))).content;
  } finally {
    await threads.close();
  }
}

/** Reads one routine and the library that it belongs to, and of the others no more than their names. */
export async function readOne(contentDir: string, slug: string) {
  const slugs: string[] = [];
  const content = await readContentBy(await readFiles(contentDir), async (files, library) => {
    slugs.push(...files.map((file) => file.slug));
    return files.map((file) => (file.slug === slug ? readRoutineSource(file.text, slug, library) : { findings: [] }));
  });
  return { content, slugs };
}

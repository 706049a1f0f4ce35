import type { ContentFiles } from "../reading/files.js";
import type { Survey, SurveyOptions } from "./survey.js";
import type { Threads } from "./threads.js";

/** Routines that one thread reads by itself. */
const few = 20;

/**
 * Surveys a content folder in threads. Where one of them can read all of it, it does so by itself, and what reads need not be
 * loaded here as well.
 */
export async function surveyIn(threads: Threads, files: ContentFiles, options: SurveyOptions = {}): Promise<Survey> {
  if (files.routines.length > few) {
    const { survey } = await import("./survey.js");
    return survey(files, (library, some) => threads.do("read", library, some), options);
  }
  const { cached = {}, progress = () => {} } = options;
  const { content, findings, ...rest } = await threads.do("survey", cached, files);
  const fresh = Object.entries(rest.reads).filter(([slug, { key }]) => cached[slug]?.key !== key).length;
  if (fresh > 0) progress(fresh, fresh, "read");
  return { ...rest, content: { ...content, findingsOf: (slug) => findings.get(slug) ?? [] } };
}

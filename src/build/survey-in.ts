import type { ContentFiles } from "../reading/files.js";
import type { Survey, SurveyJobs, SurveyOptions } from "./survey.js";
import type { Threads } from "./threads.js";

/** Routines that one thread reads by itself. */
const few = 20;

/** What a survey asks of threads. */
export function surveyedBy(threads: Threads): SurveyJobs {
  return {
    read: (library, files) => threads.do("read", library, files),
    tooShort: (library, workshops) => threads.do("tooShort", library, workshops),
  };
}

/**
 * Surveys a content folder in threads. Where one of them can read all of it, it does so by itself, and what reads need not be
 * loaded here as well.
 */
export async function surveyIn(threads: Threads, files: ContentFiles, options: SurveyOptions = {}): Promise<Survey> {
  if (files.routines.length > few) {
    const { survey } = await import("./survey.js");
    return survey(files, surveyedBy(threads), options);
  }
  const { cached = {}, progress = () => {} } = options;
  const { content, findings, ...rest } = await threads.do("survey", cached, files);
  const fresh = Object.entries(rest.reads).filter(([slug, { key }]) => cached[slug]?.key !== key).length;
  if (fresh > 0) progress(fresh, fresh, "read");
  return { ...rest, content: { ...content, findingsOf: (slug) => findings.get(slug) ?? [] } };
}

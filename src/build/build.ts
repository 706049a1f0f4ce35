import { routinePublishers, workshopPublishers } from "../publishing/list.js";
import { routineRecord } from "../publishing/record/record.js";
import { publishSite } from "../publishing/site/publish-site.js";
import { wholeSite } from "../publishing/site/site-config.js";
import { type Content, readContent } from "../reading/read-content.js";
import { faultWords } from "./fault.js";
import { openStaging, type Staging, writeInto } from "./staging.js";

export interface BuildOptions {
  readonly content: string;
  readonly out: string;
  /** Told what is being made, before each piece of work. */
  readonly progress?: (done: number, all: number, what: string) => void;
}

export type BuildResult =
  | { readonly done: true; readonly content: Content; readonly files: number; readonly handouts: number }
  | { readonly done: false; readonly content: Content };

/**
 * Makes the whole pack from a content folder. It is made beside the published folder and takes its place only when it is
 * whole: with any error in the content nothing is published and what was there stays.
 */
export async function build(options: BuildOptions): Promise<BuildResult> {
  try {
    const staging = openStaging(options.content, options.out);
    try {
      return await buildInto(staging, options);
    } finally {
      staging.close();
    }
  } catch (error) {
    throw new Error(faultWords(error, options.out), { cause: error });
  }
}

async function buildInto(staging: Staging, options: BuildOptions): Promise<BuildResult> {
  const content = await readContent(options.content);
  if (content.findings.some(({ severity }) => severity === "error")) return { done: false, content };
  const made = await makeAll(content, staging, options.progress ?? (() => {}));
  staging.publish();
  return { done: true, content, ...made };
}

async function makeAll(content: Content, staging: Staging, progress: NonNullable<BuildOptions["progress"]>) {
  const { library, routines, workshops } = content;
  const all = routines.length + workshops.length + 1;
  let [done, files, handouts] = [0, 0, 0];
  const write = (file: { readonly path: string; readonly content: string | Uint8Array }) => {
    writeInto(staging.folder, file);
    files++;
    if (file.path.endsWith(".pdf")) handouts++;
  };
  for (const routine of routines) {
    progress(done++, all, routine.title);
    write(routineRecord(routine, library, content.findingsOf(routine.slug)));
    for (const publisher of routinePublishers)
      for (const file of await publisher.publish(routine, library)) write(file);
  }
  for (const workshop of workshops) {
    progress(done++, all, workshop.title);
    for (const publisher of workshopPublishers)
      for (const file of await publisher.publish(workshop, library)) write(file);
  }
  progress(done++, all, "the pages");
  await publishSite(wholeSite(content, staging.folder), staging.folder);
  return { files, handouts };
}

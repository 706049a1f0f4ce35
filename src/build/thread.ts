import { parentPort, workerData } from "node:worker_threads";
import { errorData } from "./error-text.js";
import { jobs } from "./jobs.js";
import type { Answer, Question, ThreadData } from "./threads.js";

/* One of the threads of a pool: does the jobs that it is given, one after the other. */

/** What takes long to load and will be needed, so that it is there by then. Where it can't be loaded, its job will say so. */
const loads = {
  drawing: () => Promise.all([import("../publishing/list.js"), import("../publishing/handout/handout.js")]),
  pages: () => Promise.all([import("../publishing/list.js"), import("../publishing/site/publish-site.js")]),
};
const { load } = (workerData ?? {}) as ThreadData;
if (load !== undefined) loads[load]().catch(() => {});

const say = (answer: Answer) => parentPort?.postMessage(answer);

parentPort?.on("message", async ({ job, options, input }: Question) => {
  try {
    // That they fit the job is seen to by the types of `Threads`.
    const run = jobs[job] as (options: unknown, input: unknown, tell: (made: string) => void) => Promise<unknown>;
    say({ result: await run(options, input, (made) => say({ made })) });
  } catch (error) {
    say({ error: errorData(error) });
  }
});

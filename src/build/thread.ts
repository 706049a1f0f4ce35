import { parentPort } from "node:worker_threads";
import { errorData } from "./error-text.js";
import { jobs } from "./jobs.js";
import type { Answer, Question } from "./threads.js";

/* One of the threads of a pool: does the jobs that it is given, one after the other. */

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

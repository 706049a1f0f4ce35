import { parentPort } from "node:worker_threads";
import { faultOf } from "./fault.js";
import type { Answer, Question } from "./threads.js";
import { crafts } from "./work.js";

/* One of the threads of a team: does what it is asked, one thing after the other. */

const say = (answer: Answer) => parentPort?.postMessage(answer);

parentPort?.on("message", async ({ craft, using, given }: Question) => {
  try {
    // That it fits the craft is seen to by the types of `Threads`.
    const work = crafts[craft] as (using: unknown, given: unknown, tell: (made: string) => void) => Promise<unknown>;
    say({ result: await work(using, given, (made) => say({ made })) });
  } catch (error) {
    say({ fault: faultOf(error) });
  }
});

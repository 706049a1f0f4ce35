import { availableParallelism, totalmem } from "node:os";
import { setFlagsFromString } from "node:v8";
import { Worker } from "node:worker_threads";
import type { ErrorData } from "./error-text.js";
import type { JobInput, JobName, JobOptions, JobResult } from "./jobs.js";

/** Threads that work side by side; each is started when there is more work than those before it should take. */
export interface Threads {
  /** Most that work at once. */
  readonly most: number;
  readonly do: <J extends JobName>(
    job: J,
    options: JobOptions<J>,
    input: JobInput<J>,
    tell?: (what: string) => void,
  ) => Promise<JobResult<J>>;
  /** Ends them all at once; what they have not done yet fails, and what they are asked from then on. */
  readonly close: () => Promise<void>;
}

/** What a thread is asked, and what it says: any number of times what was made, then the result or an error. */
export interface Question {
  readonly job: JobName;
  readonly options: unknown;
  readonly input: unknown;
}
export type Answer = { readonly made: string } | { readonly result: unknown } | { readonly error: ErrorData };

interface Task extends Question {
  /** How many routines, workshops or the like it is about. */
  readonly size: number;
  readonly tell: (what: string) => void;
  readonly done: (result: never) => void;
  readonly failed: (error: Error) => void;
}

/** What a thread runs, seen from the source as from the bundled program, whose files lie as deep as this one. */
const program = new URL("../../dist/build/thread.js", import.meta.url);

/**
 * Megabytes. Without an old generation that is bounded each thread lets three times the garbage lie that it could clear; with
 * a young one that is too small much is carried over that is about to go.
 */
const resourceLimits = { maxOldGenerationSizeMb: 1024, maxYoungGenerationSizeMb: 96 };

/*
 * V8 looks whether a function should be optimized each time so much of its bytecode has run: here fifteen times as much as by
 * default. Most that a build runs is over before what was optimized pays for it, and no core is idle that could optimize: one
 * routine takes 0.75 of the processor time, nine 0.7, a hundred 0.85. Node 20 alone has been measured, and a V8 that does not
 * know the setting would say so on the terminal.
 */
if (process.versions.v8.startsWith("11.")) setFlagsFromString("--interrupt-budget=1000000");

/**
 * A second thread takes as much of a processor to load and to warm up as three routines take that are made in the first, so it
 * is started where there is clearly more to do.
 */
const worthAThread = 5;

/** What a thread takes at its peak, with room to spare. */
const bytesAThread = 768 * 2 ** 20;

/** As many threads as there are processor cores, as far as there is memory for them. */
export function mostThreads(): number {
  const memory = Math.min(totalmem(), process.constrainedMemory() || Number.POSITIVE_INFINITY);
  return Math.max(1, Math.min(availableParallelism(), Math.floor(memory / bytesAThread)));
}

/** Opens a pool of threads. */
export function openThreads(most = mostThreads()): Threads {
  const waiting: Task[] = [];
  /** What each thread is at; nothing, where it waits for work. */
  const tasks = new Map<Worker, Task | undefined>();
  let closed = false;

  const next = (thread: Worker) => {
    const task = waiting.shift();
    tasks.set(thread, task);
    if (task) thread.postMessage({ job: task.job, options: task.options, input: task.input } satisfies Question);
  };
  /** A thread that is no more fails what it was at; what waits for one goes to another. */
  const end = (thread: Worker, error: Error) => {
    const task = tasks.get(thread);
    if (!tasks.delete(thread)) return;
    task?.failed(error);
    if (waiting.length > 0) next(start());
  };
  const start = () => {
    const thread = new Worker(program, { resourceLimits });
    tasks.set(thread, undefined);
    thread.on("message", (answer: Answer) => {
      const task = tasks.get(thread);
      if ("made" in answer) return task?.tell(answer.made);
      if ("error" in answer) task?.failed(Object.assign(new Error(answer.error.message), answer.error));
      else task?.done(answer.result as never);
      next(thread);
    });
    thread.on("error", (error) => end(thread, error));
    thread.on("exit", () => end(thread, calledOff()));
    return thread;
  };

  return {
    most,
    do: (job, options, input, tell = () => {}) =>
      new Promise((done, failed) => {
        if (closed) return failed(calledOff());
        waiting.push({ job, options, input, size: Array.isArray(input) ? input.length : 1, tell, done, failed });
        const [idle] = [...tasks].find(([, task]) => task === undefined) ?? [];
        const undone = [...tasks.values(), ...waiting].reduce((sum, task) => sum + (task?.size ?? 0), 0);
        const another = tasks.size < Math.min(most, undone / worthAThread);
        const thread = idle ?? (another ? start() : undefined);
        if (thread !== undefined) next(thread);
      }),
    close: async () => {
      closed = true;
      for (const { failed } of waiting.splice(0)) failed(calledOff());
      await Promise.all([...tasks.keys()].map((thread) => thread.terminate()));
    },
  };
}

const calledOff = () => new Error("The build was called off.");

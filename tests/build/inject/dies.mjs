// Loaded before a command: a thread ends as soon as it is asked for something.
import { isMainThread, parentPort } from "node:worker_threads";

if (!isMainThread) parentPort.once("message", () => process.exit(1));

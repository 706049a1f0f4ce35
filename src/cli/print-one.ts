import type { Made } from "../build/one-routine.js";
import { printObstacle } from "./findings.js";
import { done, failed } from "./status.js";

/** Prints the text that was made of a routine, or why there is none; the exit status. */
export function printMade(slug: string, made: Made): number {
  if (!made.done) {
    printObstacle(slug, made);
    return failed;
  }
  process.stdout.write(made.text);
  return done;
}

import type { Made } from "../build/one-routine.js";
import { printObstacle } from "./findings.js";
import { done, failed } from "./status.js";

/** Prints the text that was made of a routine, or why there is none; the exit status. */
export function printMade(slug: string, made: Made): number {
  if (!made.done) {
    printObstacle(slug, made);
    return failed;
  }
  sayDraft(slug, made.routine);
  process.stdout.write(made.text);
  return done;
}

/** Whoever takes something of a draft from here hears what a build would tell by leaving it out. */
export function sayDraft(slug: string, { draft }: Extract<Made, { readonly done: true }>["routine"]): void {
  if (draft)
    process.stderr.write(
      `countleaf: \`${slug}\` is a draft and not published; take \`draft: yes\` out of its file when it is ready.\n`,
    );
}

import { type BuildResult, build } from "../build/build.js";
import type { Unready } from "../build/drafts.js";
import { readArguments } from "./arguments.js";
import { counted } from "./counted.js";
import { showProgress } from "./progress.js";
import { calledOff, done, failed } from "./status.js";

const usage = `countleaf build [--content DIR] [--out DIR] [--allow-empty]

  --allow-empty   publish though every routine, or all of several workshops, would go from what is published
`;

const allowEmptyOption = "--allow-empty";

export async function buildCommand(args: readonly string[]): Promise<number> {
  const allowEmpty = args.includes(allowEmptyOption);
  const others = args.filter((arg) => arg !== allowEmptyOption);
  const given = readArguments(others, usage, ["content", "out"]);
  if (typeof given === "number") return given;
  const { content = "content", out = "_site" } = given.options;
  const calledOffBy = new AbortController();
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.once(signal, () => calledOffBy.abort());
  const began = performance.now();
  const progress = showProgress();
  const { signal } = calledOffBy;
  try {
    const result = await build({ content, out, allowEmpty, progress: progress.tell, signal }).finally(progress.clear);
    process.stderr.write(result.report);
    process.stdout.write(result.done ? doneText(result, out, performance.now() - began) : "");
    process.stderr.write(result.done ? "" : "Nothing was published.\n");
    return result.done ? done : failed;
  } catch (error) {
    if (signal.aborted) return calledOff;
    throw error;
  }
}

function doneText(
  { routines, workshops, counts, fresh, unready }: Extract<BuildResult, { done: true }>,
  out: string,
  time: number,
): string {
  const all = routines + workshops;
  return [
    `Done in ${(time / 1000).toFixed(1)} s: ${counted(routines, "routine")}, ${counted(workshops, "workshop")}, `,
    `${counted(counts.page ?? 0, "page")}, ${counted(counts.handout ?? 0, "handout")} to print. `,
    fresh === all ? "\n" : `${fresh === 0 ? "None" : fresh} of them had changed; the rest is as it was.\n`,
    `Open ${out}/index.html to look at it; put the whole folder ${out} on any web host to publish it.\n`,
    `\`countleaf check\` lists the notes as well.${unreadyText(unready)}\n`,
  ].join("");
}

/** What is not ready, where anything is: what was published all the same, and what was left out. */
function unreadyText({ doubts, drafts, workshops }: Unready): string {
  const were = (number: number) => (number === 1 ? "was" : "were");
  const with_ = workshops.length === 0 ? "" : ` and ${counted(workshops.length, "workshop")} with a draft`;
  const left = drafts.length + workshops.length;
  return [
    doubts === 0 ? "" : ` ${counted(doubts, "doubtful place")} ${were(doubts)} published.`,
    drafts.length === 0 ? "" : ` ${counted(drafts.length, "draft")}${with_} ${were(left)} left out.`,
  ].join("");
}

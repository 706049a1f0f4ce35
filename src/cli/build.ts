import { type BuildResult, build } from "../build/build.js";
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
  { routines, workshops, counts, fresh }: Extract<BuildResult, { done: true }>,
  out: string,
  time: number,
): string {
  const all = routines + workshops;
  return [
    `Done in ${(time / 1000).toFixed(1)} s: ${counted(routines, "routine")}, ${counted(workshops, "workshop")}, `,
    `${counted(counts.page ?? 0, "page")}, ${counted(counts.handout ?? 0, "handout")} to print. `,
    fresh === all ? "\n" : `${fresh === 0 ? "None" : fresh} of them had changed; the rest is as it was.\n`,
    `Open ${out}/index.html to look at it; put the whole folder ${out} on any web host to publish it.\n`,
    "`countleaf check` lists the notes as well.\n",
  ].join("");
}

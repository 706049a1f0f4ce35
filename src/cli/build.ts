import { build } from "../build/build.js";
import { printFindings } from "./findings.js";
import { showProgress } from "./progress.js";
import { calledOff, done, failed } from "./status.js";
import { readWords } from "./words.js";

const usage = "countleaf build [--content DIR] [--out DIR]\n";

export async function buildCommand(args: readonly string[]): Promise<number> {
  const words = readWords(args, usage, ["content", "out"]);
  if (typeof words === "number") return words;
  const { content = "content", out = "_site" } = words.options;
  // Called off, the process still ends by itself, so that what was begun is cleared up.
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.once(signal, () => process.exit(calledOff));
  const began = performance.now();
  const progress = showProgress();
  const result = await build({ content, out, progress: progress.tell }).finally(progress.clear);
  const { findings, sources } = result.content;
  printFindings(
    findings.filter(({ severity }) => severity !== "note"),
    sources,
  );
  if (!result.done) {
    process.stderr.write("Nothing was published.\n");
    return failed;
  }
  const { routines, workshops } = result.content;
  const seconds = ((performance.now() - began) / 1000).toFixed(1);
  process.stdout.write(
    [
      `Done in ${seconds} s: ${counted(routines.length, "routine")}, ${counted(workshops.length, "workshop")}, `,
      `${counted(routines.length + workshops.length + 1, "page")}, ${counted(result.handouts, "handout")} to print.\n`,
      `Open ${out}/index.html to look at it; put the whole folder ${out} on any web host to publish it.\n`,
      "`countleaf check` lists the notes as well.\n",
    ].join(""),
  );
  return done;
}

function counted(number: number, thing: string): string {
  return `${number} ${thing}${number === 1 ? "" : "s"}`;
}

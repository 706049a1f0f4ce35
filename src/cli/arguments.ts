import { parseArgs } from "node:util";
import { done, usageError } from "./status.js";

export interface Arguments<Option extends string> {
  readonly options: Readonly<Partial<Record<Option, string>>>;
  readonly rest: readonly string[];
}

/**
 * Reads a command's arguments: options with a value, and `most` others. Where they are wrong, or help was asked for, the answer
 * has been printed and the exit status comes back.
 */
export function readArguments<Option extends string>(
  args: readonly string[],
  usage: string,
  options: readonly Option[],
  counts: { readonly least: number; readonly most: number } = { least: 0, most: 0 },
): Arguments<Option> | number {
  if (args.includes("--help") || args.includes("-h")) {
    process.stdout.write(usage);
    return done;
  }
  // A path that is empty is the folder that one is in, which nobody who writes "" means.
  if (args.some((arg) => /^(--[a-z]+=)?\s*$/.test(arg)))
    return refused("an argument is empty; write a name between the quotes, or leave it out", usage);
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: Object.fromEntries(options.map((name) => [name, { type: "string" as const }])),
      allowPositionals: true,
    });
    if (positionals.length >= counts.least && positionals.length <= counts.most)
      return { options: values as Partial<Record<Option, string>>, rest: positionals };
    if (positionals.length < counts.least) return refused(missing, usage);
  } catch (error) {
    // parseArgs names what it did not know; the usage says what there is, which helps more.
    if ((error as NodeJS.ErrnoException).code === "ERR_PARSE_ARGS_INVALID_OPTION_VALUE") return refused(missing, usage);
  }
  return refused(
    `these arguments are not understood: ${args.join(" ")}. Words that belong together stand in double quotes`,
    usage,
  );
}

const missing = "an argument is missing; these are the ones there are";

function refused(why: string, usage: string): number {
  process.stderr.write(`countleaf: ${why}:\n${usage}`);
  return usageError;
}

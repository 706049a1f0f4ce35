import { parseArgs } from "node:util";
import { done, wrongWords } from "./status.js";

export interface Words<Option extends string> {
  readonly options: Readonly<Partial<Record<Option, string>>>;
  readonly rest: readonly string[];
}

/**
 * A command's words: options with a value, and `most` further words. Where they are off, or help was asked for, the answer
 * has been printed and the exit status comes back.
 */
export function readWords<Option extends string>(
  args: readonly string[],
  usage: string,
  options: readonly Option[],
  counts: { readonly least: number; readonly most: number } = { least: 0, most: 0 },
): Words<Option> | number {
  if (args.includes("--help") || args.includes("-h")) {
    process.stdout.write(usage);
    return done;
  }
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: Object.fromEntries(options.map((name) => [name, { type: "string" as const }])),
      allowPositionals: true,
    });
    if (positionals.length >= counts.least && positionals.length <= counts.most)
      return { options: values as Partial<Record<Option, string>>, rest: positionals };
  } catch {
    // parseArgs names what it did not know; the usage says what there is, which helps more.
  }
  process.stderr.write(`countleaf: these words are off: ${args.join(" ") || "(none)"}\n${usage}`);
  return wrongWords;
}

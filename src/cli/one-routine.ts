import { type Content, readContent } from "../reading/read-content.js";
import type { Routine } from "../routine/routine.js";
import { printFindings } from "./findings.js";
import { failed } from "./status.js";

/** Reads the library for a command about one routine; where that can't be had, says why and answers with the exit status. */
export async function readOne(
  contentDir: string,
  slug: string,
): Promise<(Content & { readonly routine: Routine }) | number> {
  const content = await readContent(contentDir);
  const routine = content.routines.find((one) => one.slug === slug);
  if (routine !== undefined) return { ...content, routine };
  const errors = content.findingsOf(slug).filter(({ severity }) => severity === "error");
  printFindings(errors);
  if (errors.length === 0) {
    const names = content.routines.map((one) => one.slug).join(", ");
    process.stderr.write(`countleaf: there is no routine ${slug} in ${contentDir}; there are: ${names || "none"}\n`);
  }
  return failed;
}

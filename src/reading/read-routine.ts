import { dance } from "../routine/dance.js";
import type { Library, Routine } from "../routine/routine.js";
import { readBody, unsafeLink } from "./body.js";
import { type Finding, inOrder, type TextFinding } from "./finding.js";
import { placeOf } from "./place.js";
import { readKeys } from "./read-text.js";
import { routineSchema } from "./schema/routine.js";
import { split } from "./split.js";
import { versionFindings } from "./versions.js";
import { writeRoutine } from "./write-routine.js";

export interface RoutineRead {
  /** Absent where there is an error. */
  readonly routine?: Routine;
  readonly findings: readonly Finding[];
}

/**
 * Reads one routine from its file's text.
 *
 * @param file the path that findings name
 */
export function readRoutineText(
  text: string,
  slug: string,
  library: Library,
  file = `content/routines/${slug}.md`,
): RoutineRead {
  const { routine, findings } = read(text.replace(/^\ufeff/, "").replace(/\r\n?/g, "\n"), slug, library);
  return { ...(routine ? { routine } : {}), findings: inOrder(findings.map((finding) => ({ file, ...finding }))) };
}

function read(text: string, slug: string, library: Library): { routine?: Routine; findings: readonly TextFinding[] } {
  const { halves, findings: splitting } = split(text);
  if (!halves) return { findings: splitting };
  const { front, keys, findings } = readKeys(halves.yaml, routineSchema);
  const names = keys?.sections.map(({ name }) => name) ?? [];
  const body = readBody(halves.body, names, halves.bodyLine);
  const all = [...findings, ...body.findings];
  if (!keys) return { findings: all };
  const written = writeRoutine(slug, keys, body.prose, (href, path) => {
    all.push({ severity: "warning", rule: "link", message: unsafeLink(href), ...front.locate(placeOf(path), "value") });
  });
  all.push(...versionFindings(written, front.locate));
  if (all.some(({ severity }) => severity === "error")) return { findings: all };
  const { routine, problems } = dance(written, library);
  for (const { severity, rule, message, place } of problems)
    all.push({ severity, rule, message, ...front.locate(place) });
  return { ...(routine ? { routine } : {}), findings: all };
}

import { dance } from "../routine/dance.js";
import { definedOnly } from "../routine/defined-only.js";
import { unprintable } from "../routine/printable.js";
import type { Library, Routine } from "../routine/routine.js";
import type { WrittenRoutine } from "../routine/written.js";
import { readBody } from "./body.js";
import { type Finding, inOrder, type Position, type TextFinding } from "./finding.js";
import type { FormerSlug } from "./former-slugs.js";
import { placeOf } from "./place.js";
import { unsafeLink } from "./prose.js";
import { readKeys } from "./read-keys.js";
import { limited } from "./report.js";
import { routineSchema } from "./schema/routine.js";
import { sectionFindings } from "./sections.js";
import { type Halves, split } from "./split.js";
import { tempoFindings } from "./tempo.js";
import { versionFindings } from "./versions.js";
import { videoFindings } from "./videos.js";
import { writeRoutine } from "./write-routine.js";
import type { Front } from "./yaml.js";

/** A title and where it stands. */
export interface Title extends Position {
  readonly text: string;
}

export interface RoutineRead<R = Routine, F = TextFinding> {
  /** Absent where there is an error. */
  readonly routine?: R;
  /** Absent where it could not be read. */
  readonly title?: Title;
  /** Names that it had before. */
  readonly formerly?: readonly FormerSlug[];
  readonly findings: readonly F[];
}

/**
 * Reads one routine from the text of its file and dances it: counts, clock, stance, versions, risks, and what a careful
 * colleague would remark on. Nothing is read from the disk.
 *
 * @param text the whole file, front matter included
 * @param slug the file's name without its ending
 * @param file the path that findings name
 * @returns the routine, absent where there is an error, and the findings, each with a line and a column (from 1); it does not throw
 * @example
 * const text = "---\ntitle: Sill\nchoreographer: Ines Varga\nmusic: { tempo: 60 }\nsections:\n  - { name: Hall, counts: [{ 1-3: Walk, 4: { do: Stamp left, hit: true }, 5-8: Turn }] }\n---\n"
 * const { routine, findings } = readRoutine(text, "sill", library)
 * routine.counts // 8
 * routine.seconds.valueOf() // 8
 * findings.map(({ severity, line, rule }) => [severity, line, rule]) // [["warning", 6, "missing-key"]]
 */
export function readRoutine(
  text: string,
  slug: string,
  library: Library,
  file = `content/routines/${slug}.md`,
): RoutineRead<Routine, Finding> {
  const read = readRoutineSource(text.replace(/^\ufeff/, "").replace(/\r\n?/g, "\n"), slug, library);
  return { ...read, findings: limited(inOrder(read.findings)).map((finding) => ({ file, ...finding })) };
}

/** Reads one routine from its file's text, its line ends "\n". */
export function readRoutineSource(text: string, slug: string, library: Library): RoutineRead {
  const { halves, findings: splitting } = split(text);
  if (!halves) return { findings: splitting };
  const { front, keys, remaining, faulty, findings } = readKeys(halves.yaml, routineSchema);
  const title = titleOf(front);
  const usable = keys ?? remaining;
  const formerly = usable?.formerly.map((text, index) => ({ text, ...front.locate(`/formerly/${index}`, "value") }));
  const body = readBody(halves.body, usable?.sections.map(({ name }) => name) ?? [], halves.bodyLine);
  const all = [...findings, ...body.findings];
  const read = (routine?: Routine) => ({
    ...definedOnly<RoutineRead>({ routine, title, formerly: formerly?.length === 0 ? undefined : formerly }),
    findings: all,
  });
  if (!usable) return read();
  const written = writeRoutine(slug, usable, body.prose, (href, path) => {
    all.push({ severity: "warning", rule: "link", message: unsafeLink(href), ...front.locate(placeOf(path), "value") });
  });
  if (!["levels", "taught", "adaptations"].some((key) => faulty.has(key)))
    all.push(...versionFindings(written, front.locate));
  all.push(
    ...sectionFindings(written, front.locate),
    ...tempoFindings(usable, front.locate),
    ...videoFindings(usable, front.locate),
  );
  const whole = !all.some(({ severity }) => severity === "error");
  const { routine, problems } = dance(whole ? written : shortened(written), library);
  for (const { severity, rule, message, place } of problems) {
    // What was left out for a fault of its own may be the cause of anything but of a wrong count.
    if (whole || saysOfCounts(rule))
      all.push({
        severity,
        rule,
        message: sentence(message),
        ...(place === inProse ? firstSign(halves) : front.locate(place)),
      });
  }
  return read(whole ? routine : undefined);
}

/** The place of the prose, of which the model says no more than that a sheet cannot print a sign of it. */
const inProse = placeOf(["prose"]);

/** Where the first sign of the prose stands that a sheet cannot print. */
function firstSign({ body, bodyLine }: Halves): Position {
  // A sign that is stored in another way than it is named is not found by its name: then it is the prose as a whole.
  const offsets = unprintable(body).map((sign) => body.indexOf(sign));
  const before = body.slice(0, Math.min(...offsets.filter((at) => at >= 0))).split("\n");
  if (!offsets.some((at) => at >= 0)) return { line: bodyLine, column: 1 };
  return { line: bodyLine + before.length - 1, column: (before.at(-1) ?? "").length + 1 };
}

/* The model speaks in clauses, to which its callers may add who is meant. */
function sentence(clause: string): string {
  const text = clause.replace(/^[a-z]/, (first) => first.toUpperCase());
  return /[.!?…]$/.test(text) ? text : `${text}.`;
}

/* Where a file has errors its routine is danced for wrong counts alone, and they show in the first times through. */
function shortened(written: WrittenRoutine): WrittenRoutine {
  const sections = written.sections.map((section) => ({ ...section, repeat: Math.min(section.repeat, 2) }));
  return { ...written, times: Math.min(written.times, 64), sections };
}

const aboutCounts = new Set(["count", "outside", "overlap", "same-as"]);

/** Whether a rule speaks of counts as they are danced: what it finds beside other errors may follow from those. */
export function saysOfCounts(rule: string): boolean {
  return aboutCounts.has(rule);
}

function titleOf(front: Front): Title | undefined {
  const { value } = front;
  if (typeof value !== "object" || value === null || !("title" in value) || typeof value.title !== "string")
    return undefined;
  return { text: value.title.replace(/\s+/g, " ").trim(), ...front.locate("/title", "value") };
}

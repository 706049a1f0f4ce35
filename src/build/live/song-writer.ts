import { randomBytes, timingSafeEqual } from "node:crypto";
import type { IncomingMessage } from "node:http";
import * as z from "zod";
import type { Finding } from "../../reading/finding.js";
import { readRoutine } from "../../reading/read-routine.js";
import { type ChangedLine, withSong } from "../../reading/song-lines.js";
import type { Library } from "../../routine/routine.js";
import { errorText } from "../error-text.js";
import type { SongAnswer } from "./desk-data.js";
import type { Refusal, Refused, RoutineFile, RoutineFiles } from "./routine-file.js";

/** The header in which a page of this run says so: no page of another site may send it, and none of an earlier run knows it. */
export const runHeader = "x-countleaf-run";

export interface SongWriter {
  /** What a page of this run sends along; none where nothing may be written. */
  readonly token: string | undefined;
  /** What it writes into. */
  readonly files: RoutineFiles;
  /** Answers a question that was posted: `lines`, `write` or `take-back`. */
  readonly answer: (question: string, request: IncomingMessage) => Promise<{ status: number; answer: SongAnswer }>;
}

/**
 * Writes into routines what a page of this run has found out about their songs. Nobody else may: a page of another site, one of an earlier
 * run, or anybody at all where the library is served to other computers.
 *
 * @param alone whether this computer alone is served
 */
export function songWriter(files: RoutineFiles, library: () => Library, alone: boolean): SongWriter {
  const token = alone ? randomBytes(16).toString("base64url") : undefined;
  return {
    token,
    files,
    async answer(question, request) {
      const fault = faultOf(request, token);
      if (fault !== undefined) return { status: 403, answer: { refused: fault } };
      const read = asked.safeParse(await bodyOf(request));
      if (!read.success) return { status: 400, answer: { refused: "This is no question about a routine's song." } };
      try {
        return { status: 200, answer: await answerTo(question, read.data, files, library()) };
      } catch (error) {
        // The disk's own trouble: nothing was changed.
        return { status: 500, answer: { refused: `Nothing was written: ${errorText(error)}` } };
      }
    },
  };
}

/** Why a question is not answered, whatever it asks. */
function faultOf({ headers }: IncomingMessage, token: string | undefined): string | undefined {
  if (token === undefined)
    return "Nothing is written while the library is served to other computers: copy the lines, or serve it without `--host`.";
  // A browser says where a page comes from, and no page can make it say otherwise (Fetch standard, 3.1 and 5.1: forbidden headers).
  const own = headers.origin === `http://${headers.host}` && [undefined, "same-origin"].includes(siteOf(headers));
  if (!own) return "Only the song desk of this library may write.";
  if (!/^application\/json\b/.test(headers["content-type"] ?? "")) return "Only JSON is read here.";
  const given = Buffer.from(String(headers[runHeader] ?? ""));
  const known = Buffer.from(token);
  if (given.length !== known.length || !timingSafeEqual(given, known))
    return "`countleaf serve` was started anew since this page was opened: open it again.";
  return undefined;
}

function siteOf(headers: IncomingMessage["headers"]): string | undefined {
  return headers["sec-fetch-site"] as string | undefined;
}

const seconds = z.number().min(0).max(36_000);
const countsPerMinute = z.number().positive().max(4_000);
/** By the time through. */
const times = z.record(z.string().regex(/^[1-9]\d{0,3}$/), seconds).refine((given) => Object.keys(given).length > 0);
const asked = z.strictObject({
  slug: z.string().max(200),
  /** Of the file that the page has seen. */
  key: z.string().max(100),
  figures: z
    .strictObject({
      countsPerMinute: countsPerMinute.optional(),
      firstCount: seconds.optional(),
      sections: z
        .array(
          z.strictObject({
            index: z.int().min(0).max(10_000),
            at: z.union([seconds, times]).optional(),
            countsPerMinute: countsPerMinute.optional(),
            needless: z
              .array(z.enum(["at", "tempo"]))
              .max(2)
              .optional(),
          }),
        )
        .max(2_000)
        .optional(),
    })
    .default({}),
});
type Asked = z.infer<typeof asked>;

async function answerTo(
  question: string,
  { slug, key, figures }: Asked,
  files: RoutineFiles,
  library: Library,
): Promise<SongAnswer> {
  if (question === "take-back") {
    const back = await files.takeBack(slug, key);
    return "refused" in back && back.refused === "changed" ? { refused: changedSince(slug) } : toldOf(back, []);
  }
  const there = await files.read(slug);
  if ("refused" in there) return toldOf(there, []);
  if (there.key !== key) {
    const findings = mistakesIn(there.text, slug, library);
    if (findings.length === 0) return toldOf({ refused: "changed" }, []);
    return { refused: "The file was saved meanwhile and has a mistake in it now: mend it, and go on here.", findings };
  }
  // Absent and undefined are one to what is sent as JSON.
  const made = withSong(there.text, JSON.parse(JSON.stringify(figures)));
  if ("missing" in made) return { refused: `The file has no ${made.missing.replace("-", " ")} to write this into.` };
  const errors = mistakesIn(made.text, slug, library);
  if (errors.length > 0) return { refused: "With these lines the file could not be read any more.", findings: errors };
  if (question !== "write" || made.lines.length === 0) return { key, lines: made.lines };
  return toldOf(await files.write(slug, key, made.text), made.lines);
}

function mistakesIn(text: string, slug: string, library: Library): readonly Finding[] {
  return readRoutine(text, slug, library).findings.filter(({ severity }) => severity === "error");
}

function toldOf(done: RoutineFile | Refused, lines: readonly ChangedLine[]): SongAnswer {
  return "refused" in done ? { refused: refusals[done.refused] } : { key: done.key, lines };
}

const refusals: Readonly<Record<Refusal, string>> = {
  gone: "There is no such routine in the content folder any more.",
  link: "The routine is a link to another file: copy the lines into that one.",
  encoding: "The file is not saved as UTF-8: save it so in your editor, and open this page again.",
  changed: "The file was saved meanwhile, so nothing was written: look at the lines again, and write them then.",
  "read-only": "The file is set so that it can only be read: allow it to be written, or copy the lines.",
  "nothing-before": "There is nothing to take back.",
};

const changedSince = (slug: string) =>
  `The file was saved after that, so nothing was taken back. What stood there before lies beside it, in \`.${slug}.md.before\`.`;

/** Most bytes of a question. */
const mostBytes = 64 * 1024;

/** A question's body as JSON; nothing where it is none, or too long. */
async function bodyOf(request: IncomingMessage): Promise<unknown> {
  const parts: Buffer[] = [];
  let size = 0;
  for await (const part of request as AsyncIterable<Buffer>) {
    size += part.length;
    if (size > mostBytes) return undefined;
    parts.push(part);
  }
  try {
    return JSON.parse(Buffer.concat(parts).toString());
  } catch {
    return undefined;
  }
}

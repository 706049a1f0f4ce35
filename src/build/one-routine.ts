import type Fraction from "fraction.js";
import { countCaptions } from "../publishing/captions/count-captions.js";
import { writeClick } from "../publishing/click/wav.js";
import { descriptionText, leftOutOf } from "../publishing/description/description.js";
import { takesText } from "../publishing/plan/takes-text.js";
import type { Finding } from "../reading/finding.js";
import type { Content } from "../reading/read-content.js";
import type { Routine } from "../routine/routine.js";
import { planRecording } from "../teaching/recording.js";
import { readOne } from "./read-folder.js";

/** What came of making one thing of one routine, or what stands in the way. */
export type Made =
  | { readonly done: true; readonly routine: Routine; readonly text: string }
  | {
      readonly done: false;
      readonly findings: readonly Finding[];
      readonly sources: Content["sources"];
      readonly slugs: readonly string[];
    };

/** The text for under a video, or under its mirrored film; empty where there is no such film. With it, what of it found no room. */
export async function makeDescription(contentDir: string, slug: string, mirrored = false) {
  let leftOut: ReturnType<typeof leftOutOf> = [];
  const made = await withRoutine(contentDir, slug, (routine, { library }) => {
    const film = mirrored ? routine.video.mirrored?.by : "plain";
    if (film === undefined) return "";
    leftOut = leftOutOf(routine, library, film);
    return descriptionText(routine, library, film);
  });
  return { made, leftOut };
}

export interface CaptionOptions {
  /** How many counts early each is shown. */
  readonly lead: number;
  /** Where the routine's first count falls in the recording, in seconds, where that is not as the file says. */
  readonly firstCount?: Fraction;
}

/** Captions of counts and cues for the performance video. */
export function makeCaptions(contentDir: string, slug: string, { lead, firstCount }: CaptionOptions): Promise<Made> {
  return withRoutine(contentDir, slug, (routine, { library }) => {
    const music = { ...routine.music, ...(firstCount && { firstCount }) };
    return countCaptions({ ...routine, music }, library, lead);
  });
}

/** The takes of a breakdown video, as a list to have beside the camera. */
export function makeTakes(contentDir: string, slug: string): Promise<Made> {
  return withRoutine(contentDir, slug, (routine, { library }) =>
    takesText(planRecording(routine, library), routine, library),
  );
}

/** The routine itself, for something that is held against it. */
export function findRoutine(contentDir: string, slug: string): Promise<Made> {
  return withRoutine(contentDir, slug, () => "");
}

type ClickOptions = Parameters<typeof writeClick>[1];

/** The click as sound, written to a file. */
export function makeClick(contentDir: string, slug: string, options: ClickOptions): Promise<Made> {
  return withRoutine(contentDir, slug, async (routine) => {
    await writeClick(routine, options);
    return "";
  });
}

async function withRoutine(
  contentDir: string,
  typed: string,
  make: (routine: Routine, content: Content) => string | Promise<string>,
): Promise<Made> {
  // As files' names are read, however a keyboard or a shell puts its letters together.
  const slug = typed.normalize("NFC");
  const { content, slugs } = await readOne(contentDir, slug);
  // With a library that can't be read, or a folder that is not there, what is made would lack what they say.
  const own = content.findingsOf(slug);
  const above = content.findings.filter(({ file }) => !file.endsWith(".md"));
  const findings = [...above, ...own].filter(({ severity }) => severity === "error");
  const routine = content.routines.find((one) => one.slug === slug);
  if (routine === undefined || findings.length > 0) return { done: false, findings, sources: content.sources, slugs };
  return { done: true, routine, text: await make(routine, content) };
}

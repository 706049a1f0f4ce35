import { existsSync, readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import type { Routine } from "../../routine/routine.js";
import type { ClassPlan } from "../../teaching/class-plan.js";
import { versionName } from "../figures.js";
import type { OutFile } from "../publisher.js";

/** What lies in the pack beside a page before the page is made, so that it links only to what is there. */
export interface PackFiles {
  /** Names of the files in the page's folder. */
  readonly names: ReadonlySet<string>;
  /** The text for the video's description box. */
  readonly videoText?: string;
  /** The plan of a class. */
  readonly plan?: ClassPlan;
}

/** A file to take away. */
export interface Download {
  readonly file: string;
  readonly name: string;
  readonly kind: string;
}

/** The files of a page's folder; none where there is no such folder. */
export function readPack(outDir: string, kind: "routines" | "workshops", slug: string): PackFiles {
  const folder = join(outDir, kind, slug);
  const names = existsSync(folder) ? readdirSync(folder) : [];
  return packFiles(names, (name) => readFileSync(join(folder, name), "utf8"));
}

/** The same from the files themselves, and the paths of those that are made later. */
export function packOf(files: readonly OutFile[], later: readonly string[]): PackFiles {
  const texts = new Map(files.map(({ path, content }) => [basename(path), content]));
  return packFiles([...texts.keys(), ...later.map((path) => basename(path))], (name) => String(texts.get(name)));
}

function packFiles(all: readonly string[], text: (name: string) => string): PackFiles {
  const names = new Set(all);
  return {
    names,
    ...(names.has("description.txt") ? { videoText: text("description.txt") } : {}),
    ...(names.has("plan.json") ? { plan: JSON.parse(text("plan.json")) as ClassPlan } : {}),
  };
}

/** The downloads of a routine, what most people want first. */
export function downloads({ versions, taught }: Routine, { names }: PackFiles): readonly Download[] {
  const handouts = versions.map(({ id }) => [`handout-${id}.pdf`, `Handout, ${versionName(id)}`, "PDF"] as const);
  const all = [
    ...handouts.filter(([file]) => file === `handout-${taught}.pdf`),
    ...handouts.filter(([file]) => file !== `handout-${taught}.pdf`),
    [`handout-${taught}-mirrored.pdf`, "Handout, mirrored", "PDF"],
    [`handout-${taught}-large.pdf`, "Handout, large print", "PDF"],
    [`handout-${taught}-card.pdf`, "Cue card", "PDF"],
    ["click.mid", "Click track", "MIDI"],
    ["counts.vtt", "Cues as captions", "WebVTT"],
    ["numbers.vtt", "Counts as captions", "WebVTT"],
    ["chapters.vtt", "Chapters of the breakdown", "WebVTT"],
    ["description.txt", "Text for the video", "text"],
    ["routine.json", "All figures", "JSON"],
  ] as const;
  return all.filter(([file]) => names.has(file)).map(([file, name, kind]) => ({ file, name, kind }));
}

/** The downloads of a workshop. */
export function packDownloads({ names }: PackFiles): readonly Download[] {
  const all: readonly Download[] = [
    { file: "pack.pdf", name: "The whole pack, to print", kind: "PDF" },
    { file: "plan.json", name: "The plan as data", kind: "JSON" },
  ];
  return all.filter(({ file }) => names.has(file));
}

import { basename, extname } from "node:path";
import type { ClassPlan } from "../../teaching/class-plan.js";
import type { CoursePlan } from "../../teaching/course/course-plan.js";
import { wordingOf } from "../../wording/wording.js";
import type { Context, DeclaredFile } from "../publisher.js";

/** What lies in the pack beside a page, or will, so that it links only to what is there. */
export interface PackFiles {
  /** Names of all files in the page's folder, where a page links to some of them by itself. */
  readonly names?: ReadonlySet<string>;
  /** The pictures in the page's folder, by name, each with its size. */
  readonly pictures: ReadonlyMap<string, DeclaredFile["size"]>;
  /** Files to take away, what most people want first. */
  readonly downloads: readonly Download[];
  /** The text for the video's description box. */
  readonly videoText?: string;
  /** The plan of a class, or of a course. */
  readonly plan?: ClassPlan | CoursePlan;
}

/** A file to take away. */
export interface Download {
  readonly file: string;
  readonly name: string;
  /** Its format: "PDF". */
  readonly kind: string;
  /** Whether it is made to be printed. */
  readonly toPrint: boolean;
  /** The name that it is saved under, where that is another than its own. */
  readonly saveAs?: string;
}

/** What the other outputs have declared, as a page needs it. */
export function packOf({ library, files, textOf }: Context): PackFiles {
  const { outputs } = wordingOf(library.language);
  const text = (kind: string) => {
    const found = files.find((file) => file.kind === kind);
    return found && textOf(found.path);
  };
  const [videoText, plan] = [text("description"), text("plan")];
  return {
    names: new Set(files.map(({ path }) => basename(path))),
    pictures: new Map(files.flatMap(({ path, kind, size }) => (kind === "picture" ? [[basename(path), size]] : []))),
    downloads: files.flatMap((file) => {
      const { label, path } = file;
      if (label === undefined) return [];
      const kind = outputs.format(file.mediaType, extname(path).slice(1));
      const saveAs = file.saveAs && `${savable(file.saveAs)}${extname(path)}`;
      const toPrint = file.kind === "handout";
      return [{ file: basename(path), name: label, kind, toPrint, ...(saveAs ? { saveAs } : {}) }];
    }),
    ...(videoText === undefined ? {} : { videoText }),
    ...(plan === undefined ? {} : { plan: JSON.parse(plan) as ClassPlan | CoursePlan }),
  };
}

/** A name without the signs that a file system refuses (those of Windows, which refuses most). */
export function savable(name: string): string {
  return name.replace(/[\\/:*?"<>|\p{Cc}]+/gu, "-").replace(/^[.\s]+|[.\s]+$/g, "");
}

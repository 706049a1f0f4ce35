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
    downloads: files.flatMap(({ path, label, mediaType }) => {
      const kind = outputs.format(mediaType, extname(path).slice(1));
      return label === undefined ? [] : [{ file: basename(path), name: label, kind }];
    }),
    ...(videoText === undefined ? {} : { videoText }),
    ...(plan === undefined ? {} : { plan: JSON.parse(plan) as ClassPlan | CoursePlan }),
  };
}

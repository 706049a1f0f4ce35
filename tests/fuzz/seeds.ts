import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parseDocument, YAMLSeq } from "yaml";
import { judge } from "./judge.js";
import { halvesOf } from "./mutate/structure.js";

/** What mutation starts from. */
export interface Seeds {
  /** The demo library's routines: whole, and long. */
  readonly long: readonly string[];
  /** Each with a single section, and the routine that `new` writes: those that are still whole. */
  readonly short: readonly string[];
  /** Files with well-known mistakes. */
  readonly wrong: readonly string[];
}

const root = join(import.meta.dirname, "../..");

export function readSeeds(): Seeds {
  const long = textsIn("content/routines");
  return {
    long,
    short: [readFileSync(join(root, "templates/new/routine.md"), "utf8"), ...long.flatMap(oneSectionEach)].filter(
      isWhole,
    ),
    wrong: textsIn("tests/reading/gallery/content/routines"),
  };
}

function isWhole(text: string): boolean {
  return judge(new TextEncoder().encode(text)).routine !== undefined;
}

function textsIn(folder: string): readonly string[] {
  const names = readdirSync(join(root, folder)).sort();
  return names.map((name) => readFileSync(join(root, folder, name), "utf8"));
}

function oneSectionEach(text: string): readonly string[] {
  const { yaml, body } = halvesOf(text);
  const sections = parseDocument(yaml).get("sections");
  const count = sections instanceof YAMLSeq ? sections.items.length : 0;
  return Array.from({ length: count }, (_, index) => {
    const document = parseDocument(yaml);
    const all = document.get("sections") as YAMLSeq;
    all.items = [all.items[index]];
    return `---\n${document.toString({ lineWidth: 0 })}---\n${body.slice(0, 600)}`;
  });
}

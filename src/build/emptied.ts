import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { type ContentFiles, namedIn } from "../reading/files.js";
import { quoted } from "../reading/nearest.js";
import type { Content } from "../reading/read-content.js";
import { filesIn, markIn } from "./folders.js";
import { ignoreErrors } from "./ignore-errors.js";

interface Named {
  readonly slug: string;
}

/** What a build has to make, as far as it matters here. */
type Made = Pick<Content<Named>, "routines"> & { readonly workshops: readonly Named[] };

/**
 * Why a build should not take the place of what is published, in words: it would take away every routine, or all of several
 * workshops. A library is rarely emptied on purpose; more often it was moved, or its files are called so that they are not read.
 * An only routine that gives way to another one was given another name, and nothing is said.
 *
 * @param drafts routines that are not published since their authors are still at work on them
 */
export function emptiedText(
  published: string,
  out: string,
  { folder }: ContentFiles,
  made: Made,
  drafts: readonly string[] = [],
): string | undefined {
  const lost = (kind: Kind, now: readonly Named[], unlessReplaced: boolean) => {
    const before = publishedSlugs(published, kind);
    const stays = before.some((slug) => now.some((one) => one.slug === slug));
    const replaced = unlessReplaced && now.length > 0;
    return stays || before.length < (kind === "workshops" || replaced ? 2 : 1) ? [] : before;
  };
  const [routines, workshops] = [lost("routines", made.routines, true), lost("workshops", made.workshops, false)];
  const what = [allOf("routine", routines), allOf("workshop", workshops)].filter((text) => text !== "");
  if (what.length === 0) return undefined;
  return [
    `This build would take away ${what.join(" and ")} from ${out}.`,
    ...(drafts.length > 0 ? [`Left out as drafts: ${some(drafts)}; take \`draft: yes\` out of what is to stay.`] : []),
    ...notReadText(folder),
    `If that is what you mean, say \`countleaf build --allow-empty\`; if not, see whether \`${folder}\` is the folder that you mean, and whether all your files are there.`,
  ].join(" ");
}

type Kind = "routines" | "workshops";

/** What lies in the folder of each, and not in that of an address that one had before. */
const surely: Readonly<Record<Kind, string>> = { routines: "routine.json", workshops: "plan.json" };

/** Which ones lie in a published folder. */
function publishedSlugs(published: string, kind: Kind): readonly string[] {
  const page = new RegExp(`^${kind}/([^/]+)/${surely[kind].replace(".", "\\.")}$`);
  return filesIn(markIn(published)).flatMap((path) => {
    const slug = page.exec(path)?.[1];
    return slug !== undefined && existsSync(join(published, path)) ? [slug] : [];
  });
}

function allOf(what: string, slugs: readonly string[]): string {
  if (slugs.length === 0) return "";
  return slugs.length === 1 ? `the only ${what} (${slugs[0]})` : `all ${slugs.length} ${what}s (${some(slugs)})`;
}

const most = 5;

function some(names: readonly string[]): string {
  const more = names.length - most;
  return `${names.slice(0, most).join(", ")}${more > 0 ? ` and ${more} more` : ""}`;
}

/** What lies in the content folder and is not read, and what would be. */
function notReadText(folder: string): readonly string[] {
  const found = [
    ...notReadIn(folder, (name) => /^(library\.yaml|routines|workshops)$/.test(name)),
    ...(["routines", "workshops"] as const).flatMap((kind) =>
      notReadIn(folder, (name, isFolder) => name.endsWith(".md") && !isFolder, kind),
    ),
  ];
  if (found.length === 0) return [];
  return [
    `What lies in \`${folder}\` and was not read: ${some(found)}; a routine is a file in \`${namedIn(folder, "routines")}\` whose name ends in \`.md\` (small letters).`,
  ];
}

function notReadIn(
  folder: string,
  isRead: (name: string, isFolder: boolean) => boolean,
  ...below: readonly string[]
): readonly string[] {
  const entries = ignoreErrors(() => readdirSync(join(folder, ...below), { withFileTypes: true })) ?? [];
  return entries
    .filter((entry) => !entry.name.startsWith(".") && !isRead(entry.name, entry.isDirectory()))
    .map((entry) => `${quoted([...below, entry.name].join("/"))}${entry.isDirectory() ? " (a folder)" : ""}`)
    .sort();
}

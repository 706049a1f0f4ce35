import { existsSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import type { EleventyConfig } from "@11ty/eleventy";
import { outputs, pagesOf } from "../publishing/list.js";
import type { Context, DeclaredFile, OutFile, Publisher, Work } from "../publishing/publisher.js";
import { assets } from "../publishing/site/assets.js";
import { workshopFacts } from "../publishing/site/library-view.js";
import { routineFacts } from "../publishing/site/routine-facts.js";
import { configureSite, type SitePart } from "../publishing/site/site-config.js";
import { readContent } from "../reading/read-content.js";
import type { Library, Routine, Workshop } from "../routine/routine.js";
import { withoutDoubts, withoutDrafts } from "./drafts.js";
import { writeInto } from "./staging.js";

/* The site alone, of a whole library at once. */

interface WholeContent {
  readonly library: Library;
  readonly routines: readonly Routine[];
  readonly workshops: readonly Workshop[];
}

/** All of a site; its pages link to what lies in a folder already. */
export async function wholeSite(
  all: WholeContent,
  folder: string,
): Promise<SitePart & Required<Pick<SitePart, "whole">>> {
  const { library, workshops, ...content } = withoutDrafts(all);
  const routines = content.routines.map(withoutDoubts);
  const facts = { routines: routines.map(routineFacts), workshops: workshops.map(workshopFacts) };
  const textOf = (path: string) => readFileSync(join(folder, path), "utf8");
  const works = <Subject>(subjects: readonly Subject[], publishers: readonly Publisher<Subject>[]) =>
    Promise.all(
      subjects.map(async (subject): Promise<Work<Subject>> => {
        const context: Context = { library, findings: [], files: [], textOf };
        const declared = await declaredFiles(publishers, subject, context);
        return {
          subject,
          context: { ...context, files: declared.filter(({ path }) => existsSync(join(folder, path))) },
        };
      }),
    );
  return {
    library,
    whole: { facts, pages: pagesOf(outputs, facts) },
    routines: await works(routines, outputs.routines),
    workshops: await works(workshops, outputs.workshops),
  };
}

/** Every file of the same. */
export async function wholeSiteFiles(content: WholeContent, folder: string): Promise<readonly OutFile[]> {
  const { publishSite } = await import("../publishing/site/publish-site.js");
  const part = await wholeSite(content, folder);
  return [...(await publishSite(part)), ...(await assets(part.whole.facts))];
}

/**
 * Sets an Eleventy up that somebody runs by its own command, for the site of a content folder.
 *
 * @throws Error where the content has errors
 */
export async function configureWholeSite(config: EleventyConfig, contentDir: string): Promise<void> {
  const content = await readContent(contentDir);
  const errors = content.findings.filter(({ severity }) => severity === "error");
  if (errors.length > 0) throw new Error("The content has errors; `npm run check` lists them.");
  // The folder that `--output` names, where it does.
  const out = resolve(config.directories.output);
  const site = await wholeSite(content, out);
  configureSite(config, site);
  config.on("eleventy.after", async () => {
    for (const file of await assets(site.whole.facts)) writeInto(out, file);
  });
}

/** What the outputs other than pages have to offer of a subject, without the making of what takes a while. */
async function declaredFiles<Subject>(
  publishers: readonly Publisher<Subject>[],
  subject: Subject,
  context: Context,
): Promise<readonly DeclaredFile[]> {
  const others = publishers.filter(({ publishAll }) => publishAll === undefined);
  const files = others.map(({ declare, publish }) => (declare ?? publish)(subject, context));
  return (await Promise.all(files)).flat();
}

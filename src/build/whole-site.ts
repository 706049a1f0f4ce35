import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { outputs, pagesOf } from "../publishing/list.js";
import type { Context, DeclaredFile, OutFile, Publisher, Work } from "../publishing/publisher.js";
import { assets } from "../publishing/site/assets.js";
import { workshopFacts } from "../publishing/site/library-view.js";
import { publishSite } from "../publishing/site/publish-site.js";
import { routineFacts } from "../publishing/site/routine-facts.js";
import type { SitePart } from "../publishing/site/site-config.js";
import type { Library, Routine, Workshop } from "../routine/routine.js";

/* The site alone, of a whole library at once. */

interface WholeContent {
  readonly library: Library;
  readonly routines: readonly Routine[];
  readonly workshops: readonly Workshop[];
}

/** All of a site; its pages link to what lies in a folder already. */
export async function wholeSite(
  content: WholeContent,
  folder: string,
): Promise<SitePart & Required<Pick<SitePart, "whole">>> {
  const { library, routines, workshops } = content;
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
  const part = await wholeSite(content, folder);
  return [...(await publishSite(part)), ...(await assets(part.whole.facts))];
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

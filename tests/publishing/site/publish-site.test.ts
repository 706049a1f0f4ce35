import { mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { pictures } from "../../../src/publishing/pictures/publisher.js";
import { plan as planPublisher } from "../../../src/publishing/plan/publisher.js";
import type { OutFile } from "../../../src/publishing/publisher.js";
import { publishSite } from "../../../src/publishing/site/publish-site.js";
import { type Content, readContent } from "../../../src/reading/read-content.js";
import type { ClassPlan } from "../../../src/teaching/class-plan.js";
import { contextOf } from "../../fixtures/context.js";
import { writeSite } from "../../fixtures/write-site.js";

const demo = fileURLToPath(new URL("../../../content", import.meta.url));
let content: Content;
let folder: string;

beforeAll(async () => {
  content = await readContent(demo);
  folder = await mkdtemp(join(tmpdir(), "countleaf-site-test-"));
});
afterAll(() => rm(folder, { recursive: true }));

/** Every file of a folder with its bytes. */
async function filesOf(out: string): Promise<ReadonlyMap<string, string>> {
  const names = (await readdir(out, { recursive: true, withFileTypes: true })).filter((entry) => entry.isFile());
  const paths = names.map(({ parentPath, name }) => join(parentPath, name)).sort();
  return new Map(
    await Promise.all(paths.map(async (path) => [path.slice(out.length), await readFile(path, "latin1")] as const)),
  );
}

/** A path at the start of a line, and below it, further in, a header a line (common practice of static hosts, no source). */
test("the headers for a host are in the form that static hosts read, and for files that are there", async () => {
  const out = join(folder, "headers");
  await writeSite({ ...content, routines: [], workshops: [] }, out);
  const names = [...(await filesOf(out)).keys()];
  const blocks = (await readFile(join(out, "_headers"), "utf8")).trim().split("\n\n");
  for (const block of blocks) {
    const [path = "", ...headers] = block.split("\n");
    expect(path).toMatch(/^\/\S*$/);
    expect(names.some((name) => name.startsWith(path.replace(/\*$/, "")))).toBe(true);
    expect(headers.length).toBeGreaterThan(0);
    for (const header of headers) expect(header).toMatch(/^ {2}[A-Z][\w-]+: \S/);
  }
  // A page's own policy may not name it (CSP Level 3, 3.3: "The <meta> element").
  expect(blocks[0]).toContain("frame-ancestors 'self'");
  expect(await readFile(join(out, "index.html"), "utf8")).not.toContain("frame-ancestors");
});

test("it works silently", async () => {
  const spies = [vi.spyOn(console, "log"), vi.spyOn(console, "warn"), vi.spyOn(console, "error")];
  const writes = [vi.spyOn(process.stdout, "write"), vi.spyOn(process.stderr, "write")];
  const out = join(folder, "silent");
  await writeSite(content, out);
  for (const spy of [...spies, ...writes]) {
    expect(spy).not.toHaveBeenCalled();
    spy.mockRestore();
  }
});

test("what can't be made is told in one plain error, and not on the console", async () => {
  const { library, routines } = content;
  const files = [{ path: "description.txt", kind: "description", mediaType: "text/plain" }] as const;
  const works = routines.map((subject) => ({ subject, context: { ...contextOf(library), files } }));
  const spy = vi.spyOn(console, "error");
  await expect(publishSite({ library, routines: works, workshops: [] })).rejects.toThrow(
    /^The site could not be made: Nothing has been made at description\.txt\.$/,
  );
  expect(spy).not.toHaveBeenCalled();
  spy.mockRestore();
});

test("a picture has its size from the start, so that nothing moves when it comes", async () => {
  const { library, routines } = content;
  const context = contextOf(library);
  const subject = routines.find(({ slug }) => slug === "breakwater-letters") as (typeof routines)[number];
  const files = await pictures.publish(subject, context);
  const [page] = await publishSite({ library, routines: [{ subject, context: { ...context, files } }], workshops: [] });
  const shown = [
    ...String(page?.content).matchAll(/<(?:img|source) [^>]*src(?:set)?="([^"]*)" width="(\d+)" height="(\d+)"/g),
  ];
  expect(shown.length).toBe(files.length);
  for (const [, name, width, height] of shown) {
    const file = files.find(({ path }) => path.endsWith(`/${name}`));
    const [, wide, high] = /viewBox="0 0 (\S+) (\S+)"/.exec(String(file?.content)) ?? [];
    expect([width, height], name).toEqual([wide, high].map((value) => String(Math.round(Number(value)))));
  }
});

test("what can't be written is told in one error, and not on the console", async () => {
  const out = join(folder, "taken");
  await writeFile(out, "a file where the folder should be");
  const spy = vi.spyOn(console, "error");
  await expect(writeSite(content, out)).rejects.toThrow(/^(ENOTDIR|EEXIST)/);
  expect(spy).not.toHaveBeenCalled();
  spy.mockRestore();
});

test("library.json says by what a learner chooses, newest first", async () => {
  const out = join(folder, "facts");
  await writeSite(content, out);
  const { name, routines } = JSON.parse(await readFile(join(out, "library.json"), "utf8"));
  expect(name).toBe("Saltmarsh Dance Room");
  const dates = routines.map(({ date }: { date: string }) => date);
  expect(dates).toEqual([...dates].sort().reverse());
  const letters = routines.find(({ slug }: { slug: string }) => slug === "breakwater-letters");
  expect(letters).toMatchObject({
    title: "Breakwater Letters",
    levels: ["1", "2", "3"],
    adaptations: ["seated"],
    audience: "adult",
    counts: 74,
    countsPerMinute: 88,
    floorWork: ["1", "2", "3"],
    onChair: ["seated"],
  });
  expect(letters.gear).toEqual(expect.arrayContaining(["knee pads", "mat", "chair"]));
});

test("a page that stands in for any other leads home from wherever it is shown", async () => {
  const none = { facts: { routines: [], workshops: [] }, pages: [] };
  const missing = async (url: string | undefined) => {
    const { url: _, ...library } = content.library;
    const made = await publishSite({
      library: { ...library, ...(url && { url }) },
      whole: none,
      routines: [],
      workshops: [],
    });
    return made.find(({ path }) => path === "404.html")?.content;
  };
  const page = String(await missing("https://host.example/dance"));
  expect(page).toContain("<h1>There is no page here</h1>");
  expect(page).toContain('content="noindex"');
  // Shown at any depth, no address in it may depend on where it is shown.
  const addresses = [...page.matchAll(/(?:href|src)="([^"#]+)"/g)].map(([, address]) => address);
  expect(addresses).toContain("/dance/index.html");
  for (const address of addresses) expect(address).toMatch(/^\/dance\//);
  expect(await missing(undefined)).toBeUndefined();
});

test("the running order of a class stands at a glance, each line leading to what is done then", async () => {
  const { library, workshops } = content;
  const subject = workshops.find(({ slug }) => slug === "open-hour") as (typeof workshops)[number];
  const [plan] = (await planPublisher.publish(subject, contextOf(library))) as readonly OutFile[];
  const context = { ...contextOf(library), files: plan ? [plan] : [], textOf: () => String(plan?.content) };
  const [page] = await publishSite({ library, routines: [], workshops: [{ subject, context }] });
  const text = (html: string | undefined) =>
    html
      ?.replace(/<[^>]*>/g, "")
      .replace(/\s+/g, " ")
      .trim();
  const lines = [...String(page?.content).matchAll(/<li><a href="#(block-\d+)">(.*?)<\/a><\/li>/g)];
  const blocks = [...String(page?.content).matchAll(/<h3 id="(block-\d+)">(.*?)<\/h3>/g)];
  expect(lines.length).toBe((JSON.parse(String(plan?.content)) as ClassPlan).activities.length);
  const pairs = (found: readonly RegExpMatchArray[]) => found.map(([, id, html]) => [id, text(html)]);
  expect(pairs(lines)).toEqual(pairs(blocks));
});

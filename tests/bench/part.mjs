// One piece of work of ours or of a peer, as a process of its own: `node part.mjs KIND CONTENT`. Prints seconds and processor
// seconds of the work itself, without the reading of the content that comes before it, and what came out.
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { PDFParse } from "pdf-parse";
import { readFolder } from "../../.unbundled/build/read-folder.js";
import { writeInto } from "../../.unbundled/build/staging.js";
import { readContent } from "../../.unbundled/reading/read-content.js";
import { unpackWoff } from "../../.unbundled/typesetting/woff.js";
import { sheetHtml } from "./sheet-html.mjs";
import { sheetsOf } from "./sheets.mjs";

const [kind, contentDir] = process.argv.slice(2);
const here = import.meta.dirname;
/* Held whole only where the work is about all of it: our pages are made from a few routines at a time. */
const content = kind === "site" ? await readFolder(contentDir) : await readContent(contentDir);
const out = mkdtempSync(join(tmpdir(), "countleaf-bench-"));
const contextOf = (library) => ({ library, findings: [], files: [] });
const everySheet = () => content.routines.flatMap((routine) => sheetsOf(routine, content.library));
/** The first few PDFs, whose pages are counted when the clock has stopped. */
const some = [];
const take = (bytes) => void (some.length < 10 && some.push(bytes));
const pagesEach = async () => {
  const counts = await Promise.all(
    some.map(async (bytes) => (await new PDFParse({ data: new Uint8Array(bytes) }).getInfo()).total),
  );
  return counts.reduce((sum, count) => sum + count, 0) / counts.length;
};

/** Our own faces as files that a typesetter can open. */
function unpackFaces(folder) {
  const require = createRequire(import.meta.url);
  for (const cut of ["400-normal", "700-normal", "400-italic"]) {
    const name = `atkinson-hyperlegible-next-latin-${cut}`;
    const packed = readFileSync(require.resolve(`@fontsource/atkinson-hyperlegible-next/files/${name}.woff`));
    writeFileSync(join(folder, `${name}.ttf`), unpackWoff(packed));
  }
  return folder;
}

const parts = {
  /** Our handouts, in one thread. */
  async handouts() {
    const { handout } = await import("../../.unbundled/publishing/handout/publisher.js");
    let files = 0;
    for (const routine of content.routines)
      for (const { content: bytes } of await handout.publish(routine, contextOf(content.library))) {
        files++;
        take(bytes);
      }
    return { files };
  },

  /** Our handouts in threads, as a build makes them: each routine read again in its thread, each file written. */
  async handoutsSideBySide() {
    const { openThreads } = await import("../../.unbundled/build/threads.js");
    const threads = openThreads();
    const options = { library: content.library, folder: out };
    const works = content.routines.map(({ slug }) => ({
      slug,
      text: readFileSync(join(contentDir, "routines", `${slug}.md`), "utf8"),
      findings: [],
    }));
    const made = await Promise.all(works.map((work) => threads.do("routineLater", options, work)));
    await threads.close();
    const names = made.flat().map(({ path }) => path);
    for (const name of names.slice(0, 10)) take(readFileSync(join(out, name)));
    return { files: names.length };
  },

  async typst() {
    const { NodeCompiler } = await import("@myriaddreamin/typst-ts-node-compiler");
    const compiler = NodeCompiler.create({ workspace: here, fontArgs: [{ fontPaths: [unpackFaces(out)] }] });
    const mainFileContent = readFileSync(join(here, "sheet.typ"), "utf8");
    let files = 0;
    for (const sheet of everySheet()) {
      const bytes = compiler.pdf({ mainFileContent, inputs: { sheet: JSON.stringify(sheet) } });
      compiler.evictCache(10);
      files++;
      take(bytes);
    }
    return { files };
  },

  /** A headless browser, with as many tabs as there are processor cores. */
  async browser() {
    const { browserFor } = await import("./browser.mjs");
    const browser = await browserFor();
    const waiting = everySheet();
    let files = 0;
    const tab = async () => {
      const page = await browser.newPage();
      for (let sheet = waiting.shift(); sheet !== undefined; sheet = waiting.shift()) {
        await page.setContent(sheetHtml(sheet));
        const bytes = await page.pdf({ preferCSSPageSize: true, tagged: true, outline: true });
        files++;
        take(bytes);
      }
    };
    await Promise.all(Array.from({ length: availableParallelism() }, tab));
    await browser.close();
    return { files };
  },

  /** A headless browser that is started for every file, as its command line does; a few files tell enough. */
  async browserEachTime() {
    const { browserFor } = await import("./browser.mjs");
    const sheets = everySheet().slice(0, 10);
    for (const sheet of sheets) {
      const browser = await browserFor();
      const page = await browser.newPage();
      await page.setContent(sheetHtml(sheet));
      take(await page.pdf({ preferCSSPageSize: true, tagged: true, outline: true }));
      await browser.close();
    }
    return { files: sheets.length };
  },

  /**
   * Our pages, feed and assets, without the handouts that they link to; the clock stands still while routines are read. As in a
   * build, each routine has its folder already, since all else that is about it is written before its page.
   */
  async site() {
    const { outputs, pagesOf } = await import("../../.unbundled/publishing/list.js");
    const { libraryPages, routinePage } = await import("../../.unbundled/publishing/site/publisher.js");
    const { readRoutineSource } = await import("../../.unbundled/reading/read-routine.js");
    const { library, routines, workshops } = content;
    for (const { slug } of routines) mkdirSync(join(out, "routines", slug), { recursive: true });
    let [seconds, cpu] = [0, 0];
    const publish = async ({ publishAll }, subjects) => {
      const [time, used] = [performance.now(), process.cpuUsage()];
      const made = await publishAll(subjects.map((subject) => ({ subject, context: contextOf(library) })));
      for (const file of made.flat()) writeInto(out, file);
      const { user, system } = process.cpuUsage(used);
      seconds += (performance.now() - time) / 1000;
      cpu += (user + system) / 1e6;
    };
    const facts = { routines, workshops };
    await publish(libraryPages, [{ facts, pages: pagesOf(outputs, facts) }]);
    for (let from = 0; from < routines.length; from += 25)
      await publish(
        routinePage,
        routines.slice(from, from + 25).map(({ slug }) => {
          const text = readFileSync(join(contentDir, "routines", `${slug}.md`), "utf8");
          return readRoutineSource(text, slug, library).routine;
        }),
      );
    return { files: routines.length + 1, seconds, cpu };
  },

  /** As many pages by Eleventy alone, each with nothing on it. */
  async eleventy() {
    const { default: Eleventy } = await import("@11ty/eleventy");
    const input = join(out, "templates");
    mkdirSync(input);
    const slugs = content.routines.map(({ slug }) => slug);
    const template = (names, permalink) =>
      `export const data = { names: ${JSON.stringify(names)}, pagination: { data: "names", size: 1, alias: "name" }, permalink: ${permalink} };\nexport const render = () => "<!doctype html><title>-</title>";\n`;
    writeFileSync(join(input, "page.11ty.js"), template(slugs, '({ name }) => "pages/" + name + "/index.html"'));
    writeFileSync(join(input, "index.11ty.js"), template([""], '"index.html"'));
    writeFileSync(join(input, "package.json"), '{ "type": "module" }');
    const eleventy = new Eleventy(input, join(out, "site"), { quietMode: true, configPath: false });
    const nothing = () => {};
    eleventy.logger.overrideLogger({ log: nothing, info: nothing, warn: nothing, error: nothing });
    await eleventy.write();
    return { files: slugs.length + 1 };
  },
};

const began = { time: performance.now(), cpu: process.cpuUsage() };
const made = await parts[kind]();
const seconds = (performance.now() - began.time) / 1000;
const { user, system } = process.cpuUsage(began.cpu);
const pages = some.length > 0 ? { pages: await pagesEach() } : {};
console.log(JSON.stringify({ seconds, cpu: (user + system) / 1e6, ...made, ...pages }));
rmSync(out, { recursive: true });

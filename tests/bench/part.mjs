// One piece of work of ours or of a peer, as a process of its own: `node part.mjs KIND CONTENT`. Prints seconds and processor
// seconds of the work itself, without the reading of the content that comes before it, and what came out.
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { PDFParse } from "pdf-parse";
import { readContent } from "../../dist/reading/read-content.js";
import { sheetHtml } from "./sheet-html.mjs";
import { sheetsOf } from "./sheets.mjs";

const [kind, contentDir] = process.argv.slice(2);
const here = import.meta.dirname;
const content = await readContent(contentDir);
const out = mkdtempSync(join(tmpdir(), "countleaf-bench-"));
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

const parts = {
  /** Our handouts, in one thread. */
  async handouts() {
    const { handout } = await import("../../dist/publishing/handout/publisher.js");
    let files = 0;
    for (const routine of content.routines)
      for (const { content: bytes } of await handout.publish(routine, content.library)) {
        files++;
        take(bytes);
      }
    return { files };
  },

  async typst() {
    const { NodeCompiler } = await import("@myriaddreamin/typst-ts-node-compiler");
    const compiler = NodeCompiler.create({ workspace: here });
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
        const bytes = await page.pdf({ preferCSSPageSize: true });
        files++;
        take(bytes);
      }
    };
    await Promise.all(Array.from({ length: availableParallelism() }, tab));
    await browser.close();
    return { files };
  },

  /** Our pages, feed and assets, without the handouts that they link to. */
  async site() {
    const { publishSite } = await import("../../dist/publishing/site/publish-site.js");
    const { wholeSite } = await import("../../dist/publishing/site/site-config.js");
    const { facts, ...whole } = wholeSite(content, out);
    await publishSite({ ...whole, facts, routines: [], workshops: [] }, out);
    await publishSite({ ...whole, routines: [] }, out);
    for (let from = 0; from < whole.routines.length; from += 25)
      await publishSite({ ...whole, routines: whole.routines.slice(from, from + 25), workshops: [] }, out);
    return { files: content.routines.length + content.workshops.length + 1 };
  },

  /** As many pages by Eleventy alone, each with nothing on it. */
  async eleventy() {
    const { default: Eleventy } = await import("@11ty/eleventy");
    const input = join(out, "templates");
    mkdirSync(input);
    const slugs = [...content.routines, ...content.workshops].map(({ slug }) => slug);
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

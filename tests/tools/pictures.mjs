// Takes the README's pictures of the demo library into output-sample/pictures: a page, by a real browser, and the first
// page of a handout, by pdf.js. Run `npm run build` first.
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { PDFParse } from "pdf-parse";
import { chromium } from "playwright-core";

const root = resolve(import.meta.dirname, "../..");
const routine = join(root, "_site/routines/breakwater-letters");
const pictures = join(root, "output-sample/pictures");
mkdirSync(pictures, { recursive: true });

// The packaged browser brings the system libraries that a bare machine lacks only where this variable says so.
process.env.AWS_EXECUTION_ENV ??= "AWS_Lambda_nodejs20.x";
const { default: packaged } = await import("@sparticuz/chromium");
const executablePath = process.env.COUNTLEAF_BROWSER ?? (await packaged.executablePath());
const libraries = join(dirname(executablePath), "al2023/lib");
const browser = await chromium.launch({
  executablePath,
  args: ["--no-sandbox", "--no-zygote", "--disable-gpu"],
  env: { ...process.env, LD_LIBRARY_PATH: libraries, FONTCONFIG_PATH: join(tmpdir(), "fonts") },
});
const page = await browser.newPage({ viewport: { width: 1000, height: 1240 } });
await page.goto(pathToFileURL(join(routine, "index.html")).href);
await page.screenshot({ path: join(pictures, "page.png") });
await browser.close();

const pdf = new PDFParse({ data: readFileSync(join(routine, "handout-2.pdf")) });
const { pages } = await pdf.getScreenshot({ first: 1, desiredWidth: 1000 });
writeFileSync(join(pictures, "handout.png"), pages[0].data);
await pdf.destroy();

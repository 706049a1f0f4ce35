// Measures the pages of a built library as a person meets them, at four widths, and prints a table:
//
//   npm run build && node tests/tools/measure-pages.mjs [_site]
//
// Where Start and the first count stand (in screens from the top), how many texts are cut off, targets of touch under 24 px
// (WCAG 2.2, 2.5.8, its exceptions for targets within a sentence left out), texts under 16 px on a phone, and how far the page scrolls sideways.
import { readdirSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const site = resolve(process.argv[2] ?? "_site");
const windows = [
  { width: 320, height: 568 },
  { width: 390, height: 844 },
  { width: 768, height: 1024 },
  { width: 1280, height: 900 },
];

/** Runs in the page. */
function measure() {
  const seen = (element) => element.checkVisibility({ visibilityProperty: true, opacityProperty: true });
  const unseen = (element) => element.closest(".unseen") !== null;
  const screens = (element, edge) =>
    element === undefined ? Number.NaN : (element.getBoundingClientRect()[edge] + scrollY) / innerHeight;
  const all = (selector) =>
    [...document.querySelectorAll(selector)].filter((element) => seen(element) && !unseen(element));
  const texts = all("body *").filter((element) =>
    [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent.trim() !== ""),
  );
  const name = (element) => `${element.localName}.${element.className}`.slice(0, 40);
  const clipped = texts.filter((element) => {
    const box = element.getBoundingClientRect();
    if (box.right > innerWidth + 1 && !element.closest("pre, .strip, [tabindex]")) return true;
    const style = getComputedStyle(element);
    const hides = style.overflowX !== "visible" && style.overflowX !== "auto" && style.overflowX !== "scroll";
    return hides && (element.scrollWidth > element.clientWidth + 1 || element.scrollHeight > element.clientHeight + 1);
  });
  const inSentence = (element) =>
    getComputedStyle(element).display === "inline" &&
    element.parentElement.textContent.trim() !== element.textContent.trim();
  const small = all("a[href], button, input, select, summary, [role=button]").filter((element) => {
    const target = element.closest("label") ?? element;
    const { width, height } = target.getBoundingClientRect();
    return (width < 24 || height < 24) && !inSentence(target);
  });
  const fine = texts.filter(
    (element) => Number.parseFloat(getComputedStyle(element).fontSize) < 16 && !element.closest("svg"),
  );
  return {
    start: screens(all("[data-start]")[0], "bottom"),
    first: screens(all(".counts .on, .counts [data-on]")[0], "bottom"),
    clipped: clipped.map(name),
    small: small.map(name),
    fine: fine.map(name),
    sideways: document.documentElement.scrollWidth - innerWidth,
  };
}

process.env.AWS_EXECUTION_ENV ??= "AWS_Lambda_nodejs20.x";
const { default: packaged } = await import("@sparticuz/chromium");
const executablePath = process.env.COUNTLEAF_BROWSER ?? (await packaged.executablePath());
const browser = await chromium.launch({
  executablePath,
  args: ["--no-sandbox", "--no-zygote", "--disable-gpu", "--allow-file-access-from-files"],
  env: {
    ...process.env,
    LD_LIBRARY_PATH: join(dirname(executablePath), "al2023/lib"),
    FONTCONFIG_PATH: join(tmpdir(), "fonts"),
  },
});
const fines = new Map();
const troubles = new Set();
console.log("| page | width | Start | first count | clipped | small targets | under 16 px | sideways |");
console.log("|---|---:|---:|---:|---:|---:|---:|---:|");
for (const slug of readdirSync(join(site, "routines")))
  for (const viewport of windows) {
    const page = await browser.newPage({ viewport, hasTouch: viewport.width < 768 });
    await page.goto(pathToFileURL(join(site, "routines", slug, "index.html")).href);
    await page.waitForTimeout(400);
    const seen = await page.evaluate(measure);
    const phone = viewport.width < 768;
    console.log(
      `| ${slug} | ${viewport.width} | ${seen.start.toFixed(2)} | ${seen.first.toFixed(2)} | ${seen.clipped.length} | ${seen.small.length} | ${phone ? seen.fine.length : "–"} | ${seen.sideways} |`,
    );
    for (const what of seen.clipped) troubles.add(`clipped: ${what}`);
    for (const what of seen.small) troubles.add(`small target: ${what}`);
    if (phone) for (const what of seen.fine) fines.set(what, (fines.get(what) ?? 0) + 1);
    await page.close();
  }
await browser.close();
for (const line of troubles) console.log(line);
for (const [what, times] of fines) console.log(`under 16 px: ${what} (${times})`);

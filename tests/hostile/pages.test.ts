// What runs inside the page is typed as a page.
/// <reference lib="dom" />

import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readContent } from "../../src/reading/read-content.js";
import { openBrowser, serveFolder } from "../browser/browser.js";
import { publishedSite, type TestSite, watchedPage } from "../browser/site.js";
import { long } from "../runs.js";
import { writeHostile } from "./content.js";
import { allPatterns, elsewhere, furtherPatterns, oneLine, run } from "./patterns.js";

/*
 * Every pattern in every text of a library, a workshop and a routine, opened in a real browser. In the short form a library
 * says many of them at once, and only those get a routine of their own that the tests of the pages have not; in the long form
 * each pattern has a library, a workshop and a routine to itself.
 */

let browser: Browser;
let work: string;

beforeAll(async () => {
  work = mkdtempSync(join(tmpdir(), "countleaf-hostile-"));
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  rmSync(work, { recursive: true });
});

/* What the watching itself brings about: a page that is left breaks off what it was still fetching of its own site. */
const ours = /^Service Worker registration blocked|^failed: http:\/\/127\.0\.0\.1:/;

/** As many patterns as fit into one text, one text after the other. */
function inTexts(patterns: readonly string[]): readonly (readonly string[])[] {
  const texts: string[][] = [];
  let size = Number.POSITIVE_INFINITY;
  for (const pattern of patterns) {
    size += pattern.length + 1;
    if (size > 900) {
      texts.push([]);
      size = pattern.length;
    }
    texts.at(-1)?.push(pattern);
  }
  return texts;
}

async function siteSaying(
  name: string,
  library: readonly string[],
  routines: readonly (readonly string[])[],
): Promise<TestSite> {
  const content = join(work, name);
  writeHostile(content, library, routines);
  const read = await readContent(content);
  expect(read.findings.filter(({ severity }) => severity === "error")).toEqual([]);
  expect(read.routines.length).toBe(routines.length);
  expect(read.workshops.length).toBe(1);
  return publishedSite(read);
}

/** Opens a page with its traps set, does to it what a visitor can do, and says what is wrong. */
async function visit(page: Page, url: string, library: string): Promise<readonly string[]> {
  await page.goto(url, { waitUntil: "load" });
  return page.evaluate((named) => {
    for (const fold of document.querySelectorAll("details")) fold.open = true;
    for (const element of document.querySelectorAll<HTMLElement>("body *")) {
      for (const kind of [
        "mouseover",
        "mouseenter",
        "pointerover",
        "animationstart",
        "toggle",
        "dragstart",
        "error",
        "load",
      ])
        element.dispatchEvent(new Event(kind));
      if (element.matches("input, select, button, summary, [tabindex]")) element.focus();
      if (element.matches("input[type=radio], input[type=checkbox], button[type=button]")) element.click();
    }
    const spaced = (text: string | null | undefined) => (text ?? "").replace(/\s+/g, " ").trim();
    const wrong: string[] = [];
    const expect = (holds: boolean, what: string) => void (holds || wrong.push(what));
    expect(!("ran" in window), "something ran");
    expect(document.querySelectorAll("main#main").length === 1, "no main part");
    expect(document.querySelectorAll("footer.site-foot").length === 1, "no foot");
    expect(
      document.querySelectorAll("h1").length === 1 && spaced(document.querySelector("h1")?.textContent) !== "",
      "no heading",
    );
    expect(spaced(document.title).includes(spaced(named)), `the title is ${document.title}`);
    // The last thing on a page: nothing before it has swallowed it.
    expect(document.body.lastElementChild?.matches("footer.site-foot") === true, "something follows the foot");
    for (const link of document.querySelectorAll<HTMLAnchorElement>("a[href], area[href]")) {
      const { protocol } = new URL(link.href);
      expect(["http:", "https:", "mailto:", "blob:"].includes(protocol), `a link to ${link.href.slice(0, 80)}`);
    }
    return wrong;
  }, library);
}

async function visitAll(site: TestSite, library: string, own: boolean): Promise<void> {
  const all = readdirSync(site.folder, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".html"));
  // What does not run without the policy does not run with it: that it lets the page's own scripts run shows on a few.
  const pages = all.filter((_, index) => long || !own || index % 10 === 0);
  // With its policy and without: neither may be what the other relies on.
  const { page, watch } = await watchedPage(browser, site, { bypassCSP: !own, serviceWorkers: "block" });
  page.on("dialog", (dialog) => {
    watch.troubles.push(`a dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.on("popup", (popup) => watch.troubles.push(`a window: ${popup.url()}`));
  page.on("download", (download) => watch.troubles.push(`a download: ${download.url()}`));
  for (const name of pages) {
    expect(await visit(page, site.url + name, library), name).toEqual([]);
    const troubles = watch.troubles.filter((trouble) => !ours.test(trouble));
    expect([troubles, watch.foreign], name).toEqual([[], []]);
  }
  await page.context().close();
}

test("there are far more than eighty patterns", () => {
  expect(new Set(allPatterns).size).toBeGreaterThanOrEqual(180);
});

test("a page on which something runs, and that asks elsewhere, would be noticed", async () => {
  const folder = mkdtempSync(join(work, "open-"));
  const body = `<img src="data:," onerror=${run}><img src="${elsewhere}.png"><a href="javascript:${run}">x</a>`;
  writeFileSync(join(folder, "index.html"), `<!doctype html><title>Open</title><h1>Open</h1>${body}`);
  const server = await serveFolder(folder);
  const site = { folder, url: server.url, close: server.close };
  const { page, watch } = await watchedPage(browser, site);
  page.on("dialog", (dialog) => void dialog.dismiss());
  const wrong = await visit(page, site.url, "Open");
  expect(wrong).toEqual([
    "something ran",
    "no main part",
    "no foot",
    "something follows the foot",
    `a link to javascript:${run}`,
  ]);
  expect(watch.foreign).toEqual([`${elsewhere}.png`]);
  await page.context().close();
  await server.close();
});

test("libraries, workshops and routines that say many of them at once", { timeout: 3_600_000 }, async () => {
  const some = furtherPatterns.filter((_, index) => long || index % 80 === 0).map((pattern) => [oneLine(pattern)]);
  // In the short form a library and its workshop say one of three texts, whose two others are said by routines of theirs.
  const texts = inTexts(allPatterns);
  const every = long ? 1 : 3;
  for (let index = 0; index < texts.length; index += every) {
    const [text = [], ...others] = texts.slice(index, index + every);
    const site = await siteSaying(`some-${index}`, text, [text, ...others, ...(index === 0 ? some : [])]);
    await Promise.all([true, false].map((own) => visitAll(site, text.join(" "), own)));
    await site.close();
  }
});

test("a library, a workshop and a routine for each of them", { timeout: 3_600_000 }, async () => {
  const each = allPatterns.filter((_, index) => long || index % 160 === 0);
  for (const [index, pattern] of each.entries()) {
    const site = await siteSaying(`each-${index}`, [pattern], [[pattern]]);
    await visitAll(site, pattern, false);
    await site.close();
  }
});

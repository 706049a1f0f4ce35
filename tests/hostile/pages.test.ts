// What runs inside the page is typed as a page.
/// <reference lib="dom" />

import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readContent } from "../../src/reading/read-content.js";
import { launchBrowser } from "../browser/browser.js";
import { publishedSite, type TestSite, watchedPage } from "../browser/site.js";
import { writeHostile } from "./content.js";
import { allPatterns, furtherPatterns } from "./patterns.js";

/*
 * Every pattern in every text of a library, a workshop and a routine, opened in a real browser. In the short form a library
 * says many of them at once, and only those get a routine of their own that the tests of the pages have not; in the long form
 * each pattern has a library, a workshop and a routine to itself.
 */

const long = process.env.COUNTLEAF_LONG === "1";
let browser: Browser;
let work: string;

beforeAll(async () => {
  work = mkdtempSync(join(tmpdir(), "countleaf-hostile-"));
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  rmSync(work, { recursive: true });
});

/** As many patterns as fit into one text, one text after the other. */
function inTexts(patterns: readonly string[]): readonly string[] {
  const texts: string[] = [];
  for (const pattern of patterns) {
    const last = texts.at(-1);
    if (last !== undefined && last.length + pattern.length < 900) texts[texts.length - 1] = `${last} ${pattern}`;
    else texts.push(pattern);
  }
  return texts;
}

async function siteSaying(name: string, library: string, routines: readonly string[]): Promise<TestSite> {
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
  const pages = readdirSync(site.folder, { recursive: true, encoding: "utf8" }).filter((name) =>
    name.endsWith(".html"),
  );
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
    const troubles = watch.troubles.filter((trouble) => !trouble.startsWith("Service Worker registration blocked"));
    expect([troubles, watch.foreign], name).toEqual([[], []]);
  }
  await page.context().close();
}

test("there are far more than eighty patterns", () => {
  expect(new Set(allPatterns).size).toBeGreaterThanOrEqual(180);
});

test("a library that says all of them, a routine each", { timeout: 3_600_000 }, async () => {
  const routines = furtherPatterns.map((pattern) => pattern.replace(/\s+/g, " "));
  const [library = "", ...others] = inTexts(allPatterns);
  for (const [index, text] of [library, ...others].entries()) {
    const site = await siteSaying(`some-${index}`, text, index === 0 ? routines : [text.slice(0, 400)]);
    await visitAll(site, text, true);
    if (index === 0) await visitAll(site, text, false);
    await site.close();
  }
});

test("a library, a workshop and a routine for each of them", { timeout: 3_600_000 }, async () => {
  const each = allPatterns.filter((_, index) => long || index % 40 === 0);
  for (const [index, pattern] of each.entries()) {
    const site = await siteSaying(`each-${index}`, pattern, [pattern]);
    await visitAll(site, pattern, false);
    await site.close();
  }
});

import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { HtmlValidate } from "html-validate";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { launchBrowser } from "./browser.js";
import { demoSite, type TestSite, watchedPage } from "./site.js";

const routine = "routines/breakwater-letters/index.html";
let browser: Browser;
let site: TestSite;
let pages: readonly string[];

beforeAll(async () => {
  [browser, site] = await Promise.all([launchBrowser(), demoSite()]);
  pages = (await readdir(site.folder, { recursive: true })).filter((name) => name.endsWith(".html")).sort();
});
afterAll(async () => {
  await browser?.close();
  await site?.close();
});

test("there is a page for the library, every routine and every workshop", () => {
  expect(pages).toEqual([
    "index.html",
    ...["breakwater-letters", "fourpenny-gate", "kettle-and-window"].map((slug) => `routines/${slug}/index.html`),
    ...["lock-keepers-waltz", "paper-boats", "twelve-iron-steps"].map((slug) => `routines/${slug}/index.html`),
    "workshops/open-hour/index.html",
    "workshops/winter-floor-day/index.html",
  ]);
});

test("every page is valid HTML", async () => {
  // Where each control acts at once, a submit button would do nothing: technique H32 is for forms that are sent.
  const rules = { "wcag/h32": "off", "no-trailing-whitespace": "off", "long-title": "off" } as const;
  const validator = new HtmlValidate({ root: true, extends: ["html-validate:recommended"], rules });
  for (const name of pages) {
    const report = await validator.validateFile(join(site.folder, name));
    const found = report.results.flatMap(({ messages }) =>
      messages.map((one) => `${one.line}: ${one.ruleId} ${one.message}`),
    );
    expect(found, name).toEqual([]);
  }
});

test("no page has a script or a style of its own, nor an attribute that runs", async () => {
  for (const name of pages) {
    const text = await readFile(join(site.folder, name), "utf8");
    expect(text, name).not.toMatch(/<style|\sstyle=|\son[a-z]+=|javascript:/i);
    for (const [, attributes, body] of text.matchAll(/<script([^>]*)>([\s\S]*?)<\/script>/g))
      if (!attributes?.includes("application/ld+json")) expect(body, name).toBe("");
  }
});

describe("in the browser", () => {
  test("every page loads whole, with no error, no breach of its own policy and no request to another host", async () => {
    for (const colorScheme of ["light", "dark"] as const) {
      const { page, watch } = await watchedPage(browser, site, { colorScheme });
      for (const name of pages) {
        await page.goto(site.url + name, { waitUntil: "networkidle" });
        expect(watch, name).toEqual({ troubles: [], foreign: [] });
      }
      await page.context().close();
    }
  });

  test("without script the page shows what it takes, how it starts, the counts and where they fall in the track", async () => {
    const { page } = await watchedPage(browser, site, { javaScriptEnabled: false });
    await page.goto(site.url + routine);
    const text = await page.locator("main").innerText();
    for (const part of ["knee pads", "facing right, weight on the left foot, standing", "Along the wall", "0:12.7"])
      expect(text).toContain(part);
    expect(await page.locator(".by-script:visible").count()).toBe(0);
    expect(await page.locator("[data-practice]:visible").count()).toBe(0);
  });

  test("without script, too, a version and the other side can be chosen", async () => {
    const { page } = await watchedPage(browser, site, { javaScriptEnabled: false });
    await page.goto(site.url + routine);
    const first = page.locator(".part").nth(1).locator(".move:visible .cue").first();
    expect(await first.innerText()).toContain("right, left, right");
    await page.getByLabel("Mirrored", { exact: true }).check();
    expect(await first.innerText()).toContain("left, right, left");
    await page.getByLabel("Seated").check();
    expect(await first.innerText()).toBe("Tap the feet left, right, left");
  });

  test.each([320, 390, 768, 1280])(
    "at %i px nothing reaches past the side, at 100 and at 200 per cent text",
    async (width) => {
      const { page } = await watchedPage(browser, site, { viewport: { width, height: 800 } });
      for (const name of [
        "index.html",
        routine,
        "routines/twelve-iron-steps/index.html",
        "workshops/winter-floor-day/index.html",
      ]) {
        await page.goto(site.url + name, { waitUntil: "networkidle" });
        for (const size of ["106.25%", "212.5%"]) {
          await page.evaluate((text) => {
            document.documentElement.style.fontSize = text;
          }, size);
          const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
          expect(over, `${name} at ${size}`).toBeLessThanOrEqual(0);
        }
      }
      await page.context().close();
    },
  );

  test("a first visit to a routine moves at most 120 KB, of which at most 25 KB are script, as a host sends it compressed", async () => {
    const { page } = await watchedPage(browser, site, {
      viewport: { width: 390, height: 800 },
      serviceWorkers: "block",
    });
    const sizes = new Map<string, number>();
    page.on("response", async (response) => {
      const body = await response.body();
      const packed = /\.woff2$/.test(response.url()) ? body.length : gzipSync(body).length;
      sizes.set(response.url(), packed);
    });
    await page.goto(site.url + routine, { waitUntil: "networkidle" });
    await page.locator("#practice").scrollIntoViewIfNeeded();
    await page.waitForLoadState("networkidle");
    await page.mouse.wheel(0, 20_000);
    await page.waitForLoadState("networkidle");
    const sum = (of: RegExp) => [...sizes].filter(([url]) => of.test(url)).reduce((all, [, size]) => all + size, 0);
    expect(sum(/\.js$/)).toBeGreaterThan(1000);
    expect(sum(/\.js$/)).toBeLessThanOrEqual(25_000);
    expect(sum(/\.woff2$/)).toBeGreaterThan(10_000);
    expect(sum(/./)).toBeLessThanOrEqual(120_000);
  });
});

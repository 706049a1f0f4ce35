import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { type ConfigData, HtmlValidate } from "html-validate";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readContent } from "../../src/reading/read-content.js";
import { openBrowser } from "./browser.js";
import { demoSite, publishedSite, type TestSite, watchedPage } from "./site.js";

const content = fileURLToPath(new URL("../../content", import.meta.url));
const routine = "routines/breakwater-letters/index.html";
let browser: Browser;
let site: TestSite;
let pages: readonly string[];

beforeAll(async () => {
  [browser, site] = await Promise.all([openBrowser(), demoSite()]);
  pages = (await readdir(site.folder, { recursive: true })).filter((name) => name.endsWith(".html")).sort();
});
afterAll(async () => {
  await browser?.close();
  await site?.close();
});

test("there is a page for the library, every routine and every workshop", async () => {
  const of = async (kind: string) =>
    (await readdir(join(content, kind))).map((name) => `${kind}/${name.replace(/\.md$/, "")}/index.html`);
  const own = ["404.html", "index.html", "offline.html"];
  expect(pages).toEqual([...own, ...(await of("routines")), ...(await of("workshops"))].sort());
});

test("every page is valid HTML", async () => {
  // Where each control acts at once, a submit button would do nothing: technique H32 is for forms that are sent.
  const rules: ConfigData["rules"] = {
    ...{ "wcag/h32": "off", "no-trailing-whitespace": "off", "long-title": "off" },
    // A table that a style sheet lays out as a list is no table to some engines, unless its roles say so.
    "prefer-native-element": ["error", { exclude: ["table", "cell"] }],
  };
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
      if (!/type="application\/(?:ld\+)?json"/.test(attributes ?? "")) expect(body, name).toBe("");
  }
});

/** A picture as the browser reads it. */
async function pictureAt(page: Page, address: string) {
  return page.evaluate(async (from) => {
    const blob = await (await fetch(from)).blob();
    const { width, height } = await createImageBitmap(blob);
    return { size: [width, height], bytes: await blob.text() };
  }, address);
}

describe("in the browser", () => {
  test("every page loads whole, with no error, no breach of its own policy and no request to another host", async () => {
    const visit = async (names: readonly string[]) => {
      const { page, watch } = await watchedPage(browser, site);
      for (const name of names) {
        await page.goto(site.url + name, { waitUntil: "networkidle" });
        expect(watch, name).toEqual({ troubles: [], foreign: [] });
      }
      await page.context().close();
    };
    const windows = [0, 1, 2, 3];
    await Promise.all(windows.map((one) => visit(pages.filter((_, index) => index % windows.length === one))));
  });

  test("without script the page shows what it takes, how it starts, the counts and where they fall in the track", async () => {
    const { page } = await watchedPage(browser, site, { javaScriptEnabled: false });
    await page.goto(site.url + routine);
    const text = await page.locator("main").innerText();
    for (const part of ["knee pads", "Facing right, weight on the left foot, standing", "Along the wall", "0:12.7"])
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

  test.concurrent.each([
    "index.html",
    routine,
    "routines/twelve-iron-steps/index.html",
    "workshops/winter-floor-day/index.html",
  ])("on %s nothing reaches past the side at four widths, at 100 and at 200 per cent text", async (name) => {
    const { page } = await watchedPage(browser, site);
    await page.goto(site.url + name);
    // A line of a running order, in the evening: no time is wider.
    await page.evaluate(() => {
      const line = '<h3><span class="clock">18:56</span> <span>The whole dance</span> <small>12 min</small></h3>';
      document.querySelector(".workshop")?.insertAdjacentHTML("beforeend", `<div class="block">${line}</div>`);
    });
    for (const size of ["106.25%", "212.5%"]) {
      await page.evaluate((text) => {
        document.documentElement.style.fontSize = text;
      }, size);
      for (const width of [1280, 768, 390, 320]) {
        await page.setViewportSize({ width, height: 800 });
        const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        expect(over, `${width} px at ${size}`).toBeLessThanOrEqual(0);
        const broken = await page.evaluate(
          () =>
            [...document.querySelectorAll(".block .clock")].filter((clock) => {
              const text = document.createRange();
              text.selectNodeContents(clock);
              return text.getClientRects().length > 1;
            }).length,
        );
        expect(broken, `times in two lines, ${width} px at ${size}`).toBe(0);
      }
    }
    await page.context().close();
  });

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

  /** What a browser's own parser makes of an XML file of the site. */
  const xml = async (from: TestSite, name: string) => {
    const { page } = await watchedPage(browser, from);
    await page.goto(`${from.url}index.html`);
    const found = await page.evaluate(async (path) => {
      const parsed = new DOMParser().parseFromString(await (await fetch(path)).text(), "application/xml");
      const texts = (tag: string) => [...parsed.getElementsByTagName(tag)].map(({ textContent }) => textContent ?? "");
      const root = `${parsed.documentElement.localName} ${parsed.documentElement.namespaceURI}`;
      const hrefs = [...parsed.getElementsByTagName("link")].map((link) => link.getAttribute("href") ?? "");
      return { root, hrefs, ids: texts("id"), updated: texts("updated"), titles: texts("title"), locs: texts("loc") };
    }, name);
    await page.context().close();
    return found;
  };

  test("the feed has what Atom (RFC 4287) asks for: ids of their own, times, titles, authors, full addresses", async () => {
    const { root, hrefs, ids, updated, titles } = await xml(site, "feed.xml");
    expect(root).toBe("feed http://www.w3.org/2005/Atom");
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.length).toBe(titles.length);
    for (const time of updated) expect(time).toMatch(/^\d{4}-\d\d-\d\dT00:00:00Z$/);
    expect(updated.slice(1)).toEqual([...updated.slice(1)].sort().reverse());
    // The feed itself, the library, and routines alone.
    for (const href of hrefs) expect(href).toMatch(/^https:\/\/saltmarsh\.example\/(feed\.xml|routines\/[^/]+\/)?$/);
  });

  test("the sitemap names every page with its full address (Sitemaps 0.9)", async () => {
    const { root, locs } = await xml(site, "sitemap.xml");
    expect(root).toBe("urlset http://www.sitemaps.org/schemas/sitemap/0.9");
    const listed = pages.filter((name) => !["404.html", "offline.html"].includes(name));
    const wanted = listed.map((name) => `https://saltmarsh.example/${name.replace(/index\.html$/, "")}`);
    expect([...locs].sort()).toEqual(wanted.sort());
  });

  test("a library without an address says nothing that only an address could say", async () => {
    const { library, routines } = await readContent(content);
    const { url: _, ...unpublished } = library;
    const one = routines.filter(({ slug }) => slug === "breakwater-letters");
    const bare = await publishedSite({ library: unpublished, routines: one, workshops: [] });
    const feed = await xml(bare, "feed.xml");
    expect(feed.ids.length).toBe(2);
    for (const id of feed.ids)
      expect(id).toMatch(/^urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-5[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    for (const href of feed.hrefs) expect(href).not.toMatch(/^[a-z]+:/);
    expect(await readdir(bare.folder)).not.toContain("sitemap.xml");
    const home = await readFile(join(bare.folder, "index.html"), "utf8");
    expect(home).toContain('"@type":"CollectionPage"');
    expect(home).not.toContain("ListItem");
    const text = await readFile(join(bare.folder, routine), "utf8");
    expect(text).not.toMatch(/canonical|og:image|og:url/);
    await bare.close();
  });

  test("a page says what it is: title, description, canonical address, and linked data with ISO 8601 durations", async () => {
    const { page } = await watchedPage(browser, site);
    await page.goto(site.url + routine);
    expect(await page.title()).toBe("Breakwater Letters · Saltmarsh Dance Room");
    const at = (selector: string, name: string) => page.locator(selector).getAttribute(name);
    expect(await at('link[rel="canonical"]', "href")).toBe("https://saltmarsh.example/routines/breakwater-letters/");
    expect(await at('meta[name="description"]', "content")).toMatch(/^A walk along a sea wall/);
    const pictures = new Set<string>();
    for (const folder of ["routines/breakwater-letters/", "workshops/winter-floor-day/", ""]) {
      await page.goto(`${site.url}${folder}index.html`);
      expect(await at('meta[property="og:image"]', "content")).toBe(`https://saltmarsh.example/${folder}preview.png`);
      const { size, bytes } = await pictureAt(page, `${site.url}${folder}preview.png`);
      expect(size).toEqual([1200, 630]);
      pictures.add(bytes);
    }
    expect(pictures.size).toBe(3);
    await page.goto(site.url + routine);
    const data = JSON.parse((await page.locator('script[type="application/ld+json"]').textContent()) ?? "");
    expect(data).toMatchObject({ "@context": "https://schema.org", "@type": "HowTo", performTime: "PT51.264S" });
    // Search engines want a video's picture and its day, which nobody has said.
    expect(data.video).toBeUndefined();
    expect(data.step[0]).toMatchObject({ "@type": "HowToStep", name: "Inhale", text: "2 counts" });
    expect(data.tool).toContainEqual({ "@type": "HowToTool", name: "knee pads" });
    await page.goto(`${site.url}workshops/winter-floor-day/index.html`);
    const event = JSON.parse((await page.locator('script[type="application/ld+json"]').textContent()) ?? "");
    expect(event).toMatchObject({ "@type": "EducationEvent", startDate: "2027-01-16", duration: "PT1H30M" });
    expect(event.location).toMatchObject({ "@type": "Place", address: expect.stringContaining("Saltmarsh") });
    await page.context().close();
  });

  test("what a browser draws around a page has the page's colour, and a phone has icons of the sizes that are said", async () => {
    const { page } = await watchedPage(browser, site);
    const { icons, theme_color, background_color } = JSON.parse(
      await readFile(join(site.folder, "manifest.webmanifest"), "utf8"),
    );
    const papers: string[] = [];
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      await page.goto(`${site.url}index.html`);
      const paper = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
      const said = await page.locator(`meta[name="theme-color"][media*="${colorScheme}"]`).getAttribute("content");
      const rgb = said?.match(/[0-9a-f]{2}/g)?.map((part) => Number.parseInt(part, 16));
      expect(`rgb(${rgb?.join(", ")})`).toBe(paper);
      papers.push(said ?? "");
    }
    expect([theme_color, background_color]).toEqual([papers[0], papers[0]]);
    const pngs = icons.filter(({ type }: { type: string }) => type === "image/png");
    expect(pngs.map(({ sizes }: { sizes: string }) => sizes)).toEqual(["192x192", "192x192", "512x512", "512x512"]);
    for (const { src, sizes } of pngs) expect((await pictureAt(page, site.url + src)).size.join("x")).toBe(sizes);
    await page.context().close();
  });
});

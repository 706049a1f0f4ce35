import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openBrowser } from "./browser.js";
import { demoSite, watchedPage } from "./site.js";

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

/** Paths of what the worker keeps, without the site's address. */
async function kept(page: Page): Promise<readonly string[]> {
  return page.evaluate(async () => {
    const shelf = await caches.open("visited");
    return (await shelf.keys()).map(({ url }) => new URL(url).pathname);
  });
}

test("after one visit a routine opens without a network, in every version, on both sides, and can be practised", async () => {
  const site = await demoSite();
  const { page, watch } = await watchedPage(browser, site);
  const path = "routines/breakwater-letters/index.html";
  await page.goto(site.url + path);
  const wanted = [`/${path}`, "/index.html", "/assets/style.css", "/assets/script/routine.js"];
  await expect.poll(() => kept(page), { timeout: 15_000 }).toEqual(expect.arrayContaining(wanted));
  const loaded = await page.evaluate(() => performance.getEntriesByType("resource").map(({ name }) => name));
  const own = loaded.filter((address) => address.startsWith(site.url)).map((address) => new URL(address).pathname);
  await expect.poll(() => kept(page), { timeout: 15_000 }).toEqual(expect.arrayContaining(own));
  expect(watch).toEqual({ troubles: [], foreign: [] });

  await site.close();
  await page.goto(`${site.url}${path}?version=3&side=mirrored`);
  expect(await page.locator("h1").innerText()).toBe("Breakwater Letters");
  expect(await page.evaluate(() => ({ ...document.documentElement.dataset }))).toMatchObject({
    version: "3",
    side: "mirrored",
  });
  expect(await page.evaluate(() => getComputedStyle(document.body).fontFamily)).toContain("Atkinson");
  expect(await page.evaluate(() => document.fonts.check("800 20px 'Atkinson Hyperlegible Next'"))).toBe(true);
  await page.locator("#practice").scrollIntoViewIfNeeded();
  await page.locator("#practice [data-start]:not([disabled])").first().waitFor({ state: "visible" });
  await page.getByRole("link", { name: "Saltmarsh Dance Room", exact: true }).click();
  expect(await page.locator(".card").count()).toBeGreaterThan(3);
  await page.context().close();
});

test("while there is a network, what it gives is shown and not what was kept", async () => {
  const site = await demoSite();
  const { page } = await watchedPage(browser, site);
  await page.goto(`${site.url}index.html`);
  await expect.poll(() => kept(page), { timeout: 15_000 }).toContain("/index.html");
  await page.evaluate(async () => {
    const old = new Response("<title>old</title>", { headers: { "content-type": "text/html" } });
    await (await caches.open("visited")).put("/index.html", old);
  });
  await page.reload();
  expect(await page.title()).toBe("Saltmarsh Dance Room");
  await page.context().close();
  await site.close();
});

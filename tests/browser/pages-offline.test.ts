// What runs inside the page is typed as a page; the build of src knows no DOM.
/// <reference lib="dom" />

import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Host } from "./browser.js";
import { openBrowser } from "./browser.js";
import { demoSite, type TestSite, watchedPage } from "./site.js";

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

/** Paths of what the worker keeps, without the site's address; on one shelf only, where its name begins so. */
async function kept(page: Page, shelf = ""): Promise<readonly string[]> {
  return page.evaluate(async (begins) => {
    const names = (await caches.keys()).filter((name) => name.startsWith(begins));
    const lists = names.map(async (name) => (await (await caches.open(name)).keys()).map(({ url }) => url));
    return (await Promise.all(lists)).flat().map((url) => new URL(url).pathname);
  }, shelf);
}

/** After a page was visited, until all that it was made of is kept. */
async function keptWhole(page: Page, site: TestSite): Promise<void> {
  const loaded = await page.evaluate(() => performance.getEntriesByType("resource").map(({ name }) => name));
  const own = loaded.filter((address) => address.startsWith(site.url)).map((address) => new URL(address).pathname);
  const wanted = [new URL(page.url()).pathname.replace(/\/$/, "/index.html"), "/index.html", "/assets/style.css"];
  await expect.poll(() => kept(page), { timeout: 15_000 }).toEqual(expect.arrayContaining([...wanted, ...own]));
}

const path = "routines/breakwater-letters/index.html";

test("after one visit a routine opens without a network, in every version, on both sides, and can be practised", async () => {
  // A browser refuses what was reached by a redirect, so no such answer may be kept as it is.
  const host: Host = { redirects: true };
  const site = await demoSite(host);
  const { page, watch } = await watchedPage(browser, site);
  await page.goto(site.url + path);
  await keptWhole(page, site);
  expect(watch).toEqual({ troubles: [], foreign: [] });

  // Connected, but to nothing: one short wait, and then counts and player. A machine that is busy has three goes.
  host.hangs = true;
  const opening = async () => {
    await page.goto("about:blank");
    const asked = Date.now();
    await page.goto(`${site.url}${path}#practice`, { waitUntil: "commit" });
    await page.locator(".part .move:visible").first().waitFor();
    const shown = Date.now() - asked;
    await page.locator("#practice [data-start]:not([disabled])").first().waitFor({ state: "visible" });
    return { shown, ready: Date.now() - asked };
  };
  const isLate = ({ shown, ready }: { shown: number; ready: number }) => shown >= 2000 || ready >= 2500;
  let went = await opening();
  for (let go = 1; go < 3 && isLate(went); go++) went = await opening();
  expect(isLate(went), JSON.stringify(went)).toBe(false);

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

  // As somebody types it, or as another page names it.
  await page.goto(`${site.url}routines/breakwater-letters?version=3`);
  expect(await page.locator("h1").innerText()).toBe("Breakwater Letters");
  expect(page.url()).toBe(`${site.url}routines/breakwater-letters/?version=3`);

  await page.goto(`${site.url}?q=breakwater`);
  expect(await page.locator(".card:visible").count()).toBe(1);
  await page.goto(`${site.url}index.html`);

  // What was never visited: a page that says what opens.
  await page.getByRole("link", { name: "Paper Boats" }).click();
  expect(await page.locator("h1").innerText()).toBe("Not on this device");
  await page.locator("[data-opens] a").nth(1).waitFor();
  expect(await page.locator("[data-opens] a").allInnerTexts()).toEqual(["Saltmarsh Dance Room", "Breakwater Letters"]);
  expect(await page.getByRole("link", { name: "Try it again" }).getAttribute("href")).toBe(
    `${site.url}routines/paper-boats/index.html`,
  );
  await page.getByRole("link", { name: "Breakwater Letters" }).click();
  expect(await page.locator("h1").innerText()).toBe("Breakwater Letters");
  await page.context().close();
});

test("while there is a network, what it gives is shown and not what was kept; one tap keeps a routine with its handouts", async () => {
  const site = await demoSite();
  const { page } = await watchedPage(browser, site);
  await page.goto(site.url + path);
  const offer = async (handout: string, said: string) => {
    await page.evaluate((href) => document.querySelector(".downloads a")?.setAttribute("href", href), handout);
    await page.getByRole("button", { name: "Keep this routine" }).click();
    await page.getByText(said).waitFor();
  };
  await offer("nowhere.pdf", "Not all of it could be kept");
  expect(await kept(page, "chosen")).not.toContain(`/${path}`);
  // This site is made without handouts: another file stands for one.
  await offer("counts.vtt?as.pdf", "are kept on this device");
  const chosen = [`/${path}`, "/routines/breakwater-letters/counts.vtt", "/assets/style.css"];
  expect(await kept(page, "chosen")).toEqual(expect.arrayContaining(chosen));
  await keptWhole(page, site);
  await page.evaluate(async () => {
    for (const name of await caches.keys()) {
      const old = new Response("<title>old</title>", { headers: { "content-type": "text/html" } });
      await (await caches.open(name)).put("/index.html", old);
    }
  });
  await page.goto(`${site.url}index.html`);
  expect(await page.title()).toBe("Saltmarsh Dance Room");
  await page.context().close();
  await site.close();
});

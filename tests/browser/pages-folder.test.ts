// What runs inside the page is typed as a page; the build of src knows no DOM.
/// <reference lib="dom" />

import { pathToFileURL } from "node:url";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { tone } from "../fixtures/tone.js";
import { made } from "../shared.js";
import { openBrowser } from "./browser.js";
import { watchedPage } from "./site.js";

/* What works when the folder lies on a memory stick and nobody serves it. */

/** What a browser says where it may not fetch ahead what the style sheet then fetches, nor what only an installed page needs. */
const askedAhead = /\.woff2|\.webmanifest|^Failed to load resource: net::ERR_FAILED$/;

let browser: Browser;
let folder: string;
beforeAll(async () => {
  [browser, folder] = await Promise.all([openBrowser(), made("demo")]);
});
afterAll(() => browser?.close());

test("from a folder a routine is practised, shared and linked to, and the library filters, with no error", async () => {
  const site = { folder, url: pathToFileURL(`${folder}/`).href, close: async () => {} };
  const { page, watch } = await watchedPage(browser, site);
  // A link to a folder, as it may stand in a text of the teacher's.
  await page.addInitScript(() => {
    document.addEventListener("readystatechange", () => {
      if (document.readyState === "interactive") document.querySelector(".site-head a")?.setAttribute("href", "../../");
    });
  });
  const search = () => page.evaluate(() => location.search);
  await page.goto(`${site.url}index.html?tempo=fast`);
  const all = await page.locator(".card").count();
  expect(await page.locator(".card:visible").count()).toBeLessThan(all);
  await page.locator("select[name=tempo]").selectOption("");
  expect(await page.locator(".card:visible").count()).toBe(all);
  expect(await search()).toBe("");
  await page.getByRole("searchbox").fill("breakwater");
  expect(await search()).toBe("?q=breakwater");

  await page.goto(`${site.url}routines/breakwater-letters/index.html?version=3&side=mirrored`);
  expect(await page.getByLabel("Level 3").isChecked()).toBe(true);
  await page.getByLabel("Level 1").check();
  expect(await search()).toBe("?version=1&side=mirrored");
  await page.locator("[data-share]").click();
  await expect.poll(() => page.locator("[data-shared]").innerText()).not.toBe("");
  expect(await page.locator("[data-kept]").innerText()).toContain("opened from a folder");
  await page.locator("#practice").scrollIntoViewIfNeeded();
  await page.locator("[data-desk] [data-start]:enabled").click();
  await page.locator(".practice .stage-page[data-state=count-in]").waitFor();
  await page.locator("[data-more] > summary").click();
  await page.locator("input[name=file]").setInputFiles({ name: "song.wav", mimeType: "audio/wav", buffer: tone(1) });
  await expect.poll(() => page.locator("audio").evaluate((audio: HTMLAudioElement) => audio.duration)).toBe(1);
  expect(await page.evaluate(() => [...document.fonts].some(({ status }) => status === "loaded"))).toBe(true);
  expect(watch.foreign).toEqual([]);
  expect(watch.troubles.filter((trouble) => !askedAhead.test(trouble))).toEqual([]);
  await page.getByRole("link", { name: "Saltmarsh Dance Room", exact: true }).click();
  expect(await page.locator(".card:visible").count()).toBe(all);
  await page.context().close();
});

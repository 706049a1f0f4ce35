// What runs inside the page is typed as a page; the build of src knows no DOM.
/// <reference lib="dom" />

import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect } from "vitest";
import { readContent } from "../../src/reading/read-content.js";
import { library } from "../publishing/fixtures/written.js";
import { nightFerry } from "../script/practice/night-ferry.js";
import { openBrowser } from "./browser.js";
import { publishedSite, type TestSite } from "./site.js";

/* A page with the player on it, as the tests of a file have it one after the other; what goes wrong on it fails the test. */

export let browser: Browser;
export let site: TestSite;
export let address: string;
export let page: Page;
const troubles: string[] = [];

/** To be called once in a file of tests: a site and a browser for all of them, and an empty list of troubles for each. */
export function practicePages(): void {
  beforeAll(async () => {
    const demo = await readContent(fileURLToPath(new URL("../../content", import.meta.url)));
    const duets = demo.routines.filter(({ slug }) => slug === "one-umbrella");
    const content = { library, routines: [nightFerry, ...duets], workshops: [] };
    [browser, site] = await Promise.all([openBrowser(), publishedSite(content)]);
    address = `${site.url}routines/night-ferry/#practice`;
  });
  afterAll(async () => {
    await browser?.close();
    await site?.close();
  });
  beforeEach(() => {
    troubles.length = 0;
  });
  afterEach(async () => {
    await page.close();
    expect(troubles).toEqual([]);
  });
}

/** Opens the page; `prepare` has it before it loads. */
export async function open(
  options: Parameters<Browser["newPage"]>[0] = {},
  at = address,
  prepare: (page: Page) => Promise<unknown> = async () => {},
): Promise<Page> {
  page = await browser.newPage(options);
  page.on("pageerror", (error) => troubles.push(String(error)));
  page.on("console", (message) => message.type() === "error" && troubles.push(message.text()));
  await prepare(page);
  await page.goto(at);
  if (options?.javaScriptEnabled !== false) await page.locator("[data-desk] [data-start]:enabled").waitFor();
  return page;
}

export const start = () => page.locator("[data-desk] [data-start]");

export async function untilState(state: string): Promise<void> {
  await page.locator(`.practice > .stage[data-state=${state}]`).waitFor();
}

export async function untilCount(count: string, state = "count"): Promise<void> {
  await page.waitForFunction(
    ([count, state]) =>
      document.querySelector(".stage [data-show=count]")?.textContent === count &&
      document.querySelector<HTMLElement>(".stage")?.dataset.state === state,
    [count, state] as const,
  );
}

// What runs inside the page is typed as a page; the build of src knows no DOM.
/// <reference lib="dom" />

import { fileURLToPath } from "node:url";
import type { Browser, BrowserContextOptions, Locator, Page } from "playwright-core";
import { afterAll, test as base, beforeAll, expect } from "vitest";
import { readContent } from "../../src/reading/read-content.js";
import { nightFerry } from "../fixtures/night-ferry.js";
import { library } from "../fixtures/written.js";
import { openBrowser } from "./browser.js";
import { publishedSite, type TestSite } from "./site.js";

/* Pages with the player on them. Tests wait for its clock, so that they run side by side, each on a page of its own. */

let browser: Browser;
let site: TestSite;

/** To be called once in a file of tests: a site and a browser for all of them. */
export function practicePages(): void {
  beforeAll(async () => {
    const demo = await readContent(fileURLToPath(new URL("../../content", import.meta.url)));
    const duets = demo.routines.filter(({ slug }) => ["one-umbrella", "candle-end"].includes(slug));
    const content = { library, routines: [nightFerry, ...duets], workshops: [] };
    [browser, site] = await Promise.all([openBrowser(), publishedSite(content)]);
  });
  afterAll(async () => {
    await browser?.close();
    await site?.close();
  });
}

/** A page with the player on it. */
export interface PracticePage {
  readonly page: Page;
  /** The button that starts and pauses. */
  readonly start: Locator;
  readonly stage: Locator;
  /** What the stage shows under a name. */
  readonly show: (what: string) => Locator;
  readonly untilState: (state: string) => Promise<void>;
  /** Waits for a count, and says what else the stage shows in the very same frame, by name. */
  readonly untilCount: (count: string, state?: string, stage?: string) => Promise<Readonly<Record<string, string>>>;
}

interface Opening extends BrowserContextOptions {
  readonly routine?: string;
  /** Leaves the fold of the further controls closed. */
  readonly folded?: boolean;
  /** Has the page before it loads. */
  readonly prepare?: (page: Page) => Promise<unknown>;
}

/** What Chromium says of the machine's own audio, which many pages at once may be too much for: no fault of a page. */
const device = /^The AudioContext encountered an error from the audio device/;

/** A test that opens pages; what goes wrong on one of them fails it. */
export const test = base.extend<{ readonly open: (opening?: Opening) => Promise<PracticePage> }>({
  open: async ({ task: _ }, use) => {
    const pages: Page[] = [];
    const troubles: string[] = [];
    await use(async ({ routine = "night-ferry", folded = false, prepare, ...options } = {}) => {
      const page = await browser.newPage(options);
      pages.push(page);
      page.on("pageerror", (error) => troubles.push(String(error)));
      page.on("console", (message) => message.type() === "error" && troubles.push(message.text()));
      await prepare?.(page);
      await page.goto(`${site.url}routines/${routine}/#practice`);
      if (options.javaScriptEnabled !== false) {
        await page.locator("[data-desk] [data-start]:enabled").waitFor();
        if (!folded) await page.locator("[data-more] > summary").click();
      }
      return practicePage(page);
    });
    for (const page of pages) await page.close();
    expect(troubles.filter((trouble) => !device.test(trouble))).toEqual([]);
  },
});

function practicePage(page: Page): PracticePage {
  const stage = page.locator(".practice .stage-page");
  return {
    page,
    stage,
    start: page.locator("[data-desk] [data-start]"),
    show: (what) => stage.locator(`[data-show=${what}]`),
    untilState: (state) => page.locator(`.practice .stage-page[data-state=${state}]`).waitFor(),
    untilCount: async (count, state = "count", stage = ".stage") => {
      const seen = await page.waitForFunction(
        ([count, state, selector]) => {
          const stage = document.querySelector<HTMLElement>(selector);
          const parts = [...(stage?.querySelectorAll<HTMLElement>("[data-show]") ?? [])];
          const shown = Object.fromEntries(parts.map((part) => [part.dataset.show, part.textContent]));
          return stage?.dataset.state === state && shown.count === count ? shown : undefined;
        },
        [count, state, stage] as const,
      );
      return (await seen.jsonValue()) ?? {};
    },
  };
}

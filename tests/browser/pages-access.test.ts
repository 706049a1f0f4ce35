import { createRequire } from "node:module";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { long } from "../runs.js";
import { openBrowser } from "./browser.js";
import { demoSite, type TestSite, watchedPage } from "./site.js";

const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
let browser: Browser;
let site: TestSite;

beforeAll(async () => {
  [browser, site] = await Promise.all([openBrowser(), demoSite()]);
});
afterAll(async () => {
  await browser?.close();
  await site?.close();
});

interface Found {
  readonly id: string;
  readonly nodes: readonly { readonly target: readonly string[] }[];
}

/** What axe finds on the page as it stands, WCAG 2.2 AA and its best practices; run with the page's own policy set aside. */
async function violations(page: Page, rules?: readonly string[]): Promise<readonly string[]> {
  await page.addScriptTag({ path: axe });
  const found = await page.evaluate(async (rules) => {
    type Axe = { run(options: object): Promise<{ violations: Found[] }> };
    // What is in order is not listed one by one, which takes most of the time.
    const only = rules === undefined ? {} : { runOnly: rules };
    const { axe } = globalThis as unknown as { axe: Axe };
    return (await axe.run({ resultTypes: ["violations"], ...only })).violations;
  }, rules);
  return found.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(" ")).join("; ")}`);
}

/** WCAG 2.2, relative luminance and contrast ratio, of two colours as the browser computes them. */
function contrast(one: string, other: string): number {
  const light = (colour: string) => {
    const [r = 0, g = 0, b = 0] = (colour.match(/[\d.]+/g) ?? []).map((part) => {
      const value = Number(part) / 255;
      return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const [bright = 0, dark = 0] = [light(one), light(other)].sort((a, b) => b - a);
  return (bright + 0.05) / (dark + 0.05);
}

test.concurrent.each([
  "index.html",
  "routines/breakwater-letters/index.html",
  "routines/fourpenny-gate/index.html",
  "workshops/winter-floor-day/index.html",
])("axe finds nothing on %s, wide and narrow, light and dark", async (name) => {
  const { page } = await watchedPage(browser, site, { bypassCSP: true, reducedMotion: "reduce" });
  // A second routine's page differs from the first in what stands in it, so it is looked at wide; the first is below, all of it open.
  const widths = name.includes("fourpenny") ? [1280] : name.includes("breakwater") ? [320] : [1280, 320];
  for (const width of long ? [1280, 320] : widths) {
    await page.setViewportSize({ width, height: 900 });
    await page.emulateMedia({ colorScheme: "light" });
    await page.goto(site.url + name);
    expect(await violations(page), `${width}`).toEqual([]);
    // In the dark nothing differs but the colours.
    await page.emulateMedia({ colorScheme: "dark" });
    expect(await violations(page, ["color-contrast"]), `${width} dark`).toEqual([]);
  }
  await page.context().close();
});

describe.each(["light", "dark"] as const)("in the %s scheme", (colorScheme) => {
  // In the dark nothing differs but the colours.
  const rules = colorScheme === "dark" ? ["color-contrast"] : undefined;
  const open = async (name: string, width = 1280) => {
    const options = {
      colorScheme,
      bypassCSP: true,
      viewport: { width, height: 900 },
      reducedMotion: "reduce",
    } as const;
    const { page } = await watchedPage(browser, site, options);
    await page.goto(site.url + name);
    return page;
  };

  test.concurrent("axe finds nothing with another version, mirrored, everything shown and every fold open", async () => {
    const page = await open("routines/breakwater-letters/index.html");
    await page.getByLabel("Level 3").check();
    await page.getByLabel("Mirrored", { exact: true }).check();
    await page.getByLabel("show the other versions beside every move").check();
    const folded = page.locator("details:not([open]) > summary:visible");
    while ((await folded.count()) > 0) await folded.first().click();
    await page.getByRole("button", { name: "Copy the link to this view" }).click();
    expect(await violations(page, rules)).toEqual([]);
    await page.context().close();
  });

  test.concurrent("axe finds nothing while the player runs, in the page and seen from afar", async () => {
    const page = await open("routines/breakwater-letters/index.html", 390);
    await page.locator("#practice").scrollIntoViewIfNeeded();
    await page.locator("#practice").getByRole("button", { name: "Start" }).click();
    await page.locator("#practice .stage:not([data-state=rest])").first().waitFor();
    expect(await violations(page, rules)).toEqual([]);
    await page.getByRole("button", { name: "From afar" }).click();
    expect(await violations(page, rules)).toEqual([]);
    await page.context().close();
  });

  test.concurrent("axe finds nothing where filters leave some routines, and none", async () => {
    const page = await open("index.html", 390);
    await page.locator("[data-fold]").click();
    await page.getByRole("combobox", { name: "Floor work" }).selectOption("yes");
    expect(await violations(page, rules)).toEqual([]);
    await page.getByLabel("Search").fill("no such dance");
    expect(await page.locator(".card:visible").count()).toBe(0);
    expect(await violations(page, rules)).toEqual([]);
    await page.context().close();
  });

  test.concurrent("count and cue stand out by 7 to 1, everything that is written by 4.5 to 1", async () => {
    const page = await open("routines/breakwater-letters/index.html");
    const colours = await page.evaluate(() => {
      const ground = (element: Element | null): string => {
        const own = element ? getComputedStyle(element).backgroundColor : "";
        return element && /^rgba\(.*, 0\)$/.test(own) ? ground(element.parentElement) : own;
      };
      return [...document.querySelectorAll<HTMLElement>(".counts *")]
        .filter(
          (element) => element.checkVisibility() && [...element.childNodes].some(({ nodeType }) => nodeType === 3),
        )
        .map((element) => ({
          strict: element.closest(".on, .cue") !== null && !element.closest(".mark"),
          name: element.className,
          ink: getComputedStyle(element).color,
          paper: ground(element),
        }));
    });
    expect(colours.length).toBeGreaterThan(100);
    // Red is a hit, and nothing else.
    const red = colours.find(({ name }) => name === "mark")?.ink;
    expect([...new Set(colours.filter(({ ink }) => ink === red).map(({ name }) => name))]).toEqual(["mark"]);
    for (const { strict, name, ink, paper } of colours)
      expect(contrast(ink, paper), name).toBeGreaterThanOrEqual(strict ? 7 : 4.5);
    await page.context().close();
  });
});

/** The player takes its controls into use when it comes near the window: goes there, waits, and comes back. */
async function furnished(page: Page): Promise<void> {
  for (const start of await page.locator("[data-start]:visible").all()) {
    await start.scrollIntoViewIfNeeded();
    await expect.poll(() => start.isEnabled(), { timeout: 15_000 }).toBe(true);
  }
  await page.evaluate(() => scrollTo(0, 0));
}

test("every control and link is reached by the Tab key, in the order of the page, and shows that it has the focus", async () => {
  for (const name of ["index.html", "routines/breakwater-letters/index.html"]) {
    const { page } = await watchedPage(browser, site);
    await page.goto(site.url + name);
    await furnished(page);
    const visited: number[] = [];
    const bare: string[] = [];
    for (let step = 0; step < 400; step++) {
      await page.keyboard.press("Tab");
      const at = await page.evaluate(() => {
        const element = document.activeElement as HTMLElement | null;
        if (!element || element === document.body) return undefined;
        const shown = element.matches(".pills input") ? (element.nextElementSibling as HTMLElement) : element;
        const { outlineStyle, outlineWidth } = getComputedStyle(shown);
        const outlined = outlineStyle !== "none" && Number.parseFloat(outlineWidth) >= 2;
        return {
          place: [...document.querySelectorAll("*")].indexOf(element),
          outlined,
          name: element.outerHTML.slice(0, 80),
        };
      });
      if (!at) break;
      visited.push(at.place);
      if (!at.outlined) bare.push(at.name);
    }
    expect(bare).toEqual([]);
    expect(visited).toEqual([...visited].sort((a, b) => a - b));
    // One radio button of a group is reached by Tab, the others by arrow keys.
    const wanted = await page.evaluate(() => {
      const all = [
        ...document.querySelectorAll<HTMLElement>("a[href], button, input, select, summary, [tabindex='0']"),
      ];
      return all.filter((e) => e.checkVisibility() && !e.matches(":disabled, [type=radio]:not(:checked)")).length;
    });
    expect(visited.length).toBeGreaterThanOrEqual(wanted);
    await page.context().close();
  }
});

test.concurrent("the skip link leads to the content", async () => {
  const { page } = await watchedPage(browser, site);
  await page.goto(`${site.url}routines/breakwater-letters/index.html`);
  await page.keyboard.press("Tab");
  expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("Skip to the content");
  await page.keyboard.press("Enter");
  await page.waitForURL((url) => url.hash === "#main");
  await page.context().close();
});

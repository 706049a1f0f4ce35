import { readFile } from "node:fs/promises";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { course } from "../../src/publishing/course/publisher.js";
import { plan as planPublisher } from "../../src/publishing/plan/publisher.js";
import type { OutFile } from "../../src/publishing/publisher.js";
import { publishSite } from "../../src/publishing/site/publish-site.js";
import { contextOf } from "../fixtures/context.js";
import { sixEvenings } from "../fixtures/six-evenings.js";
import { library } from "../teaching/builder.js";
import { openBrowser } from "./browser.js";
import { demoSite, type TestSite, watchedPage } from "./site.js";

let browser: Browser;
let site: TestSite;
let page: Page;

beforeAll(async () => {
  [browser, site] = await Promise.all([openBrowser(), demoSite()]);
});
afterAll(async () => {
  await browser?.close();
  await site?.close();
});
beforeEach(async () => {
  ({ page } = await watchedPage(browser, site));
  await page.goto(`${site.url}index.html`);
  return () => page.context().close();
});

const titles = async () => (await page.locator(".card:visible h3").allInnerTexts()).sort();
const left = () => page.locator("[data-left]").innerText();

/** The facts of the demo library, from the file that is published beside the page. */
async function facts(): Promise<
  readonly { title: string; styles: string[]; audience: string; countsPerMinute: number }[]
> {
  return JSON.parse(await readFile(join(site.folder, "library.json"), "utf8")).routines;
}

test("at first every routine is there, newest first, and so it is without script", async () => {
  const all = (await facts()).map(({ title }) => title);
  expect(await page.locator(".card:visible h3").allInnerTexts()).toEqual(all);
  expect(await left()).toBe(`${all.length} routines`);
  const bare = await watchedPage(browser, site, { javaScriptEnabled: false });
  await bare.page.goto(`${site.url}index.html`);
  expect(await bare.page.locator(".card:visible h3").allInnerTexts()).toEqual(all);
  expect(await bare.page.locator(".filter:visible").count()).toBe(0);
  await bare.page.context().close();
});

test.each(["index.html", "routines/breakwater-letters/index.html"])(
  "nothing on %s moves when its script comes late",
  async (name) => {
    const late = await watchedPage(browser, site, { viewport: { width: 390, height: 844 } });
    await late.page.route("**/*.js", async (route) => {
      await new Promise((done) => setTimeout(done, 250));
      await route.continue();
    });
    await late.page.addInitScript(() => {
      Object.assign(globalThis, { moved: 0 });
      new PerformanceObserver((list) => {
        for (const entry of list.getEntries())
          (globalThis as unknown as { moved: number }).moved += (entry as unknown as { value: number }).value;
      }).observe({ type: "layout-shift", buffered: true });
    });
    await late.page.goto(site.url + name);
    await late.page.locator("html[data-script]").waitFor({ state: "attached" });
    const moved = await late.page.evaluate(async () => {
      for (let frame = 0; frame < 3; frame++) await new Promise(requestAnimationFrame);
      return (globalThis as unknown as { moved: number }).moved;
    });
    // What a face that comes late moves by a hair is none of the script's.
    expect(moved).toBeLessThan(0.002);
    await late.page.context().close();
  },
);

test("a card far out of sight is laid out only when it comes near, so that many are filtered as quickly as few", async () => {
  const laidOut = () =>
    page.locator(".card h3").evaluateAll((all) => all.map((e) => e.checkVisibility({ contentVisibilityAuto: true })));
  await page.setViewportSize({ width: 390, height: 400 });
  await expect.poll(async () => (await laidOut()).at(-1)).toBe(false);
  await page.locator(".card h3 a").last().focus();
  await expect.poll(async () => (await laidOut()).at(-1)).toBe(true);
});

test("filters work together, say how many are left and keep their state in the address", async () => {
  const all = await facts();
  await page.getByRole("combobox", { name: "Tempo" }).selectOption("medium");
  const medium = all.filter(({ countsPerMinute }) => countsPerMinute >= 90 && countsPerMinute < 120);
  expect(await titles()).toEqual(medium.map(({ title }) => title).sort());
  await page.getByRole("combobox", { name: "Style" }).selectOption("line dance");
  const both = medium.filter(({ styles }) => styles.includes("line dance"));
  expect(both.length).toBeGreaterThan(0);
  expect(both.length).toBeLessThan(medium.length);
  expect(await titles()).toEqual(both.map(({ title }) => title).sort());
  expect(await left()).toBe(`${both.length} of ${all.length} routines`);

  const guest = await watchedPage(browser, site);
  await guest.page.goto(page.url());
  expect(await guest.page.locator(".card:visible").count()).toBe(both.length);
  expect(await guest.page.getByRole("combobox", { name: "Style" }).inputValue()).toBe("line dance");
  await guest.page.context().close();
});

test("on a phone the filters fold under one button, which says how many are set", async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  const [fold, style] = [page.locator("[data-fold]"), page.getByRole("combobox", { name: "Style" })];
  expect([await style.isVisible(), await page.getByLabel("Search").isVisible()]).toEqual([false, true]);
  expect([await fold.innerText(), await fold.getAttribute("aria-expanded")]).toEqual(["Filters", "false"]);
  await fold.click();
  await style.selectOption("waltz");
  expect([await fold.innerText(), await fold.getAttribute("aria-expanded")]).toEqual(["Filters (1 set)", "true"]);
  await fold.click();
  expect([await style.isVisible(), await titles()]).toEqual([false, ["The Lock-keeper's Waltz"]]);
  await page.setViewportSize({ width: 768, height: 844 });
  expect([await style.isVisible(), await fold.isVisible()]).toEqual([true, false]);
});

test("adult-only routines are marked and can be left out", async () => {
  const marked = page.locator(".card:visible", { hasText: "Adults only" });
  const adult = (await facts()).filter(({ audience }) => audience === "adult").map(({ title }) => title);
  expect(adult.length).toBeGreaterThan(0);
  expect(await marked.locator("h3").allInnerTexts()).toEqual(adult);
  await page.getByLabel("leave out adults only").check();
  expect(await marked.count()).toBe(0);
  expect(new URL(page.url()).searchParams.get("adult")).toBe("out");
});

test("a wish for no floor work is about the version that is wished for", async () => {
  await page.getByRole("combobox", { name: "Floor work" }).selectOption("no");
  expect(await titles()).toContain("Breakwater Letters");
  await page.getByRole("combobox", { name: "Version" }).selectOption("seated");
  expect(await titles()).toEqual(["Breakwater Letters"]);
  await page.getByRole("combobox", { name: "Version" }).selectOption("3");
  expect(await titles()).not.toContain("Breakwater Letters");
});

test("the search looks for every word, in titles, songs, styles and sections", async () => {
  await page.getByLabel("Search").fill("ferry tideline");
  expect(await titles()).toEqual(["Breakwater Letters"]);
  await page.getByLabel("Search").fill("TIDELINE waltz");
  expect(await titles()).toEqual([]);
  expect(await page.getByText("No routine fits all of that").isVisible()).toBe(true);
  await page.locator(".none").getByRole("button").click();
  expect((await titles()).length).toBe((await facts()).length);
  expect(new URL(page.url()).search).toBe("");
});

test("a wish that the library does not know is no wish", async () => {
  await page.goto(`${site.url}index.html?style=%22%3E%3Cimg&tempo=sideways`);
  expect((await titles()).length).toBe((await facts()).length);
  expect(await left()).toBe(`${(await facts()).length} routines`);
});

test("a card leads to its routine, and back keeps the filters", async () => {
  await page.getByRole("combobox", { name: "Style" }).selectOption("waltz");
  await page.locator(".card:visible h3 a").click();
  await page.waitForURL("**/routines/lock-keepers-waltz/**");
  await page.goBack();
  expect(await titles()).toEqual(["The Lock-keeper's Waltz"]);
});

test("classes stand in the order of their next dates, and those that are over are folded away", async () => {
  const { workshops } = JSON.parse(await readFile(join(site.folder, "library.json"), "utf8"));
  const [latest, middle, first] = workshops.map(({ title }: { title: string }) => title);
  // Between the first and the second of the demo library's three days.
  await page.clock.setFixedTime(new Date(`${workshops[1].date}T12:00:00`));
  await page.reload();
  const shown = page.locator("[data-workshops] h3");
  expect(await shown.allInnerTexts()).toEqual([middle, latest]);
  expect(await page.getByRole("link", { name: first }).isVisible()).toBe(false);
  await page.getByText("Past classes and workshops").click();
  expect(await page.getByRole("link", { name: first }).isVisible()).toBe(true);
});

test("the page of a course says what last time was, and what next time is", async () => {
  const path = "workshops/class/index.html";
  const [plan] = (await planPublisher.publish(sixEvenings, contextOf(library))) as readonly OutFile[];
  const sheets = course.declare?.(sixEvenings, contextOf(library)) ?? [];
  const files = plan ? [plan, ...sheets] : sheets;
  const context = { library, findings: [], files, textOf: () => String(plan?.content) };
  const made = await publishSite({ library, routines: [], workshops: [{ subject: sixEvenings, context }] });
  const body = String(made.find((file) => file.path === path)?.content);
  // A worker of the site would ask for the page itself.
  const { page: visit } = await watchedPage(browser, site, { serviceWorkers: "block" });
  await visit.route(`**/${path}`, (route) => route.fulfill({ body, contentType: "text/html" }));
  const shownOn = async (day: string) => {
    await visit.clock.setFixedTime(new Date(`${day}T20:00:00`));
    await visit.goto(site.url + path);
    return (await visit.locator("[data-around] > :visible").allInnerTexts()).map((text) => text.split(/\n+/));
  };
  const first = ["Next time", "Lesson 1 Thursday 7 January 2027", "“A” in Title of first"];
  expect(await shownOn("2027-01-07")).toEqual([first]);
  const [last, next] = await shownOn("2027-01-15");
  expect(last).toEqual([
    "Last time",
    "Lesson 2 Thursday 14 January 2027",
    "“B” in Title of first",
    "Lesson 2, for dancers to take home PDF",
  ]);
  expect(next?.slice(0, 3)).toEqual(["Next time", "Lesson 3 Thursday 21 January 2027", "“C” in Title of first"]);
  expect((await shownOn("2027-03-01")).map(([head]) => head)).toEqual(["Last time"]);
  await visit.context().close();
});

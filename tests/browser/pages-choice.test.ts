import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { formerPages } from "../../src/publishing/site/former.js";
import { contextOf } from "../fixtures/context.js";
import { readPages } from "../fixtures/read-pdf.js";
import { danced, library, move, phrase, section } from "../fixtures/written.js";
import { openBrowser } from "./browser.js";
import { demoSite, type TestSite, watchedPage } from "./site.js";

const routine = "routines/breakwater-letters/index.html";
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
  await page.goto(site.url + routine);
  return () => page.context().close();
});

const chosen = () => page.evaluate(() => ({ ...document.documentElement.dataset }));
const cues = () => page.locator(".move:visible .cue").allInnerTexts();

test("a level shows its own moves in place of the taught ones, its gear and its cautions, and the address says so", async () => {
  const taught = await cues();
  expect(taught).toContain("Quarter turn left, opening onto the right foot");
  await page.getByLabel("Level 3").check();
  const third = await cues();
  expect(third).toContain("One and a quarter turns left, tall, then onto the right foot");
  expect(third).not.toContain("Quarter turn left, opening onto the right foot");
  expect(await page.locator(".gear li:visible").allInnerTexts()).toContainEqual(expect.stringMatching(/^mat:/));
  expect(await page.locator(".care-list li:visible").allInnerTexts()).toContainEqual(expect.stringMatching(/^spin/i));
  expect(new URL(page.url()).searchParams.get("version")).toBe("3");
  expect(await chosen()).toMatchObject({ version: "3", side: "as-taught" });
});

test("a version on a chair starts on the chair and goes nowhere near the floor", async () => {
  await page.getByLabel("Seated", { exact: true }).check();
  expect(await page.locator(".stance:visible").allInnerTexts()).toEqual([expect.stringContaining("chair")]);
  expect(await page.locator(".body:visible", { hasText: /lying|knees|floor/ }).count()).toBe(0);
});

test("mirrored exchanges words, steps and facings, says what it is for, and leads to both videos as before", async () => {
  const facings = () => page.locator(".facing:visible").allInnerTexts();
  const feet = () => page.locator(".body:visible", { hasText: "foot" }).allInnerTexts();
  const swap = (text: string) => text.replace(/left|right/g, (word) => (word === "left" ? "right" : "left"));
  const [before, steps] = [await facings(), await feet()];
  expect(before.some((text) => text !== swap(text))).toBe(true);
  const videos = () =>
    page
      .locator(".part:visible")
      .nth(1)
      .locator("a:visible", { hasText: "Breakdown" })
      .evaluateAll((links) => links.map((link) => link.getAttribute("href")));
  const both = ["slowly#t=70", "slowly-mirrored#t=70"].map(
    (end) => `https://saltmarsh.example/watch/breakwater-letters-${end}`,
  );
  expect(await videos()).toEqual(both);
  const use = page.getByText("To dance it on the other side, or to follow somebody who faces you.");
  expect(await use.isVisible()).toBe(false);
  await page.getByLabel("Mirrored", { exact: true }).check();
  expect(await facings()).toEqual(before.map(swap));
  expect(await feet()).toEqual(steps.map(swap));
  expect(await videos()).toEqual(both);
  expect(await use.isVisible()).toBe(true);
});

test("the link that is copied shows somebody else exactly what was seen", async () => {
  await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
  await page.getByLabel("Level 1").check();
  await page.getByLabel("Mirrored", { exact: true }).check();
  await page.getByLabel("show the other versions beside every move").check();
  const seen = await page.locator(".counts").innerText();
  await page.getByRole("button", { name: "Copy the link to this view" }).click();
  await expect.poll(() => page.locator("[data-shared]").innerText()).toContain("copied");
  const link = await page.evaluate(() => navigator.clipboard.readText());
  const guest = await watchedPage(browser, site);
  await guest.page.goto(link);
  expect(await guest.page.locator(".counts").innerText()).toBe(seen);
  await guest.page.context().close();
});

test("the counts are one table, in columns or as a list; all groups stand in it once, a chosen one with its own words", async () => {
  await page.goto(`${site.url}routines/one-umbrella/index.html`);
  const quay = page.getByRole("table", { name: "On the quay" });
  const row = quay.getByRole("row").nth(1);
  const tops = () =>
    row.getByRole("cell").evaluateAll((all) => new Set(all.map((one) => one.getBoundingClientRect().top)).size);
  const heads = async () => (await quay.getByRole("columnheader").allTextContents()).slice(0, 9);
  // The first phrase: 1, 2, 3-4, 5, 6, 7-8, beside each other or one under the other.
  for (const [width, lines] of [
    [1280, 1],
    [768, 1],
    [767, 6],
  ] as const) {
    await page.setViewportSize({ width, height: 900 });
    expect(await row.getByRole("cell").count()).toBe(6);
    expect(await tops(), `${width}`).toBe(lines);
    expect(await heads()).toEqual(["Phrase", "1 accent", "2", "3", "4", "5", "6", "7", "8"]);
  }
  const first = row.locator(".move:visible").first();
  expect(await row.getByRole("rowheader").innerText()).toContain("Early, and Late on the other side");
  expect(await row.locator(".move:visible").count()).toBe(6);
  expect(await first.innerText()).toContain("Right foot forward");
  await page.getByLabel("Late", { exact: true }).check();
  expect(await row.locator(".move:visible").count()).toBe(6);
  expect(await first.innerText()).toContain("Left foot forward");
  expect(await row.getByRole("rowheader").innerText()).not.toContain("Early");
});

test("a count has an address, and an answer to copy that says what is danced there", async () => {
  await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
  await page.getByLabel("Level 3").check();
  const turn = page.locator(".move:visible", { hasText: "One and a quarter turns left" }).first();
  await turn.locator(".on").click();
  const address = new URL(page.url());
  expect(address.hash).toBe("#along-the-wall-2-1");
  await turn.getByRole("button", { name: "Copy an answer" }).click();
  await expect.poll(() => turn.getByRole("status").innerText()).toContain("Copied");
  expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(
    "Those are counts 1–2 of Along the wall, phrase 2 (Level 3): " +
      `One and a quarter turns left, tall, then onto the right foot. ${address.href}`,
  );
  // Who opens it sees the count, and may answer in turn.
  const guest = await watchedPage(browser, site);
  await guest.page.goto(address.href);
  const asked = guest.page.locator(".move:visible", { hasText: "One and a quarter turns left" }).first();
  await asked.getByRole("button", { name: "Copy an answer" }).waitFor();
  expect(await asked.evaluate((move) => move.getBoundingClientRect().top < innerHeight)).toBe(true);
  await guest.page.context().close();
});

test.each([
  [true, "?version=3&side=mirrored#section-2"],
  [false, ""],
])(
  "an address that a routine had before leads to where it is now (script: %s), with its view",
  async (script, view) => {
    const old = danced({
      slug: "breakwater-letters",
      title: "Breakwater Letters",
      formerly: ["sea-wall"],
      sections: [section("Wall", [phrase([move("1-8", "Walk")])])],
    });
    const [former] = await formerPages.publish(old, contextOf(library));
    const guest = await watchedPage(browser, site, { javaScriptEnabled: script });
    await guest.page.route("**/routines/sea-wall/**", (route) =>
      route.fulfill({ contentType: "text/html", body: String(former?.content) }),
    );
    await guest.page.goto(`${site.url}routines/sea-wall/index.html?version=3&side=mirrored#section-2`);
    await guest.page.waitForURL(`${site.url}${routine}${view}`);
    const third = guest.page.getByText("One and a quarter turns right, tall, then onto the left foot");
    await expect.poll(async () => (await third.filter({ visible: true }).count()) > 0).toBe(script);
    await guest.page.context().close();
    // A page that leads on before it has all that it asked for drops that.
    expect(guest.watch.troubles.filter((trouble) => !trouble.startsWith("failed:"))).toEqual([]);
  },
);

test("an address with a version that the routine does not have shows the taught one", async () => {
  await page.goto(`${site.url}${routine}?version=%3Cb%3E&side=inside-out`);
  expect(await chosen()).toMatchObject({ version: "2", side: "as-taught" });
});

test("what other versions dance stands beside a move that asks for care, and beside every move on request", async () => {
  const risky = page.locator(".move.risky:visible");
  const plain = page.locator(".move:not(.risky):visible").filter({ has: page.locator(".others") });
  expect(await risky.locator(".others:visible").count()).toBeGreaterThan(0);
  expect(await plain.locator(".others:visible").count()).toBe(0);
  await page.getByLabel("show the other versions beside every move").check();
  expect(await plain.locator(".others:visible").count()).toBeGreaterThan(0);
});

test("version and side are chosen by keyboard alone", async () => {
  await page.locator("#v1").focus();
  await page.keyboard.press("ArrowRight");
  expect(await chosen()).toMatchObject({ version: "3" });
  await page.keyboard.press("Tab");
  await page.keyboard.press("Space");
  expect(await chosen()).toMatchObject({ version: "3", side: "mirrored" });
});

test("where the reader's own colours are forced, what is chosen has other ones than what is not, and facings are seen", async () => {
  await page.emulateMedia({ forcedColors: "active" });
  await page.getByLabel("Mirrored", { exact: true }).check();
  const ground = (selector: string, part?: string) =>
    page
      .locator(selector)
      .first()
      .evaluate((e, part) => getComputedStyle(e, part).backgroundColor, part);
  const [paper, chosen, side] = await Promise.all(
    ["body", ".pills input:checked + span", "#mirrored + span"].map((one) => ground(one)),
  );
  expect(await ground(".pills input:not(:checked) + span")).toBe(paper);
  expect([chosen, side]).not.toContain(paper);
  expect(await ground("#mirrored + span", "::before")).not.toBe(side);
  for (const sign of [".facing", ".hit", ".care"])
    expect(await ground(`${sign}:visible`, "::before"), sign).not.toBe(paper);
});

test("what is printed is the version and side that are chosen, without the controls", async () => {
  await page.getByLabel("Level 3").check();
  await page.emulateMedia({ media: "print" });
  expect(await page.locator(".choice, .practice, .button, .site-head").filter({ visible: true }).count()).toBe(0);
  expect(await cues()).toContain("One and a quarter turns left, tall, then onto the right foot");
  expect(await page.locator(".counts h2").innerText()).toBe("The counts, Level 3");
  // Every phrase has a page that it stands on whole, under its own time.
  const bare = (text: string) => text.replace(/\s+/g, "");
  const phrases = await page
    .locator(".phrase:visible")
    .evaluateAll((all) =>
      all.map((phrase) =>
        [...phrase.querySelectorAll<HTMLElement>(".head .clock, .cue")]
          .filter((part) => part.checkVisibility())
          .map(({ innerText }) => innerText),
      ),
    );
  const pages = await readPages(await page.pdf({ format: "A4" }));
  const sheets = pages.map(({ boxes }) => bare(boxes.map(({ text }) => text).join("")));
  expect(sheets.length).toBeGreaterThan(2);
  expect(phrases.length).toBeGreaterThan(8);
  for (const parts of phrases)
    expect(
      sheets.some((sheet) => parts.every((part) => sheet.includes(bare(part)))),
      parts.join(" "),
    ).toBe(true);
});

/** Where the top of what is jumped to lies below the foot of the choice, in pixels. */
const roomBelowChoice = (target: string) =>
  page.evaluate((selector) => {
    const bottom = (of: string) => document.querySelector(of)?.getBoundingClientRect().bottom ?? Number.NaN;
    return (document.querySelector(selector)?.getBoundingClientRect().top ?? Number.NaN) - bottom(".choice");
  }, target);

test.each([true, false])("on a phone the choice covers no heading that is jumped to (script: %s)", async (script) => {
  await page.context().close();
  ({ page } = await watchedPage(browser, site, { javaScriptEnabled: script, viewport: { width: 390, height: 800 } }));
  for (const name of [routine, "routines/one-umbrella/index.html"])
    for (const target of ["#section-2", "#counts", "#videos"]) {
      await page.goto(`${site.url}${name}${target}`);
      const fits = async () => {
        const room = await roomBelowChoice(target);
        return room >= 0 && (room < 40 || !script);
      };
      await expect.poll(fits, { message: `${name}${target}`, timeout: 5_000 }).toBe(true);
    }
});

test("a dance that goes several times through says how it is built, and mirrored where each time starts", async () => {
  await page.goto(`${site.url}routines/vane-and-weathercock/index.html`);
  expect(await page.locator(".form li").allInnerTexts()).toEqual([
    "32 counts, 4 walls, 6 times through.",
    "Gust: 4 counts, on walls 2 and 4.",
    "Last bow: 4 counts, on wall 6.",
    "Restart: wall 5 breaks off after 16 counts.",
    "The walls start facing front, right, back, left, front, front.",
  ]);
  expect(await page.locator(".part .clocks").first().innerText()).toMatch(/^wall 1 0:16\.5 · wall 2 0:33\.6 · /);
  await page.getByLabel("Mirrored", { exact: true }).check();
  expect(await page.locator(".form li").last().innerText()).toContain("front, left, back, right, front, front");
});

test("a routine that begins with a pick-up says which number its first count has", async () => {
  expect(await page.locator(".facts").innerText()).toMatch(/First count \(7\) at\s+0:11\.3/);
  expect(await page.locator(".fold", { has: page.locator("#start") }).innerText()).toContain(
    "6 counts in, then the first count (7) at 0:11.3",
  );
});

/**
 * An engine of 2021 as far as these pages notice: features that later ones have are switched off in the style sheet and the page.
 * Those are `:has`, `light-dark()`, `adoptedStyleSheets`, `findLast` and `findLastIndex`.
 */
async function olderPage(options: Parameters<typeof watchedPage>[2] = {}) {
  const { page, watch } = await watchedPage(browser, site, { colorScheme: "dark", ...options });
  await page.route("**/style.css", async (route) => {
    const style = await (await route.fetch()).text();
    await route.fulfill({
      contentType: "text/css",
      body: style.replaceAll(":has(", ":later(").replaceAll("light-dark(", "later("),
    });
  });
  await page.addInitScript(() => {
    for (const [of, name] of [
      [Document.prototype, "adoptedStyleSheets"],
      [Array.prototype, "findLast"],
      [Array.prototype, "findLastIndex"],
    ] as const)
      Reflect.deleteProperty(of, name);
  });
  await page.goto(site.url + routine);
  return { page, watch };
}

test("an older engine without script shows the taught version on one side alone, by the palette, and no choice that is none", async () => {
  const { page: older } = await olderPage({ javaScriptEnabled: false });
  expect(await older.locator(".move:visible .cue").allInnerTexts()).toEqual(await cues());
  expect(await older.locator(".choice, #beside").filter({ visible: true }).count()).toBe(0);
  const { color, background } = await older
    .locator("body")
    .evaluate((body) => ({ color: getComputedStyle(body).color, background: getComputedStyle(body).backgroundColor }));
  expect([color, background]).toEqual(["rgb(246, 235, 221)", "rgb(27, 21, 19)"]);
  await older.context().close();
});

test("an older engine with script chooses by the script, on an opaque bar, and its player works", async () => {
  const { page: older, watch } = await olderPage();
  for (const [at, name] of [
    [page, "Level 3"],
    [older, "Level 3"],
    [page, "Mirrored"],
    [older, "Mirrored"],
  ] as const)
    await at.getByLabel(name, { exact: true }).check();
  expect(await older.locator(".move:visible .cue").allInnerTexts()).toEqual(await cues());
  const bar = older.locator(".choice");
  const [ground, edge] = await bar.evaluate((e) => [
    getComputedStyle(e).backgroundColor,
    getComputedStyle(e.querySelector(".pills span") ?? e).borderTopColor,
  ]);
  expect([ground, edge]).toEqual(["rgb(27, 21, 19)", "rgb(143, 123, 108)"]);
  await older.locator(".practice").scrollIntoViewIfNeeded();
  await older.locator("[data-start]:enabled").first().click();
  await older.locator(".stage[data-state=count-in]").first().waitFor();
  expect(watch.troubles).toEqual([]);
  await older.context().close();
});

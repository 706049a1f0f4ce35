// What runs inside the page is typed as a page; the build of src knows no DOM.
/// <reference lib="dom" />
/// <reference lib="dom.iterable" />

import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { readContent } from "../../src/reading/read-content.js";
import { library } from "../publishing/fixtures/written.js";
import { nightFerry } from "../script/practice/night-ferry.js";
import { launchBrowser } from "./browser.js";
import { publishedSite, type TestSite } from "./site.js";

let browser: Browser;
let site: TestSite;
let address: string;
let page: Page;
const troubles: string[] = [];

beforeAll(async () => {
  const demo = await readContent(fileURLToPath(new URL("../../content", import.meta.url)));
  const duets = demo.routines.filter(({ slug }) => slug === "one-umbrella");
  const content = { library, routines: [nightFerry, ...duets], workshops: [] };
  [browser, site] = await Promise.all([launchBrowser(), publishedSite(content)]);
  address = `${site.url}routines/night-ferry/#practice`;
});
afterAll(async () => {
  await browser?.close();
  await site?.close();
});

async function open(options: Parameters<Browser["newPage"]>[0] = {}, at = address): Promise<Page> {
  page = await browser.newPage(options);
  page.on("pageerror", (error) => troubles.push(String(error)));
  page.on("console", (message) => message.type() === "error" && troubles.push(message.text()));
  await page.goto(at);
  if (options?.javaScriptEnabled !== false) await page.locator("[data-desk] [data-start]:enabled").waitFor();
  return page;
}
beforeEach(() => {
  troubles.length = 0;
});
afterEach(async () => {
  await page.close();
  expect(troubles).toEqual([]);
});

const start = () => page.locator("[data-desk] [data-start]");
const stage = () => page.locator(".practice > .stage");
const show = (what: string) => stage().locator(`[data-show=${what}]`);
const news = () => page.locator("[data-news]").textContent();
const speed = () => page.locator("[data-speed]").textContent();

async function untilState(state: string): Promise<void> {
  await page.locator(`.practice > .stage[data-state=${state}]`).waitFor();
}

async function untilCount(count: string, state = "count"): Promise<void> {
  await page.waitForFunction(
    ([count, state]) =>
      document.querySelector(".stage [data-show=count]")?.textContent === count &&
      document.querySelector<HTMLElement>(".stage")?.dataset.state === state,
    [count, state] as const,
  );
}

describe("practice", () => {
  test("without script there is no player, and nothing of it in the way", async () => {
    await open({ javaScriptEnabled: false });
    expect(await page.locator(".practice").isVisible()).toBe(false);
    expect(await page.getByRole("heading", { level: 1 }).isVisible()).toBe(true);
  });

  test("start: counted in, then the counts with cue and next cue; pause, and go on from the phrase", async () => {
    await open();
    await page.getByRole("button", { name: "100 %" }).click();
    expect(await speed()).toBe("100 %, 92 counts a minute");
    await start().click();
    await untilCount("6", "count-in");
    expect(await show("kicker").textContent()).toBe("Count-in, then");
    expect(await show("cue").textContent()).toBe("Lean into an unseen rail, left palm flat on it");
    await untilCount("2");
    expect(await show("section").textContent()).toBe("Gangway");
    expect(await show("next").textContent()).toBe("Push off onto the left foot");
    await untilCount("7");
    expect(await show("call").textContent()).toBe("and melt");
    await untilCount("2");
    expect(await start().textContent()).toBe("Pause");
    await start().click();
    expect(await news()).toBe("Paused.");
    await untilState("rest");
    expect(await show("count").textContent()).toBe("1");
    expect(await show("cue").textContent()).toBe("hold");
    expect(await start().textContent()).toBe("Go on");
    await start().click();
    await untilCount("8", "count-in");
    await untilCount("3");
    expect(await show("cue").textContent()).toMatch("Left heel taps");
  });

  test("one section again and again, then once more and out", async () => {
    await open();
    await page.getByRole("button", { name: "Practise Whistle" }).click();
    await page.getByLabel("a count-in before every round").uncheck();
    await page.getByRole("button", { name: "Faster" }).click({ clickCount: 7 });
    expect(await speed()).toMatch(/^110 %/);
    await start().click();
    for (const count of ["1", "4", "1", "3", "1"]) await untilCount(count);
    expect(await show("section").textContent()).toBe("Whistle");
    await page.getByLabel("again and again").uncheck();
    await page.waitForFunction(() => document.querySelector("[data-news]")?.textContent === "End of the run.");
    expect(await start().textContent()).toBe("Start");
    await untilState("rest");
  });

  test("a run of sections can't end before it begins, and from the top is all of them", async () => {
    await open();
    const [from, to] = [page.locator("[name=from]"), page.locator("[name=to]")];
    await to.selectOption({ label: "Gangway" });
    await from.selectOption({ label: "Whistle" });
    expect(await to.inputValue()).toBe("1");
    await to.selectOption({ label: "Gangway" });
    expect(await from.inputValue()).toBe("0");
    await from.selectOption({ label: "Gangway again, 2nd time, other side" });
    expect(await show("cue").textContent()).toBe("Lean into an unseen rail, right palm flat on it");
    await page.getByRole("button", { name: "From the top" }).click();
    expect([await from.inputValue(), await to.inputValue()]).toEqual(["0", "3"]);
    await untilState("count-in");
    expect(await news()).toBe("Started: Gangway, 75 %.");
  });

  test("another speed holds from the next count on, without a jump", async () => {
    await page?.close();
    page = await browser.newPage();
    await page.addInitScript(() => {
      const at: number[] = [];
      Object.assign(window, { at });
      const play = AudioBufferSourceNode.prototype.start;
      const mute = AudioBufferSourceNode.prototype.disconnect;
      AudioBufferSourceNode.prototype.start = function (when = 0) {
        Object.assign(this, { due: when });
        at.push(when);
        play.call(this, when);
      };
      AudioBufferSourceNode.prototype.disconnect = function (...rest: unknown[]) {
        // Clicks that were taken back before they sounded are none.
        const { due } = this as unknown as { due: number };
        if (due > this.context.currentTime) at.splice(at.indexOf(due), 1);
        mute.apply(this, rest as unknown as [AudioParam, number]);
      };
    });
    await page.goto(address);
    await page.getByRole("button", { name: "100 %" }).click();
    await start().click();
    await untilCount("3");
    await page.getByLabel("Speed, per cent of the tempo").fill("50");
    await untilCount("6");
    const at = await page.evaluate(() => (window as unknown as { at: number[] }).at);
    const gaps = at.slice(1).map((time, index) => time - (at[index] ?? 0));
    const turn = gaps.findIndex((gap) => gap > 1);
    // Heard on 3, changed before 4: the count from 3 to 4 keeps its length, the one after it is twice as long.
    expect(turn).toBeGreaterThanOrEqual(6);
    expect(turn).toBeLessThanOrEqual(8);
    for (const [index, gap] of gaps.entries()) expect(gap).toBeCloseTo((60 / 92) * (index < turn ? 1 : 2), 6);
  });

  test("works itself up, round by round", async () => {
    await open();
    await page.getByRole("button", { name: "Practise Whistle" }).click();
    await page.getByLabel("a count-in before every round").uncheck();
    await page.getByLabel("Speed, per cent of the tempo").fill("100");
    await page.getByLabel("work it up, round by round").check();
    await page.getByLabel("after every").fill("1");
    await page.getByLabel("up to").fill("108");
    await start().click();
    await page.waitForFunction(() => document.querySelector("[data-speed]")?.textContent?.startsWith("105 %"));
    await page.waitForFunction(() => document.querySelector("[data-speed]")?.textContent?.startsWith("108 %"));
  });

  test("the version and the side of the page are followed at once", async () => {
    await open();
    await page.getByLabel("Mirrored").check({ force: true });
    expect(await show("cue").textContent()).toBe("Lean into an unseen rail, right palm flat on it");
    await start().click();
    await untilCount("3");
    expect(await show("next").textContent()).toBe("Push off onto the right foot");
    await page.getByLabel("Mirrored").uncheck({ force: true });
    await page.getByLabel("seated").check({ force: true });
    await untilCount("4");
    expect(await show("cue").textContent()).toBe("Push off with the left hand");
  });
});

test("in a routine for groups it says whose counts it shows, and shows those of the group chosen", async () => {
  await open({}, `${site.url}routines/one-umbrella/#practice`);
  expect(await show("section").textContent()).toBe("On the quay, Early");
  expect(await show("cue").textContent()).toBe("Right foot forward");
  await page.getByLabel("Late", { exact: true }).check({ force: true });
  expect(await show("section").textContent()).toBe("On the quay, Late");
  expect(await show("cue").textContent()).toBe("Left foot forward");
});

describe("by keyboard alone", () => {
  const focused = () => page.evaluate(() => document.activeElement?.textContent?.trim());

  test("every control can be reached, and the keys work in the player only", async () => {
    await open();
    await page.keyboard.press("p");
    expect(await start().textContent()).toBe("Start");
    for (let i = 0; i < 60 && (await focused()) !== "Start"; i++) await page.keyboard.press("Tab");
    expect(await focused()).toBe("Start");
    await page.keyboard.press("Enter");
    expect(await start().textContent()).toBe("Pause");
    await page.keyboard.press("p");
    expect(await start().textContent()).toBe("Go on");
    await page.keyboard.press("-");
    expect(await speed()).toMatch(/^70 %/);
    await page.keyboard.press("+");
    expect(await speed()).toMatch(/^75 %/);
    await page.keyboard.press("r");
    expect(await page.getByLabel("again and again").isChecked()).toBe(false);
    await page.keyboard.press("t");
    expect(await news()).toBe("Started: Gangway, 75 %.");
    // A letter in a list of sections finds a section there.
    await page.locator("[name=from]").focus();
    await page.keyboard.press("p");
    expect(await start().textContent()).toBe("Pause");

    const wanted = await page.evaluate(
      () =>
        [...document.querySelectorAll(".practice > form :is(button, select, input, summary)")].filter((e) =>
          e.checkVisibility({ contentVisibilityAuto: true }),
        ).length,
    );
    await page.locator("#practice-title").click();
    const reached = new Set<string>();
    for (let i = 0; i < wanted + 8; i++) {
      await page.keyboard.press("Tab");
      const name = await page.evaluate(() => {
        const { activeElement: at } = document;
        if (!at?.closest(".practice")) return "";
        const { outlineStyle, outlineWidth } = getComputedStyle(at);
        return `${[...document.querySelectorAll("*")].indexOf(at)} ${outlineStyle === "solid" && Number.parseFloat(outlineWidth) >= 2}`;
      });
      if (name) reached.add(name);
    }
    expect(reached.size).toBe(wanted);
    expect([...reached].every((name) => name.endsWith("true"))).toBe(true);
  });

  test("from afar and back", async () => {
    await open();
    await start().focus();
    await page.keyboard.press("f");
    const afar = page.getByRole("dialog", { name: "Seen from afar" });
    await afar.waitFor();
    await page.keyboard.press("p");
    await untilCount("2");
    expect(await afar.locator("[data-show=count]").textContent()).toBe("2");
    expect(await afar.locator("[data-show=next]").textContent()).toBe("Push off onto the left foot");
    expect(await afar.getByRole("button").allInnerTexts()).toEqual(["Pause", "Back to the page"]);
    await page.keyboard.press("f");
    await afar.waitFor({ state: "hidden" });
    await page.keyboard.press("f");
    await afar.waitFor();
    await page.keyboard.press("Escape");
    await afar.waitFor({ state: "hidden" });
    expect(await start().textContent()).toBe("Pause");
    expect(await focused()).toBe("Pause");
  });
});

describe("for every eye and hand", () => {
  const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
  const violations = async () => {
    // The page's policy lets no script be added to it, but a debugger may still run one.
    await page.evaluate(await (await import("node:fs/promises")).readFile(axe, "utf8"));
    return page.evaluate(async () => {
      const { axe } = window as unknown as {
        axe: { run: (at: string, o: object) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
      };
      const found = await axe.run(".practice", {
        runOnly: ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"],
      });
      return found.violations.map(({ id, nodes }) => [id, ...nodes.map(({ html }) => html)].join(" "));
    });
  };

  for (const colorScheme of ["light", "dark"] as const)
    test(`no violation at rest, running, with everything open and from afar, ${colorScheme}`, async () => {
      await open({ colorScheme, reducedMotion: "reduce" });
      expect(await violations()).toEqual([]);
      for (const summary of await page.locator(".practice summary").all()) await summary.click();
      await page.getByLabel("work it up, round by round").check();
      await start().click();
      await untilState("count-in");
      expect(await violations()).toEqual([]);
      await page.getByRole("button", { name: "See it from afar" }).click();
      expect(await violations()).toEqual([]);
    });

  for (const colorScheme of ["light", "dark"] as const)
    test(`from afar every text has a contrast of 7:1, ${colorScheme}`, async () => {
      await open({ colorScheme, viewport: { width: 844, height: 390 } });
      await page.getByRole("button", { name: "See it from afar" }).click();
      const contrasts = await page.evaluate(() => {
        const canvas = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
        // WCAG 2.2, "relative luminance" and "contrast ratio".
        const luminance = (color: string) => {
          if (!canvas) return Number.NaN;
          canvas.fillStyle = color;
          canvas.fillRect(0, 0, 1, 1);
          const [r = 0, g = 0, b = 0] = [...canvas.getImageData(0, 0, 1, 1).data].map((part) => {
            const share = part / 255;
            return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
          });
          return 0.2126 * r + 0.7152 * g + 0.0722 * b;
        };
        const ratio = (a: number, b: number) => (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
        const dialog = document.querySelector<HTMLElement>("dialog");
        const stage = dialog?.querySelector<HTMLElement>(".stage");
        if (!dialog || !stage) return [];
        const paper = luminance(getComputedStyle(stage).backgroundColor);
        stage.toggleAttribute("data-accent", true);
        const accent = luminance(getComputedStyle(stage.querySelector(".stage-count") ?? stage).color);
        const texts = [...dialog.querySelectorAll(".stage p")].map((p) => luminance(getComputedStyle(p).color));
        return [accent, ...texts].map((ink) => ratio(ink, paper));
      });
      expect(contrasts.length).toBeGreaterThan(6);
      expect(Math.min(...contrasts)).toBeGreaterThanOrEqual(7);
    });

  test("from afar the texts are large enough for two or three metres, and none is cut off", async () => {
    await open({ viewport: { width: 844, height: 390 } });
    await page.getByRole("button", { name: "See it from afar" }).click();
    await page.getByRole("dialog").getByRole("button", { name: "Start" }).click();
    await untilCount("1");
    const boxes = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>("dialog [data-fit]")].map((box) => ({
        size: Number.parseFloat(getComputedStyle(box).fontSize),
        cut:
          box.scrollWidth > box.clientWidth ||
          [...box.children].some(
            (part) => part.getBoundingClientRect().bottom > box.getBoundingClientRect().bottom + 1,
          ),
      })),
    );
    // On a phone 844 px are some 14 cm: 24 px are 4 mm, the letters of an eye chart's 6/12 line at two and a half metres
    // being 3.6 × 2 mm high, ten minutes of arc.
    expect(boxes).toHaveLength(3);
    expect(boxes.map(({ cut }) => cut)).toEqual([false, false, false]);
    expect(boxes[0]?.size).toBeGreaterThan(200);
    expect(boxes[1]?.size).toBeGreaterThan(40);
    expect(boxes[2]?.size).toBeGreaterThan(30);
  });

  for (const [width, text] of [
    [320, 100],
    [390, 100],
    [320, 200],
    [844, 200],
  ] as const)
    test(`${width} px wide with text at ${text} % nothing needs sideways scrolling, and hands find their targets`, async () => {
      await open({ viewport: { width, height: 700 } });
      for (const summary of await page.locator(".practice summary").all()) await summary.click();
      await page.getByLabel("work it up, round by round").check();
      await page.evaluate((text) => {
        document.documentElement.style.fontSize = `${(17 * text) / 100}px`;
        dispatchEvent(new Event("resize"));
      }, text);
      await start().click();
      await untilCount("6", "count-in");
      const { beyond, small, cut } = await page.evaluate(() => ({
        beyond: [...document.querySelectorAll(".practice *")]
          .filter((part) => part.getBoundingClientRect().right > innerWidth + 0.5)
          .map((part) => part.outerHTML),
        small: [...document.querySelectorAll<HTMLElement>(".practice > form :is(button, select, input, summary)")]
          .map((control) => control.closest(".desk-tick") ?? control)
          .filter((control) => control.checkVisibility() && control.getBoundingClientRect().height < 47.9)
          .map((control) => control.outerHTML),
        cut: [...document.querySelectorAll<HTMLElement>(".practice > .stage [data-fit]")].filter(
          (box) => box.scrollWidth > box.clientWidth,
        ).length,
      }));
      expect(beyond).toEqual([]);
      expect(small).toEqual([]);
      expect(cut).toBe(0);
    });

  test("nothing moves for a learner who wants no motion", async () => {
    const animated = () =>
      page.evaluate(() => {
        const stage = document.querySelector<HTMLElement>(".stage");
        stage?.toggleAttribute("data-accent", true);
        return [...document.querySelectorAll(".practice *")].filter(
          (at) => getComputedStyle(at).animationName !== "none" || getComputedStyle(at).transitionDuration !== "0s",
        ).length;
      });
    await open({ reducedMotion: "no-preference" });
    expect(await animated()).toBeGreaterThan(0);
    await page.close();
    await open({ reducedMotion: "reduce" });
    expect(await animated()).toBe(0);
  });

  test("the screen is kept awake while it runs, and no longer", async () => {
    await page?.close();
    page = await browser.newPage();
    await page.addInitScript(() => {
      const held = { now: 0 };
      Object.assign(window, { held });
      const request = async () => {
        held.now += 1;
        const release = async () => {
          held.now -= 1;
        };
        return { release };
      };
      Object.defineProperty(navigator, "wakeLock", { value: { request } });
    });
    await page.goto(address);
    const held = () => page.evaluate(() => (window as unknown as { held: { now: number } }).held.now);
    await start().click();
    await untilState("count-in");
    expect(await held()).toBe(1);
    await start().click();
    await untilState("rest");
    expect(await held()).toBe(0);
  });
});

// What runs inside the page is typed as a page; the build of src knows no DOM.
/// <reference lib="dom" />
/// <reference lib="dom.iterable" />

import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";
import { describe } from "vitest";
import { type PracticePage, practicePages, test } from "./practice-page.js";

practicePages();

describe("for every eye and hand", () => {
  const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
  const violations = async (page: Page) => {
    // The page's policy lets no script be added to it, but a debugger may still run one.
    await page.evaluate(await readFile(axe, "utf8"));
    return page.evaluate(async () => {
      const { axe } = window as unknown as {
        axe: { run: (at: string, o: object) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
      };
      const found = await axe.run(".practice", {
        resultTypes: ["violations"],
        runOnly: ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"],
      });
      return found.violations.map(({ id, nodes }) => [id, ...nodes.map(({ html }) => html)].join(" "));
    });
  };

  for (const colorScheme of ["light", "dark"] as const)
    test.concurrent(`no violation at rest, running, with everything open and from afar, ${colorScheme}`, async ({
      open,
      expect,
    }) => {
      const { page, start, untilState } = await open({ colorScheme, reducedMotion: "reduce" });
      expect(await violations(page)).toEqual([]);
      await start.click();
      await untilState("count-in");
      expect(await violations(page)).toEqual([]);
      await page.getByRole("button", { name: "From afar" }).click();
      expect(await violations(page)).toEqual([]);
    });

  for (const colorScheme of ["light", "dark"] as const)
    test.concurrent(`from afar every text has a contrast of 7:1, ${colorScheme}`, async ({ open, expect }) => {
      const { page } = await open({ colorScheme, viewport: { width: 844, height: 390 } });
      await page.getByRole("button", { name: "From afar" }).click();
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

  for (const [width, height] of [
    [390, 844],
    [844, 390],
  ] as const)
    test.concurrent(`from afar the move leads at ${width} × ${height}, large enough for three metres, and nothing is cut off`, async ({
      open,
      expect,
    }) => {
      const { page } = await open({ viewport: { width, height } });
      await page.getByRole("button", { name: "From afar" }).click();
      const seen = await page.evaluate(() => {
        const stage = document.querySelector<HTMLElement>("dialog .stage");
        const text = stage?.querySelector<HTMLElement>(".stage-text");
        const box = stage?.querySelector<HTMLElement>(".stage-cue");
        if (!stage || !text || !box) return undefined;
        // Twenty-four characters, no word longer than eight.
        text.textContent = "Lean back, opening right";
        dispatchEvent(new Event("resize"));
        const ex = text.appendChild(document.createElement("span"));
        Object.assign(ex.style, { display: "inline-block", width: "1ex", position: "absolute" });
        const cut = [...stage.querySelectorAll<HTMLElement>("[data-fit]")].some(
          (one) =>
            one.scrollWidth > one.clientWidth ||
            [...one.children].some(
              (part) => part.getBoundingClientRect().bottom > one.getBoundingClientRect().bottom + 1,
            ),
        );
        const row = stage.querySelector(".stage-row")?.getBoundingClientRect();
        return {
          height: ex.getBoundingClientRect().width,
          weight: getComputedStyle(text).fontWeight,
          cut,
          row: row !== undefined && row.right <= innerWidth && row.height > 30,
        };
      });
      // Six millimetres on a screen whose 844 px are 150 mm: letters of an eye chart's 6/18 line, read at three metres, are 4.4 mm.
      expect(seen).toMatchObject({ weight: "700", cut: false, row: true });
      expect(seen?.height).toBeGreaterThanOrEqual((6 * 844) / 150);
    });

  for (const [width, text] of [
    [320, 100],
    [390, 100],
    [320, 200],
    [844, 200],
  ] as const)
    test.concurrent(`${width} px wide with text at ${text} % nothing needs sideways scrolling, and hands find their targets`, async ({
      open,
      expect,
    }) => {
      const { page, start, untilCount } = await open({ viewport: { width, height: 700 } });
      await page.evaluate((text) => {
        document.documentElement.style.fontSize = `${(17 * text) / 100}px`;
        dispatchEvent(new Event("resize"));
      }, text);
      await Promise.all([untilCount("6", "count-in"), start.click()]);
      const { beyond, small, cut } = await page.evaluate(() => ({
        beyond: [...document.querySelectorAll(".practice *")]
          .filter((part) => part.getBoundingClientRect().right > innerWidth + 0.5)
          .map((part) => part.outerHTML),
        small: [...document.querySelectorAll<HTMLElement>(".practice form :is(button, select, input, summary)")]
          .map((control) => control.closest(".desk-tick") ?? control)
          .filter((control) => control.checkVisibility() && control.getBoundingClientRect().height < 47.9)
          .map((control) => control.outerHTML),
        cut: [...document.querySelectorAll<HTMLElement>(".practice .stage-page [data-fit]")].filter(
          (box) => box.scrollWidth > box.clientWidth,
        ).length,
      }));
      expect(beyond).toEqual([]);
      expect(small).toEqual([]);
      expect(cut).toBe(0);
    });

  test.concurrent("nothing moves for a learner who wants no motion", async ({ open, expect }) => {
    const animated = ({ page }: PracticePage) =>
      page.evaluate(() => {
        const stage = document.querySelector<HTMLElement>(".stage");
        stage?.toggleAttribute("data-accent", true);
        return [...document.querySelectorAll(".practice *")].filter(
          (at) => getComputedStyle(at).animationName !== "none" || getComputedStyle(at).transitionDuration !== "0s",
        ).length;
      });
    expect(await animated(await open({ reducedMotion: "no-preference" }))).toBeGreaterThan(0);
    expect(await animated(await open({ reducedMotion: "reduce" }))).toBe(0);
  });

  test.concurrent("the screen is kept awake while it runs, and no longer", async ({ open, expect }) => {
    const { page, start, untilState } = await open({
      prepare: (page) =>
        page.addInitScript(() => {
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
        }),
    });
    const held = () => page.evaluate(() => (window as unknown as { held: { now: number } }).held.now);
    await start.click();
    await untilState("count-in");
    expect(await held()).toBe(1);
    await start.click();
    await untilState("rest");
    expect(await held()).toBe(0);
  });
});

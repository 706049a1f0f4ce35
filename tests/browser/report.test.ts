import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { HtmlValidate } from "html-validate";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { reportPage } from "../../src/build/draft/report-page.js";
import { sheetOf } from "../../src/build/draft/sheet.js";
import type { Draft } from "../../src/hearing/types.js";
import { en } from "../../src/wording/en.js";
import { harbourWall, move } from "../build/draft/harbour-wall.js";
import { hostilePatterns } from "../fixtures/hostile-patterns.js";
import { tone } from "../fixtures/tone.js";
import { openBrowser } from "./browser.js";

const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
let browser: Browser;
let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "countleaf-report-"));
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await rm(folder, { recursive: true });
});

const pageOf = (draft: Draft, title = "Harbour Wall") => reportPage(draft, sheetOf(draft, en), title, en);

/** The report in a browser that has no network; what goes wrong on it is listed. */
async function open(name: string, text: string, options: Parameters<Browser["newContext"]>[0] = {}) {
  const path = join(folder, `${name}.html`);
  await writeFile(path, text);
  const context = await browser.newContext({ offline: true, ...options });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("console", (message) => message.type() === "error" && faults.push(message.text()));
  page.on("dialog", (dialog) => {
    faults.push(dialog.message());
    void dialog.dismiss();
  });
  page.on("request", (request) => /^(file|blob|data):/.test(request.url()) || faults.push(request.url()));
  await page.goto(pathToFileURL(path).href);
  return { page, faults, close: () => context.close() };
}

const text = (page: Page, selector: string) => page.locator(selector).allInnerTexts();

describe("the report on a draft", () => {
  test("plays her own film from each time, once she has chosen it, and sends nothing anywhere", async () => {
    const { page, faults, close } = await open("film", pageOf(harbourWall));
    const time = page.getByRole("button", { name: "Play from 1:15" });
    await time.click();
    expect(await page.evaluate(() => document.activeElement?.id)).toBe("film");
    await page
      .getByLabel("Choose the film")
      .setInputFiles({ name: "film.wav", mimeType: "audio/wav", buffer: tone(100) });
    await time.click();
    const at = () => page.evaluate(() => document.querySelector("video")?.currentTime ?? 0);
    await expect.poll(at).toBeGreaterThanOrEqual(75);
    expect(await at()).toBeLessThan(80);
    expect(await page.evaluate(() => document.querySelector("video")?.src)).toMatch(/^blob:/);
    expect(faults).toEqual([]);
    await close();
  });

  test("has a row a run and a column a count, the draft last, and says what differs in words too", async () => {
    const { page, close } = await open("table", pageOf(harbourWall));
    const table = page.locator("table").first();
    expect(await table.locator("caption").innerText()).toBe("harbour wall, phrase 1");
    expect(await table.locator("thead th").allInnerTexts()).toEqual(["Run", ..."12345678"]);
    const rows = await table
      .locator("tbody tr")
      .evaluateAll((all) =>
        all.map((row) => [...row.children].map((cell) => (cell.textContent ?? "").replace(/\s+/g, " ").trim())),
      );
    expect(rows).toEqual([
      ["Run 1 1:35", "step", "together", "drag", "", "", "clap", ""],
      ["Run 2 3:20", "step", "together", "", "", "", "", "clap", "other than the draft: look"],
      ["Run 3 5:30", "step", "together", "drag", "", "other than the draft: clap", "", ""],
      ["Draft", "step", "together", "drag", "", "", "clap (a question)", ""],
    ]);
    expect((await text(page, "#questions ~ ol .where"))[1]).toBe("harbour wall, phrase 1, on 7");
    const short = page.locator("table").nth(1);
    expect(await short.locator("thead th").allInnerTexts()).toEqual(["Run", "1", "1&", "2", "3", "4"]);
    await close();
  });

  test("is sound HTML in which nobody's words run, whatever they are", async () => {
    const said = (words: string) => ({ at: 1, text: words });
    const phrases = hostilePatterns.map((words) => ({
      calledAt: [1],
      moves: [move("1", words, { trust: "likely", unsure: [said(words)] })],
      told: [{ kind: "easier", said: said(words), on: words } as const],
      rows: [{ run: 0, at: 1, cells: [{ on: "2", text: words, at: 1 }] }],
    }));
    const draft: Draft = {
      ...harbourWall,
      sections: hostilePatterns.map((name, index) => ({ name, taughtAt: 1, phrases: phrases.slice(index, index + 1) })),
    };
    const html = pageOf(draft, hostilePatterns[0]);
    const { page, faults, close } = await open("hostile", html);
    expect(await page.locator("script, iframe, img, a, object, embed, form, svg").count()).toBe(1);
    expect(faults).toEqual([]);
    await close();
    const rules = {
      "no-inline-style": "off",
      "require-sri": "off",
      "long-title": "off",
      "doctype-style": "off",
    } as const;
    const validator = new HtmlValidate({ root: true, extends: ["html-validate:recommended"], rules });
    const report = await validator.validateString(pageOf(harbourWall));
    expect(
      report.results.flatMap(({ messages }) => messages.map(({ ruleId, message }) => `${ruleId}: ${message}`)),
    ).toEqual([]);
  });

  test.each([
    ["light", 1280],
    ["dark", 390],
  ] as const)(
    "axe finds nothing on it in the %s scheme, %d pixels wide, and it is no wider",
    async (colorScheme, width) => {
      const options = { colorScheme, bypassCSP: true, viewport: { width, height: 900 } };
      const { page, close } = await open(`axe-${colorScheme}`, pageOf(harbourWall), options);
      if (process.env.DESK_LOOK)
        await page.screenshot({ path: `${process.env.DESK_LOOK}/${colorScheme}-${width}.png`, fullPage: true });
      await page.addScriptTag({ path: axe });
      const found = await page.evaluate(async () => {
        type Axe = { run(options: object): Promise<{ violations: { id: string }[] }> };
        return (await (globalThis as unknown as { axe: Axe }).axe.run({ resultTypes: ["violations"] })).violations;
      });
      expect(found.map(({ id }) => id)).toEqual([]);
      const wide = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(wide).toBe(0);
      await close();
    },
  );
});

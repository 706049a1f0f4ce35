import { mkdir, mkdtemp, readdir, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type ConfigData, HtmlValidate } from "html-validate";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readContent } from "../../src/reading/read-content.js";
import { hostilePatterns } from "../fixtures/hostile-patterns.js";
import { long } from "../runs.js";
import { openBrowser } from "./browser.js";
import { publishedSite, type TestSite, watchedPage } from "./site.js";

let browser: Browser;
let site: TestSite;
let folder: string;

/** Quoted for YAML, whose double-quoted style takes every escape of JSON. */
const quoted = (text: string) => JSON.stringify(text);

/** A text as a reader sees it. */
const words = (text: string) => text.trim().replace(/\s+/g, " ");

/** A routine that says the same thing in every field that takes a text, and in its body. */
function routineFile(pattern: string): string {
  const text = quoted(pattern.replace(/\n/g, " "));
  return `---
title: ${text}
choreographer: ${text}
date: 2026-10-02
style: [${text}]
summary: ${text}
credit: ${text}
music: { title: ${text}, artist: ${text}, tempo: 92 }
video:
  breakdown: https://example.org/breakdown
  length: 2:00
  chapters: [${quoted(`0:00 ${pattern.replace(/\n/g, " ")}`)}, 0:30 Two, 1:00 Three]
gear: [{ item: ${text}, need: required, why: ${text} }]
levels: [1, 2]
sections:
  - name: ${text}
    words: ${text}
    counts:
      - say: [${text}]
        1-8:
          do: ${text}
          say: ${text}
          note: ${text}
          words: ${text}
          choose: [${text}]
          gear: [${text}]
          options: { 2: { do: ${text} } }
---
${pattern}

## ${pattern.replace(/\n/g, " ")}

${pattern}

1. ${pattern.replace(/\n/g, " ")}
`;
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "countleaf-hostile-"));
  await Promise.all(["routines", "workshops"].map((name) => mkdir(join(folder, name))));
  // A single text may have a thousand characters.
  const all = quoted(hostilePatterns.join(" ").replace(/\n/g, " ").slice(0, 990));
  await writeFile(
    join(folder, "library.yaml"),
    `name: ${all}\nteacher: ${all}\ncautions: ${all}\nurl: https://hostile.example\n`,
  );
  for (const [index, pattern] of hostilePatterns.entries())
    await writeFile(join(folder, "routines", `p${index}.md`), routineFile(pattern));
  const workshop = `title: ${all}\nvenue: ${all}\nminutes: 60\nroutines: [p0, p1]\nlevel: 1`;
  await writeFile(join(folder, "workshops", "all.md"), `---\n${workshop}\n---\n${hostilePatterns.join("\n\n")}\n`);
  const content = await readContent(folder);
  expect(content.findings.filter(({ severity }) => severity === "error")).toEqual([]);
  expect(content.routines.length).toBe(hostilePatterns.length);
  [browser, site] = await Promise.all([openBrowser(), publishedSite(content)]);
});
afterAll(async () => {
  await browser?.close();
  await site?.close();
  await rm(folder, { recursive: true });
});

test("there are at least eighty patterns", () => {
  expect(new Set(hostilePatterns).size).toBeGreaterThanOrEqual(80);
});

test("nothing in a file runs, asks another host or becomes markup, even on a page without its policy", async () => {
  const pages = (await readdir(site.folder, { recursive: true })).filter((name) => name.endsWith("index.html"));
  expect(pages.length).toBe(hostilePatterns.length + 2);
  const { page, watch } = await watchedPage(browser, site, { bypassCSP: true, serviceWorkers: "block" });
  await page.route("**/*.woff2", (route) => route.abort());
  const dialogs: string[] = [];
  page.on("dialog", (dialog) => {
    dialogs.push(`${page.url()}: ${dialog.message()}`);
    void dialog.dismiss();
  });
  // In the short form every twelfth of them is opened alone; other tests open pages that say many at once.
  for (const name of pages.filter((_, index) => long || index % 12 === 0)) {
    await page.goto(site.url + name);
    const foreign = await page.evaluate(() => {
      const own = [
        "html",
        "head",
        "meta",
        "title",
        "link",
        "script",
        "body",
        "a",
        "header",
        "main",
        "footer",
        "article",
      ];
      const flow = [
        "section",
        "div",
        "p",
        "h1",
        "h2",
        "h3",
        "h4",
        "h5",
        "h6",
        "ul",
        "ol",
        "li",
        "dl",
        "dt",
        "dd",
        "nav",
      ];
      const text = [
        "span",
        "b",
        "em",
        "strong",
        "del",
        "code",
        "cite",
        "q",
        "small",
        "time",
        "pre",
        "br",
        "blockquote",
        "hr",
      ];
      const form = [
        "fieldset",
        "legend",
        "label",
        "input",
        "button",
        "select",
        "option",
        "search",
        "form",
        "output",
        "datalist",
      ];
      const rest = [
        "details",
        "summary",
        "dialog",
        "kbd",
        "audio",
        "figure",
        "img",
        "table",
        "thead",
        "tbody",
        "tr",
        "th",
        "td",
      ];
      const known = new Set([...own, ...flow, ...text, ...form, ...rest]);
      return [...document.querySelectorAll("*")].flatMap((element) => {
        const odd = element
          .getAttributeNames()
          .filter((attribute) => /^on|^style$|^srcdoc$|^formaction$/.test(attribute))
          // How large the player sets a text: by script, of a number.
          .filter(
            (attribute) => !(attribute === "style" && /^--fit: [\d.]+;$/.test(element.getAttribute("style") ?? "")),
          );
        const address = element.getAttribute("href") ?? element.getAttribute("src") ?? "";
        const bad = address !== "" && !/^(https?|mailto):$/.test(new URL(address, "https://here.invalid/").protocol);
        const script = element.localName === "script" && !/^(\.\.\/\.\.\/)?assets\/script\/[\w/-]+\.js$/.test(address);
        const data = /^application\/(?:ld\+)?json$/.test(element.getAttribute("type") ?? "");
        const wrong = !known.has(element.localName) || odd.length > 0 || bad || (script && !data);
        return wrong ? [element.outerHTML.slice(0, 120)] : [];
      });
    });
    expect(foreign, name).toEqual([]);
    // And what stands in the file is shown letter by letter.
    const pattern = hostilePatterns[Number(/^routines\/p(\d+)\//.exec(name)?.[1])];
    if (pattern === undefined) continue;
    const seen = await page.locator("h1, .gear b").allTextContents();
    expect(seen.map(words), name).toEqual(seen.map(() => words(pattern)));
  }
  expect(dialogs).toEqual([]);
  expect(watch.foreign).toEqual([]);
});

/** In the short form every third is held against all rules of HTML, which takes long; what runs or becomes markup is looked for on all. */
const validated = [...hostilePatterns.keys()].filter((index) => long || index % 3 === 0);

test("hostile pages, and what is left of the linked data, stay valid", async () => {
  const rules: ConfigData["rules"] = {
    ...{ "wcag/h32": "off", "no-trailing-whitespace": "off", "long-title": "off" },
    "prefer-native-element": ["error", { exclude: ["table", "cell"] }],
  };
  const validator = new HtmlValidate({ root: true, extends: ["html-validate:recommended"], rules });
  const { page } = await watchedPage(browser, site);
  for (const index of validated) {
    const name = `routines/p${index}/index.html`;
    const report = await validator.validateFile(join(site.folder, name));
    expect(
      report.results.flatMap(({ messages }) => messages.map(({ line, message }) => `${line}: ${message}`)),
      name,
    ).toEqual([]);
  }
  await page.goto(`${site.url}routines/p0/index.html`);
  const data = await page.locator('script[type="application/ld+json"]').textContent();
  expect(JSON.parse(data ?? "").name).toBe(hostilePatterns[0]);
});

test("feed and sitemap stay well-formed XML", async () => {
  const { page } = await watchedPage(browser, site);
  await page.goto(`${site.url}index.html`);
  for (const name of ["feed.xml", "sitemap.xml"]) {
    const broken = await page.evaluate(async (path) => {
      const text = await (await fetch(path)).text();
      return new DOMParser().parseFromString(text, "application/xml").querySelector("parsererror")?.textContent ?? "";
    }, name);
    expect(broken, name).toBe("");
  }
});

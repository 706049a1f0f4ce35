// How long a save takes until its page is new, in a library that is served.
import { spawn } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { browserFor } from "./browser.mjs";
import { routineText, slugAt } from "./library.mjs";

/**
 * Milliseconds from a save until the new page has been fetched by a program that listens as the page does, and until a
 * browser shows it: medians of some saves, after two that warm up.
 */
export async function savesSeen(main, content, times) {
  const child = spawn(process.execPath, [main, "serve", "--content", content, "--port", "0"]);
  let browser;
  try {
    const home = await addressOf(child);
    browser = await browserFor();
    const [fetched, shown] = [[], []];
    const page = await browser.newPage();
    await page.goto(`${home}routines/${slugAt(1)}/`);
    for (let save = -2; save < times; save++) {
      const ms = await untilFetched(home, content, `Save ${save + 100}`);
      const seen = await untilShown(page, content, `Shown ${save + 100}`);
      if (save >= 0) {
        fetched.push(ms);
        shown.push(seen);
      }
    }
    const median = (list) => list.sort((a, b) => a - b)[Math.floor(list.length / 2)];
    return { fetched: median(fetched), shown: median(shown) };
  } finally {
    await browser?.close();
    child.kill("SIGINT");
  }
}

function addressOf(child) {
  return new Promise((done, failed) => {
    let said = "";
    child.stdout.on("data", (data) => {
      said += data;
      const [address] = /http:\/\/localhost:\d+\//.exec(said) ?? [];
      if (address) done(address);
    });
    child.on("close", () => failed(new Error(`serve ended: ${said}`)));
  });
}

async function untilFetched(home, content, title) {
  const address = `${home}routines/${slugAt(0)}/`;
  const before = await (await fetch(address)).text();
  const search = /reload\.js(\?[^"]*)"/.exec(before)[1].replaceAll("&amp;", "&");
  const news = await fetch(`${home}~live/news${search}`);
  const began = performance.now();
  saveAs(content, 0, title);
  for await (const data of news.body) if (new TextDecoder().decode(data).includes("data:")) break;
  const after = await (await fetch(address)).text();
  if (!after.includes(`<h1>${title}</h1>`)) throw new Error(`The page of ${title} is old.`);
  return performance.now() - began;
}

async function untilShown(page, content, title) {
  const heading = page.locator("h1", { hasText: title });
  const began = performance.now();
  saveAs(content, 1, title);
  await heading.waitFor();
  return performance.now() - began;
}

function saveAs(content, index, title) {
  writeFileSync(
    join(content, "routines", `${slugAt(index)}.md`),
    routineText(index).replace(/^title: .*/m, `title: ${title}`),
  );
}

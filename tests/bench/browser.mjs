// The browser of the tests, for benchmarks, which no test runner translates: see tests/browser/browser.ts.
import { existsSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";

/** The installed browser that COUNTLEAF_BROWSER names, or the one that the browser tests have unpacked. */
export async function browserFor() {
  const installed = process.env.COUNTLEAF_BROWSER;
  if (installed) return chromium.launch({ executablePath: installed });
  const { readFileSync } = await import("node:fs");
  const manifest = new URL("../../node_modules/@sparticuz/chromium/package.json", import.meta.url);
  const home = join(tmpdir(), `countleaf-browser-${JSON.parse(readFileSync(manifest, "utf8")).version}`);
  if (!existsSync(home))
    throw new Error("There is no browser yet: run the browser tests once, or set COUNTLEAF_BROWSER.");
  return chromium.launch({
    executablePath: join(home, "chromium"),
    env: { ...process.env, LD_LIBRARY_PATH: join(home, "al2023", "lib"), FONTCONFIG_PATH: join(home, "fonts") },
    args: ["--no-sandbox", "--no-zygote", "--disable-gpu"],
  });
}

import { expect, test } from "vitest";
import { openBrowser } from "./browser.js";

test("the browser starts, runs script and has an audio clock", async () => {
  const browser = await openBrowser();
  try {
    const page = await browser.newPage();
    await page.setContent("<title>here</title>");
    expect(await page.title()).toBe("here");
    const rendered = await page.evaluate(async () => {
      const context = new OfflineAudioContext(1, 4800, 48000);
      return (await context.startRendering()).duration;
    });
    expect(rendered).toBeCloseTo(0.1);
  } finally {
    await browser.close();
  }
});

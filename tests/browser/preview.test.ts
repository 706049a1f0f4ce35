import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { pngFile } from "../../src/publishing/preview/png.js";
import { openBrowser } from "./browser.js";

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

test("a PNG file gives back its pixels to the browser's own reader", async () => {
  const palette = [
    [250, 240, 230],
    [10, 20, 30],
    [200, 0, 0],
  ] as const;
  const pixels = Uint8Array.from({ length: 7 * 5 }, (_, index) => (index * 2) % 3);
  const file = pngFile({ width: 7, height: 5, palette, pixels });
  const page = await browser.newPage();
  const read = await page.evaluate(
    async (bytes) => {
      const picture = await createImageBitmap(new Blob([new Uint8Array(bytes)], { type: "image/png" }));
      const context = new OffscreenCanvas(picture.width, picture.height).getContext("2d");
      context?.drawImage(picture, 0, 0);
      return [picture.width, ...(context?.getImageData(0, 0, picture.width, picture.height).data ?? [])];
    },
    [...file],
  );
  expect(read).toEqual([7, ...[...pixels].flatMap((index) => [...(palette[index] ?? []), 255])]);
});

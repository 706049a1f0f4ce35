// @ts-check
import { configureWholeSite } from "#src/build/whole-site.js";

/**
 * The site alone, without handouts, straight from the content folder: `npx @11ty/eleventy`.
 *
 * @param {import("@11ty/eleventy").EleventyConfig} config
 */
export default async function (config) {
  await configureWholeSite(config, "content");
  return { dir: { input: "dist/pages", output: "_site" } };
}

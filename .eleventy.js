// @ts-check
import { resolve } from "node:path";
import { writeInto } from "#src/build/staging.js";
import { wholeSite } from "#src/build/whole-site.js";
import { assets } from "#src/publishing/site/assets.js";
import { configureSite } from "#src/publishing/site/site-config.js";
import { readContent } from "#src/reading/read-content.js";

/**
 * The site alone, without handouts, straight from the content folder: `npx @11ty/eleventy`.
 *
 * @param {import("@11ty/eleventy").EleventyConfig} config
 */
export default async function (config) {
  const content = await readContent("content");
  const errors = content.findings.filter(({ severity }) => severity === "error");
  if (errors.length > 0) throw new Error("The content has errors; `npm run check` lists them.");
  // The folder that `--output` names, where it does.
  const out = resolve(config.directories.output);
  const site = await wholeSite(content, out);
  configureSite(config, site);
  config.on("eleventy.after", async () => {
    for (const file of await assets(site.whole.facts)) writeInto(out, file);
  });
  return { dir: { input: "dist/pages", output: "_site" } };
}

// @ts-check
import { resolve } from "node:path";
import { configureSite, wholeSite } from "#src/publishing/site/site-config.js";
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
  configureSite(config, wholeSite(content, out), out);
  return { dir: { input: "dist/pages", output: "_site" } };
}

import { resolve } from "node:path";
import { writeInto } from "./dist/build/staging.js";
import { wholeSite } from "./dist/build/whole-site.js";
import { assets } from "./dist/publishing/site/assets.js";
import { configureSite } from "./dist/publishing/site/site-config.js";
import { readContent } from "./dist/reading/read-content.js";

/** The site alone, without handouts, straight from the content folder: `npx @11ty/eleventy`. */
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
  return { dir: { input: "templates", output: "_site" } };
}

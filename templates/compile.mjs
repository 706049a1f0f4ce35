// @ts-check
/*
 * Compiles what tsc only checks: the page templates, each to a file of its own, since Eleventy and the pages of a site share what
 * they import, and the browser's scripts, bundled to one file a page or worker asks for.
 */
import { rmSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const root = fileURLToPath(new URL("..", import.meta.url));
for (const folder of ["dist/pages", "dist/script"]) rmSync(`${root}/${folder}`, { recursive: true, force: true });

await Promise.all([
  build({
    absWorkingDir: root,
    entryPoints: ["templates/pages/**/*.ts"],
    outdir: "dist/pages",
    format: "esm",
    charset: "utf8",
    target: "node20",
    // Else a template with a closing script tag in it is taken apart.
    supported: { "inline-script": false },
  }),
  build({
    absWorkingDir: root,
    entryPoints: ["routine", "library", "practice/main", "keep-pages"].map((name) => `templates/script/${name}.ts`),
    outbase: "templates/script",
    outdir: "dist/script",
    bundle: true,
    format: "esm",
    charset: "utf8",
    target: "es2022",
  }),
]);

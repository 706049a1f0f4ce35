import { basename, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { buildSync } from "esbuild";

const src = resolve(import.meta.dirname, "../../src");

/** Compiles a file of the source into a folder, for a process of its own to import; it takes itself to lie where its source does. */
export function compiled(file: string, folder: string): string {
  const entry = join(src, file);
  const outfile = join(folder, `${basename(file, ".ts")}.mjs`);
  buildSync({
    entryPoints: [entry],
    outfile,
    bundle: true,
    format: "esm",
    platform: "node",
    define: { "import.meta.url": JSON.stringify(pathToFileURL(entry)) },
  });
  return outfile;
}

import { cp, mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { versionStyle } from "./version-choice.js";

/**
 * The faces of the site, each a style sheet of its package with the font files that it names. The legible face draws
 * Latin; the other one stands in for the scripts that it lacks, and its files are fetched only by a page that needs them.
 */
const faces = [
  [
    "@fontsource/atkinson-hyperlegible-next",
    [
      "latin-400",
      "latin-ext-400",
      "latin-400-italic",
      "latin-ext-400-italic",
      "latin-700",
      "latin-ext-700",
      "latin-800",
      "latin-ext-800",
    ],
  ],
  [
    "@fontsource/source-sans-3",
    ["cyrillic-400", "cyrillic-700", "greek-400", "greek-700", "vietnamese-400", "vietnamese-700"],
  ],
] as const;

const require = createRequire(import.meta.url);

/**
 * Writes style sheets, fonts and browser scripts into `<out>/assets`, and the worker that keeps visited pages into `<out>`.
 *
 * @param templates the folder of templates
 * @param scripts the folder of compiled browser scripts
 * @param mostVersions the largest number of versions that a routine has
 * @throws Error where the package was not compiled
 */
export async function writeAssets(
  outDir: string,
  templates: string,
  scripts: string,
  mostVersions: number,
): Promise<void> {
  const assets = join(outDir, "assets");
  await mkdir(join(assets, "fonts"), { recursive: true });
  const [fonts, style] = await Promise.all([copyFonts(join(assets, "fonts")), styleOf(templates)]);
  await writeFile(join(assets, "style.css"), `${fonts}\n${style}\n${versionStyle(mostVersions)}`);
  await cp(join(templates, "images"), assets, { recursive: true });
  await cp(scripts, join(assets, "script"), {
    recursive: true,
    filter: (file) => !/\.(tsbuildinfo|map|d\.ts)$/.test(file),
  });
}

/** The style sheets of the templates, in the order of their names, as one. */
async function styleOf(templates: string): Promise<string> {
  const folder = join(templates, "style");
  const names = (await readdir(folder)).filter((name) => name.endsWith(".css")).sort();
  return (await Promise.all(names.map((name) => readFile(join(folder, name), "utf8")))).join("\n");
}

/** Copies the font files and returns the rules that name them. */
async function copyFonts(into: string): Promise<string> {
  const rules: string[] = [];
  for (const [name, sheets] of faces) {
    const home = dirname(require.resolve(`${name}/package.json`));
    for (const sheet of sheets) {
      const rule = await readFile(join(home, `${sheet}.css`), "utf8");
      const file = /files\/([\w-]+\.woff2)/.exec(rule)?.[1];
      if (file === undefined) throw new Error(`The font package ${name} has no file for ${sheet}.`);
      await cp(join(home, "files", file), join(into, file));
      rules.push(rule.replace(/src:[^;]*;/, `src: url(fonts/${file}) format('woff2');`));
    }
  }
  return rules.join("\n");
}

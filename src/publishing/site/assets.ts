import { copyFile, cp, mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { basename, dirname, join } from "node:path";

/**
 * The faces of the site: style sheets of their packages, and the subsets that are taken from them. The legible face draws
 * Latin; the other one stands in for the scripts that it lacks. A browser fetches only the subsets that a page needs.
 */
const faces = [
  {
    package: "@fontsource/atkinson-hyperlegible-next",
    sheets: ["400", "400-italic", "700", "800"],
    subset: /-latin(-ext)?-\d/,
  },
  {
    package: "@fontsource/source-sans-3",
    sheets: ["400", "700"],
    subset: /-(cyrillic|cyrillic-ext|greek|greek-ext|vietnamese)-\d/,
  },
] as const;

const worker = "keep-pages.js";
const require = createRequire(import.meta.url);

/**
 * Writes style sheets, fonts and browser scripts into `<out>/assets`, and the worker that keeps visited pages into `<out>`.
 *
 * @param templates the folder of templates
 * @param scripts the folder of compiled browser scripts
 * @param choices the rules for the choice of version and group
 * @throws Error where the package was not compiled
 */
export async function writeAssets(outDir: string, templates: string, scripts: string, choices: string): Promise<void> {
  const assets = join(outDir, "assets");
  await mkdir(join(assets, "fonts"), { recursive: true });
  const [fonts, style] = await Promise.all([copyFonts(join(assets, "fonts")), styleOf(templates)]);
  await writeFile(join(assets, "style.css"), `${fonts}\n${style}\n${choices}`);
  await cp(join(templates, "images"), assets, { recursive: true });
  await cp(scripts, join(assets, "script"), { recursive: true, filter: (file) => basename(file) !== worker });
  // A worker serves what lies beside it and below, so this one lies at the top.
  await copyFile(join(scripts, worker), join(outDir, worker));
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
  for (const { package: name, sheets, subset } of faces) {
    const home = dirname(require.resolve(`${name}/package.json`));
    for (const sheet of sheets) {
      const text = await readFile(join(home, `${sheet}.css`), "utf8");
      for (const [rule] of text.matchAll(/@font-face \{[^}]*\}/g)) {
        const file = /files\/([\w-]+\.woff2)/.exec(rule)?.[1];
        if (file === undefined || !subset.test(file)) continue;
        await copyFile(join(home, "files", file), join(into, file));
        rules.push(rule.replace(/src:[^;]*;/, `src: url(fonts/${file}) format('woff2');`));
      }
    }
  }
  return rules.join("\n");
}

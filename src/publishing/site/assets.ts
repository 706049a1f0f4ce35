import { readdir, readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { scriptsDir, templatesDir } from "../home.js";
import type { OutFile } from "../publisher.js";
import type { LibraryFacts } from "./library-view.js";
import { mediaTypeOf } from "./media-type.js";
import { choiceStyle } from "./version-choice.js";

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
 * Style sheets, fonts and browser scripts as files of `assets`, the worker that keeps visited pages, and headers for the host.
 *
 * @throws Error where the package was not compiled
 */
export async function assets({ routines }: LibraryFacts): Promise<readonly OutFile[]> {
  const [fonts, style, images, hosts, scripts] = await Promise.all([
    fontFiles(),
    styleOf(templatesDir),
    filesIn(join(templatesDir, "images"), "assets/"),
    filesIn(join(templatesDir, "host"), ""),
    filesIn(scriptsDir, "assets/script/"),
  ]);
  return [
    asset("assets/style.css", `${fonts.rules}\n${style}\n${choiceStyle(routines)}`),
    // What a page can't say of itself, in a form that many static hosts read.
    ...hosts,
    ...fonts.files,
    ...images,
    // A worker serves what lies beside it and below, so this one lies at the top.
    ...scripts.map((file) => (file.path === `assets/script/${worker}` ? { ...file, path: worker } : file)),
  ];
}

function asset(path: string, content: OutFile["content"]): OutFile {
  return { path, kind: "asset", mediaType: mediaTypeOf(path), content };
}

/** Every file of a folder and of the folders in it. */
async function filesIn(folder: string, place: string): Promise<readonly OutFile[]> {
  const entries = await readdir(folder, { withFileTypes: true });
  const files = entries.map(async (entry) =>
    entry.isDirectory()
      ? filesIn(join(folder, entry.name), `${place}${entry.name}/`)
      : [asset(`${place}${entry.name}`, await readFile(join(folder, entry.name)))],
  );
  return (await Promise.all(files)).flat();
}

/** The style sheets of the templates, in the order of their names, as one. */
async function styleOf(templates: string): Promise<string> {
  const folder = join(templates, "style");
  const names = (await readdir(folder)).filter((name) => name.endsWith(".css")).sort();
  return (await Promise.all(names.map((name) => readFile(join(folder, name), "utf8")))).join("\n");
}

/** The font files, and the rules that name them. */
async function fontFiles(): Promise<{ readonly rules: string; readonly files: readonly OutFile[] }> {
  const rules: string[] = [];
  const files = new Map<string, OutFile>();
  for (const { package: name, sheets, subset } of faces) {
    const home = dirname(require.resolve(`${name}/package.json`));
    for (const sheet of sheets) {
      const text = await readFile(join(home, `${sheet}.css`), "utf8");
      for (const [rule] of text.matchAll(/@font-face \{[^}]*\}/g)) {
        const file = /files\/([\w-]+\.woff2)/.exec(rule)?.[1];
        if (file === undefined || !subset.test(file)) continue;
        files.set(file, asset(`assets/fonts/${file}`, await readFile(join(home, "files", file))));
        rules.push(rule.replace(/src:[^;]*;/, `src: url(fonts/${file}) format('woff2');`));
      }
    }
  }
  return { rules: rules.join("\n"), files: [...files.values()] };
}

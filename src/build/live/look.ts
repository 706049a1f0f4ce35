import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { songScriptsDir, templatesDir } from "../../publishing/home.js";

/*
 * What the pages of mistakes look like: the site's faces and colours, from where they lie in their packages and from here. The site's own
 * style sheet may be what can't be made.
 */

const home = "@fontsource/atkinson-hyperlegible-next";
const weights = ["400", "700", "800"] as const;
const require = createRequire(import.meta.url);

/** Files by their names in the folder of what is the program's own. */
export async function lookAt(
  name: string,
): Promise<{ readonly type: string; readonly body: string | Uint8Array } | undefined> {
  if (name === "style.css") return { type: "text/css", body: style };
  if (name === "song/style.css") return { type: "text/css", body: await songStyle() };
  const script = songScripts.find((one) => name === `song/${one}`);
  if (script !== undefined) return { type: "text/javascript", body: await readFile(join(songScriptsDir, script)) };
  const weight = weights.find((one) => name === faceOf(one));
  if (weight === undefined) return undefined;
  const folder = join(dirname(require.resolve(`${home}/package.json`)), "files");
  return { type: "font/woff2", body: await readFile(join(folder, name)) };
}

function faceOf(weight: (typeof weights)[number]): string {
  return `atkinson-hyperlegible-next-latin-${weight}-normal.woff2`;
}

/** The song desk's own and what it has its worker do. */
const songScripts = ["song.js", "listen.js"] as const;

/** The site's ground and what its pages have in common, and what is the desk's alone. */
async function songStyle(): Promise<string> {
  const parts = ["style/00-ground.css", "style/10-base.css", "song/song.css"];
  const texts = await Promise.all(parts.map((path) => readFile(join(templatesDir, path), "utf8")));
  return [faces("Atkinson Hyperlegible Next", "../"), ...texts].join("\n");
}

/** @param from what leads from the style sheet to where the files lie */
function faces(family: string, from = ""): string {
  return weights
    .map(
      (weight) =>
        `@font-face{font-family:${family};font-weight:${weight};font-display:swap;src:url(${from}${faceOf(weight)}) format("woff2")}`,
    )
    .join("\n");
}

/* A list of findings stands on a page of mistakes as well as on a page of the site; what begins with `.live-page` is for the former. */
const style = `${faces("Live")}
.live-page{color-scheme:light dark;--paper:light-dark(#fbf5ea,#1b1513);--wash:light-dark(#f3e8d7,#281f1b);
--ink:light-dark(#2a1c17,#f6ebdd);--quiet:light-dark(#5f4b3c,#cab8a7);--line:light-dark(#d9c7af,#4d3d34);--way:light-dark(#1b4d49,#97d6c7);
font-size:106.25%}
.live-page body{margin:0 auto;max-inline-size:46rem;padding:1.5rem clamp(1rem,3vw,2.5rem) 4rem;background:var(--paper);color:var(--ink);
font-family:Live,system-ui,sans-serif;line-height:1.55;overflow-wrap:break-word}
.live-page h1{margin:0 0 1.25rem;border-block-end:.375rem solid var(--ink);padding-block-end:.75rem;
font-size:clamp(2rem,1.5rem + 3vw,3.25rem);font-weight:800;line-height:1;letter-spacing:-.03em;text-wrap:balance}
.live-page h2{margin:2.5rem 0 0;font-size:1.25rem;line-height:1.2;text-wrap:balance}
.live-page a,.live-told a{color:var(--way);text-underline-offset:.15em}
.live-page p a{display:inline-block;padding-block:.15rem}
.live-page p{margin-block:.5em}
.live-list{max-inline-size:none;margin:0;padding:0;list-style:none}
.live-list li{margin-block:2rem}
.live-list p{margin:.35rem 0;max-inline-size:42rem}
.live-list .live-place{color:var(--quiet)}
.live-list .live-say{font-weight:700}
.live-list code,.live-list pre,.live-page :is(code,pre){font-family:ui-monospace,monospace;font-size:1rem;background:var(--wash)}
.live-list code{padding:.1em .3em;white-space:pre-wrap}
.live-list pre,.live-page pre{display:flex;gap:1rem;max-inline-size:none;margin:.5rem 0;padding:.6rem .8rem;line-height:1.45}
.live-list pre::before{content:attr(data-line);color:var(--quiet)}
.live-list pre span,.live-page pre span{min-inline-size:0;overflow-wrap:anywhere;white-space:pre-wrap}
.live-list mark{background:var(--ink);color:var(--paper)}
.live-told{margin-block:1rem;border-block:.25rem solid var(--ink);padding-block:.25rem}
.live-told summary{min-block-size:2.75rem;padding-block:.5rem;font-weight:700;cursor:pointer}
.live-told li{margin-block:1rem}
.live-song a{display:inline-block;padding-block:.35rem}
@media print{.live-told,.live-song{display:none}}
`;

import type { SiteViews } from "#src/publishing/site/site-config.js";

export const data = { pagination: { data: "onlyShared", size: 1 }, permalink: "manifest.webmanifest" };

export function render({ site }: { readonly site: SiteViews }): string {
  const { name, language } = site.library();
  const manifest = {
    name,
    short_name: name.length > 12 ? name.split(" ")[0] : name,
    lang: language,
    start_url: "index.html",
    scope: "./",
    display: "minimal-ui",
    background_color: "#faf4ea",
    theme_color: "#faf4ea",
    icons: [{ src: "assets/icon.svg", sizes: "any", type: "image/svg+xml" }],
  };
  return `${JSON.stringify(manifest, null, 1)}\n`;
}

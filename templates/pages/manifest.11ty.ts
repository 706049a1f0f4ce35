import type { SiteViews } from "#src/publishing/site/site-config.js";
import { paperColours } from "./_includes/theme.js";

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
    background_color: paperColours.light,
    theme_color: paperColours.light,
    icons: [
      ...[192, 512].flatMap((size) =>
        ["any", "maskable"].map((purpose) => ({
          src: `assets/icon-${size}.png`,
          sizes: `${size}x${size}`,
          type: "image/png",
          purpose,
        })),
      ),
      { src: "assets/icon.svg", sizes: "any", type: "image/svg+xml" },
    ],
  };
  return `${JSON.stringify(manifest, null, 1)}\n`;
}

/** The site's first folder: the script of a page lies in `assets/script/`. It is known only while the script begins. */
export const home = new URL("../../", (document.currentScript as HTMLScriptElement).src).href;

/** Of a page that was opened from a folder: what leads to a folder leads to the page in it, as a host would. */
export function linkToFiles(): void {
  if (location.protocol !== "file:") return;
  for (const link of document.querySelectorAll("a"))
    if (link.protocol === "file:" && link.pathname.endsWith("/")) link.pathname += "index.html";
}

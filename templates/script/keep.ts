/** The site's first folder: the script of a page lies in `assets/script/`. It is known only while the script begins. */
const home = new URL("../../", (document.currentScript as HTMLScriptElement).src);

/**
 * Has the worker keep this page and all that it was made of, so that it opens in a room without a network. Where the page
 * was opened from a folder, or the browser has no workers, nothing happens.
 *
 * @param more further addresses that the page will want
 */
export async function keepForLater(more: readonly string[]): Promise<void> {
  if (!("serviceWorker" in navigator) || !location.protocol.startsWith("http")) return;
  await navigator.serviceWorker.register(new URL("keep-pages.js", home));
  const { active } = await navigator.serviceWorker.ready;
  await pageLoaded();
  const loaded = performance.getEntriesByType("resource").map(({ name }) => name);
  const all = [location.href, new URL("index.html", home).href, ...loaded, ...more];
  active?.postMessage(all.filter((address) => new URL(address).origin === location.origin));
}

/** The browser lists only what is loaded, and the worker sees only what is asked for once it runs. */
async function pageLoaded(): Promise<void> {
  if (document.readyState !== "complete") await new Promise((done) => addEventListener("load", done, { once: true }));
}

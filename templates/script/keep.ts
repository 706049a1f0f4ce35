import type { NoticesWording } from "../../src/wording/notices.js";
import { home } from "./folder.js";
import { folderOf, keyOf, shelvesOf, type ToKeep } from "./shelf.js";

/** None where the page was opened from a folder, or where the browser has no workers or lets this page have none. */
async function worker(): Promise<ServiceWorker | undefined> {
  if (!("serviceWorker" in navigator) || !location.protocol.startsWith("http")) return undefined;
  try {
    // What the worker fetches for later stands in nobody's way then, and the browser lists only what is loaded.
    if (document.readyState !== "complete") await new Promise((done) => addEventListener("load", done, { once: true }));
    await navigator.serviceWorker.register(`${home}keep-pages.js`);
    return (await navigator.serviceWorker.ready).active ?? undefined;
  } catch {
    return undefined;
  }
}

const running = worker();

/** This page and all that it was made of, and the way back to the others. */
function wholePage(): readonly string[] {
  const loaded = performance.getEntriesByType("resource").map(({ name }) => name);
  const drawn = document.querySelectorAll<HTMLImageElement | HTMLSourceElement>(".pictures :is(img, source)");
  const pictures = [...drawn].map(({ src, srcset }) => (srcset === "" ? src : new URL(srcset, location.href).href));
  const library = [`${home}index.html`, `${home}assets/script/library.js`];
  const all = [location.href, ...library, ...loaded, ...pictures];
  return [...new Set(all.filter((address) => address.startsWith(home)).map(keyOf))];
}

/** Has the worker keep this page and all that it was made of, so that it opens in a room without a network. */
export async function keepForLater(): Promise<void> {
  const keeper = await running;
  keeper?.postMessage({ addresses: wholePage(), chosen: false } satisfies ToKeep);
}

/** The button that keeps a routine with its handouts until somebody lets it go, and the line that says how that went. */
export async function offerToKeep(button: HTMLButtonElement, line: Element, wording: NoticesWording): Promise<void> {
  const say = (text: string) => {
    line.textContent = text;
  };
  const keeper = await running;
  if (!keeper) {
    button.hidden = true;
    say(location.protocol === "file:" ? wording.inAFolder : wording.keepsNothing);
    return;
  }
  const { chosen } = shelvesOf(home);
  let kept = (await caches.match(keyOf(location.href), { cacheName: chosen })) !== undefined;
  const label = () => {
    button.textContent = kept ? wording.letGo : wording.keep;
  };
  const keepAll = () => {
    const sheets = [...document.querySelectorAll<HTMLAnchorElement>('.downloads a[href$=".pdf"]')];
    return told(keeper, { addresses: [...wholePage(), ...sheets.map(({ href }) => keyOf(href))], chosen: true });
  };
  label();
  if (kept) say(wording.kept);
  // What was kept stays as new as the page.
  if (kept) void keepAll();
  button.addEventListener("click", async () => {
    if (kept) {
      await letGo(chosen);
      say(wording.gone);
    } else {
      say(wording.keeping);
      // A browser that may clear away what it likes is asked not to.
      void navigator.storage?.persist?.().catch(() => false);
      const failed = await keepAll();
      if (failed > 0) await letGo(chosen);
      say(failed === 0 ? wording.kept : wording.notAllKept);
    }
    kept = (await caches.match(keyOf(location.href), { cacheName: chosen })) !== undefined;
    label();
  });
  // Not before: what is pressed while the worker is still being fetched would do nothing.
  button.disabled = false;
}

/** Asks the worker to keep something; how many of it could not be had. */
function told(keeper: ServiceWorker, toKeep: ToKeep): Promise<number> {
  const { port1, port2 } = new MessageChannel();
  return new Promise((done) => {
    port1.onmessage = ({ data }) => done(Number(data));
    keeper.postMessage(toKeep, [port2]);
  });
}

/** Gives this page's own files back to the shelf of what was merely visited, which keeps no handouts. */
async function letGo(name: string): Promise<void> {
  const folder = folderOf(keyOf(location.href), home);
  const shelf = await caches.open(name);
  for (const { url } of await shelf.keys()) if (folderOf(url, home) === folder) await shelf.delete(url);
}

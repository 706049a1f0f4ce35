import { home } from "./folder.js";
import { folderOf, shelvesOf } from "./shelf.js";

/* The page that stands in for one that was never kept: it lists those that were. */

document.documentElement.dataset.script = "";

/** A page on a shelf, with the heading that it has. */
async function linkTo(shelf: Cache, address: string): Promise<HTMLAnchorElement | undefined> {
  const text = await (await shelf.match(address))?.text();
  const title = text && new DOMParser().parseFromString(text, "text/html").querySelector("h1")?.textContent;
  if (!title) return undefined;
  return Object.assign(document.createElement("a"), { href: address, textContent: title });
}

async function listKept(section: HTMLElement, list: Element): Promise<void> {
  const pages = new Map<string, HTMLAnchorElement>();
  for (const name of Object.values(shelvesOf(home))) {
    const shelf = await caches.open(name);
    const addresses = (await shelf.keys()).map(({ url }) => url);
    for (const address of addresses) {
      const isPage = address === `${home}index.html` || /^[^/]+\/[^/]+\/index\.html$/.test(address.slice(home.length));
      const link = isPage && !pages.has(address) ? await linkTo(shelf, address) : undefined;
      if (link) pages.set(address, link);
    }
  }
  // The library itself first.
  const links = [...pages].sort(([one], [other]) => folderOf(one, home).localeCompare(folderOf(other, home)));
  for (const [, link] of links) {
    const item = document.createElement("li");
    item.append(link);
    list.append(item);
  }
  section.hidden = links.length === 0;
}

const again = document.querySelector<HTMLAnchorElement>("[data-again]");
const wanted = new URLSearchParams(location.search).get("wanted");
if (again && wanted?.startsWith(home)) {
  again.href = wanted;
  again.hidden = false;
}
const section = document.querySelector<HTMLElement>("[data-opens]");
const list = section?.querySelector("ul");
if (section && list && "caches" in window) void listKept(section, list);

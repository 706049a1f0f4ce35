/*
 * The worker that keeps what was visited. What the network gives is shown and kept; where it gives nothing in time, what was
 * kept is shown. So nobody sees an old page while a new one can be had, and a visited routine opens without a network.
 */
import { asFolder, keyOf, shelvesOf, type ToKeep, tooMuch } from "./shelf.js";

/** What a service worker can do beyond a page, as far as it is used here; the library of types has pages or workers. */
interface ExtendableEvent extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface MessageToWorker extends ExtendableEvent {
  readonly data: ToKeep;
  readonly ports: readonly MessagePort[];
}
interface FetchEvent extends ExtendableEvent {
  readonly request: Request;
  /** Of the page that asks. */
  readonly clientId: string;
  /** Of the page that is asked for. */
  readonly resultingClientId: string;
  respondWith(answer: Promise<Response>): void;
}
interface WorkerScope {
  readonly location: Location;
  readonly registration: { readonly scope: string };
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(name: "install" | "activate", listen: (event: ExtendableEvent) => void): void;
  addEventListener(name: "message", listen: (event: MessageToWorker) => void): void;
  addEventListener(name: "fetch", listen: (event: FetchEvent) => void): void;
}

/** One page that is being opened, with all that it asks for. */
interface Visit {
  /** When the network last gave something. */
  heard: number;
  /** True once it gave nothing in time: the rest of the visit does not wait for it again. */
  missed: boolean;
}

const worker = self as unknown as WorkerScope;
const home = worker.registration.scope;
const names = shelvesOf(home);
const offlinePage = `${home}offline.html`;

/** Milliseconds without an answer after which a network counts as none. */
const patience = 800;
/** The same where nothing is kept to be shown instead. */
const longPatience = 8000;
/** Routines and workshops that stay though nobody chose to keep them, and files that pages share. */
const most = { folders: 40, shared: 60 };
/** Open pages that are remembered. */
const mostVisits = 50;

const visits = new Map<string, Visit>();

function visitOf({ request, clientId, resultingClientId }: FetchEvent): Visit {
  // Not every engine names the page that is still to come: what it asks for is then a visit of its own.
  const id = request.mode === "navigate" ? resultingClientId : clientId;
  const visit = visits.get(id) ?? { heard: 0, missed: keyOf(request.url) === offlinePage };
  if (id) visits.set(id, visit);
  const [oldest] = visits.keys();
  if (visits.size > mostVisits && oldest !== undefined) visits.delete(oldest);
  return visit;
}

const wait = (milliseconds: number) => new Promise<undefined>((done) => setTimeout(done, milliseconds));

/** Ends when the network has been silent for too long, counted from now or from what it gave last. */
async function silence(visit: Visit): Promise<undefined> {
  const asked = Date.now();
  for (;;) {
    const left = Math.max(asked, visit.heard) + patience - Date.now();
    if (left <= 0) return undefined;
    await wait(left);
  }
}

async function fromShelf(address: string): Promise<Response | undefined> {
  const key = keyOf(address);
  const chosen = await caches.match(key, { cacheName: names.chosen });
  return chosen ?? caches.match(key, { cacheName: names.visited });
}

/** What somebody chose to keep is renewed where it is. */
async function putOnShelf(address: string, answer: Response, chosen = false): Promise<void> {
  if (answer.status !== 200) return;
  const key = keyOf(address);
  const isChosen = chosen || (await caches.match(key, { cacheName: names.chosen })) !== undefined;
  const shelf = await caches.open(isChosen ? names.chosen : names.visited);
  // A browser refuses a page that was reached by way of another address: a clean copy is no such page.
  const { status, headers } = answer;
  await shelf.put(key, answer.redirected ? new Response(answer.body, { status, headers }) : answer);
}

/** What is put on a shelf again comes last in one engine, and keeps its place in another: the page just opened stays in any. */
async function prune(opened: string): Promise<void> {
  const shelf = await caches.open(names.visited);
  const others = (await shelf.keys()).map(({ url }) => url).filter((key) => key !== opened);
  const keys = [...others, opened];
  for (const key of tooMuch(keys, home, most)) await shelf.delete(key);
}

async function answerTo(event: FetchEvent): Promise<Response> {
  const { request } = event;
  const visit = visitOf(event);
  const navigates = request.mode === "navigate";
  const fresh = fetch(request).then((answer) => {
    visit.heard = Date.now();
    const kept = putOnShelf(request.url, answer.clone());
    // A device that is full keeps nothing more, and the page is shown all the same.
    event.waitUntil((navigates ? kept.then(() => prune(keyOf(request.url))) : kept).catch(() => undefined));
    return answer;
  });
  const freshOrNone = fresh.catch(() => undefined);
  event.waitUntil(freshOrNone);
  if (!visit.missed) {
    const answer = await Promise.race([freshOrNone, silence(visit)]);
    if (answer) return answer;
    visit.missed = true;
  }
  const kept = await fromShelf(request.url);
  if (kept) return kept;
  if (!navigates) return fresh;
  // A host leads on from a folder's address without its slash; from there the links of its page would lead astray.
  const folder = asFolder(request.url);
  if (await fromShelf(folder)) return Response.redirect(folder);
  return answerOrOffline(request, freshOrNone);
}

/** Of a page that was never kept: what the network gives at last, or the page that says what does open. */
async function answerOrOffline(request: Request, fresh: Promise<Response | undefined>): Promise<Response> {
  const answer = await Promise.race([fresh, wait(longPatience)]);
  if (answer) return answer;
  if ((await fromShelf(offlinePage)) === undefined) return Response.error();
  return Response.redirect(`${offlinePage}?${new URLSearchParams({ wanted: request.url })}`);
}

async function keep(address: string, chosen: boolean): Promise<void> {
  if (!chosen && (await fromShelf(address))) return;
  // What was visited a moment ago the browser has at hand.
  const answer = await fetch(address, { cache: chosen ? "no-cache" : "force-cache" });
  if (answer.status !== 200) throw new Error(`${address}: ${answer.status}`);
  await putOnShelf(address, answer, chosen);
}

async function keepAll({ addresses, chosen }: ToKeep): Promise<number> {
  const results = await Promise.allSettled(addresses.map((address) => keep(address, chosen)));
  return results.filter(({ status }) => status === "rejected").length;
}

worker.addEventListener("install", (event) => {
  const offline = ["offline.html", "assets/style.css", "assets/script/offline.js"].map((path) => home + path);
  event.waitUntil(keepAll({ addresses: offline, chosen: true }).then(() => worker.skipWaiting()));
});
worker.addEventListener("activate", (event) => {
  // Shelves of older versions: the first had one, for all libraries of a host.
  const forget = async () => {
    await caches.delete("visited");
    await worker.clients.claim();
  };
  event.waitUntil(forget());
});
worker.addEventListener("fetch", (event) => {
  const { request } = event;
  const own = request.url.startsWith(home);
  if (own && request.method === "GET" && !request.headers.has("range")) event.respondWith(answerTo(event));
});
// A page that was open before the worker tells it what it was made of; one that is to be kept, all that belongs to it.
worker.addEventListener("message", (event) => {
  const told = keepAll(event.data).then((failed) => event.ports[0]?.postMessage(failed));
  event.waitUntil(told);
});

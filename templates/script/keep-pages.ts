/*
 * The worker that keeps what was visited. What the network gives is shown and kept; where it gives nothing in time, what was
 * kept is shown. So nobody sees an old page while a new one can be had, and a visited routine opens without a network.
 */
(() => {
  /** What a service worker can do beyond a page, as far as it is used here; the library of types has pages or workers. */
  interface ExtendableEvent extends Event {
    waitUntil(work: Promise<unknown>): void;
  }
  interface WorkerScope {
    readonly location: Location;
    readonly clients: { claim(): Promise<void> };
    skipWaiting(): Promise<void>;
    addEventListener(name: "install" | "activate", listen: (event: ExtendableEvent) => void): void;
    addEventListener(
      name: "message",
      listen: (event: ExtendableEvent & { readonly data: readonly string[] }) => void,
    ): void;
    addEventListener(
      name: "fetch",
      listen: (
        event: ExtendableEvent & { readonly request: Request; respondWith(answer: Promise<Response>): void },
      ) => void,
    ): void;
  }
  const worker = self as unknown as WorkerScope;
  const cache = caches.open("visited");
  /** Milliseconds after which a slow network counts as none. */
  const timeout = 4000;

  /** Version and side are shown by the page itself: one copy serves them all. */
  const cacheKey = (address: string) => address.replace(/[?#].*$/, "").replace(/\/$/, "/index.html");

  const fetchAndKeep = async (request: Request | string): Promise<Response> => {
    const answer = await fetch(request);
    const address = typeof request === "string" ? request : request.url;
    if (answer.status === 200) await (await cache).put(cacheKey(address), answer.clone());
    return answer;
  };

  const answerTo = async (request: Request): Promise<Response> => {
    const kept = async () => (await cache).match(cacheKey(request.url));
    const fresh = fetchAndKeep(request);
    const tooLate = new Promise<undefined>((resolve) => setTimeout(resolve, timeout));
    try {
      return (await Promise.race([fresh, tooLate])) ?? (await kept()) ?? (await fresh);
    } catch (error) {
      const copy = await kept();
      if (copy) return copy;
      throw error;
    }
  };

  worker.addEventListener("install", (event) => event.waitUntil(worker.skipWaiting()));
  worker.addEventListener("activate", (event) => event.waitUntil(worker.clients.claim()));
  worker.addEventListener("fetch", (event) => {
    const { request } = event;
    const own = new URL(request.url).origin === worker.location.origin;
    if (own && request.method === "GET" && !request.headers.has("range")) event.respondWith(answerTo(request));
  });
  // A page that was open before the worker tells it what it was made of.
  worker.addEventListener("message", (event) => {
    const keep = async (address: string) => {
      if ((await (await cache).match(cacheKey(address))) === undefined) await fetchAndKeep(address);
    };
    event.waitUntil(Promise.allSettled(event.data.map(keep)));
  });
})();

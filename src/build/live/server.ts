import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import { readRoutine } from "../../reading/read-routine.js";
import { errorText } from "../error-text.js";
import type { Live } from "./live.js";
import { lookAt } from "./look.js";
import { mistakesPage, nothingPage, own, staleBlock, styleLink, toldBlock, troublePage } from "./pages.js";
import { deskRoutine, songLink, songPage, songPath } from "./song-page.js";
import { runHeader, type SongWriter } from "./song-writer.js";

/** Open pages that are told of news; where there are more, the one that has been open longest is told no more. */
const mostListeners = 100;

/** Waits for news of the page that it was put into; its address says which page, and as it was when. */
const reloadScript = `const news = new EventSource("${own}news" + new URL(import.meta.url).search);
news.onmessage = () => location.reload();
`;

/** In place of the worker that keeps visited pages: while somebody writes, nothing old may be shown. */
const forgetfulWorker = `self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) =>
  event.waitUntil(caches.keys().then((names) => Promise.all(names.map((name) => caches.delete(name))))));
self.addEventListener("message", ({ ports }) => ports[0]?.postMessage(1));
`;

interface Answer {
  readonly status: number;
  /** Media type. */
  readonly type: string;
  readonly body: string | Uint8Array;
  readonly location?: string;
}

interface Listener {
  readonly path: string;
  readonly response: ServerResponse;
  key: string;
}

export interface LiveServer {
  readonly server: Server;
  /** Tells the open pages that have changed. */
  readonly tell: () => void;
}

/**
 * Serves a live library. What is asked for is looked up among the files of the pack, so that no address leads out of it.
 *
 * @param songs what is posted about songs goes there
 * @param names host names that a browser may have asked for; any, where left out. A page of another site that has had its own
 * name lead here (DNS rebinding) is sent away by it
 */
export function liveServer(live: Live, songs: SongWriter, names?: readonly string[]): LiveServer {
  const listeners = new Set<Listener>();
  const tellOne = (listener: Listener) => {
    const key = live.keyAt(listener.path);
    if (key === listener.key) return;
    listener.key = key;
    listener.response.write("data: changed\n\n");
  };
  const listen = ({ searchParams }: URL, response: ServerResponse) => {
    const listener = { path: searchParams.get("path") ?? "", key: searchParams.get("key") ?? "", response };
    response.on("close", () => listeners.delete(listener));
    response.writeHead(200, { "Content-Type": "text/event-stream", "Cache-Control": "no-store" });
    response.write(":\n\n");
    // It may have changed since the page was made.
    tellOne(listener);
    listeners.add(listener);
    // A set keeps the order in which they came.
    const [oldest] = listeners;
    if (listeners.size <= mostListeners || oldest === undefined) return;
    listeners.delete(oldest);
    oldest.response.end();
  };
  const tell = () => {
    for (const listener of listeners) tellOne(listener);
  };
  const answer = async (request: IncomingMessage, response: ServerResponse) => {
    const address = addressOf(request, names);
    if (typeof address !== "string" && address.pathname === `${own}news`) return listen(address, response);
    const { status, type, body, location } =
      typeof address === "string"
        ? plain(400, address)
        : ((await songAnswer(songs, request, address)) ?? (await answerTo(live, songs, request.method ?? "", address)));
    response.writeHead(status, {
      ...headersOf(type),
      ...(location === undefined ? {} : { Location: location }),
    });
    response.end(request.method === "HEAD" ? undefined : body);
  };
  const server = createServer((request, response) => {
    // Whoever has gone away meanwhile is no trouble of the others.
    response.on("error", () => {});
    // Whatever goes wrong with one question, the program goes on to the next.
    answer(request, response).catch((error) => apologize(response, error));
  });
  return { server, tell };
}

function headersOf(type: string) {
  return {
    "Content-Type": withCharset(type),
    "Cache-Control": "no-store",
    "X-Content-Type-Options": "nosniff",
    // In a frame of another site's page somebody might be led to press what writes.
    "Content-Security-Policy": "frame-ancestors 'self'",
  };
}

/** In place of an answer that could not be given. */
function apologize(response: ServerResponse, error: unknown): void {
  if (response.headersSent) {
    response.destroy();
    return;
  }
  const why = errorText(error).replace(/\.$/, "");
  const { status, type, body } = plain(500, `This could not be answered: ${why}. The library goes on.`);
  response.writeHead(status, headersOf(type));
  response.end(body);
}

/** What was asked for, or why that is no question. */
function addressOf({ url = "", headers }: IncomingMessage, names: readonly string[] | undefined): URL | string {
  try {
    // Whom it is for stands in its header alone: a path may begin with two slashes and a name of its own.
    const { hostname } = new URL(`http://${headers.host ?? "localhost"}`);
    const address = new URL(url.startsWith("/") ? `http://${hostname}${url}` : url);
    decodeURIComponent(address.pathname);
    if (names && !names.includes(hostname)) return "This library is served to this computer alone.";
    return address;
  } catch {
    return "This is no address.";
  }
}

async function songAnswer(songs: SongWriter, request: IncomingMessage, { pathname }: URL): Promise<Answer | undefined> {
  const [, question] = /^song\/(lines|write|take-back)$/.exec(pathname.slice(own.length)) ?? [];
  if (!pathname.startsWith(own) || question === undefined || request.method !== "POST") return undefined;
  const { status, answer } = await songs.answer(question, request);
  return { status, type: "application/json", body: JSON.stringify(answer) };
}

async function answerTo(live: Live, songs: SongWriter, method: string, address: URL): Promise<Answer> {
  const { pathname } = address;
  if (method !== "GET" && method !== "HEAD") return plain(405, "Pages can only be read here.");
  if (pathname === `${own}reload.js`) return { status: 200, type: "text/javascript", body: reloadScript };
  const look = pathname.startsWith(own) ? await lookAt(pathname.slice(own.length)) : undefined;
  if (look) return { status: 200, ...look };
  if (pathname === `/${songPath}` || pathname === "/song/")
    return desk(live, songs, address.searchParams.get("routine"));
  if (pathname === "/song") return { ...plain(302, ""), location: `/song/${address.search}` };
  if (pathname === "/keep-pages.js") return { status: 200, type: "text/javascript", body: forgetfulWorker };
  try {
    return await answerFrom(live, decodeURIComponent(pathname).slice(1));
  } catch (error) {
    return page(500, troublePage(errorText(error)), pathname, "");
  }
}

/** The song desk; it waits for no news, since a page that is loaded again has lost the song. */
async function desk(live: Live, { files, token }: SongWriter, slug: string | null): Promise<Answer> {
  const library = live.library();
  const shared = { language: library.language, ...(token !== undefined && { run: { header: runHeader, token } }) };
  if (slug === null) return deskPage(songPage(shared, library, live.routines()));
  const path = `routines/${slug}/index.html`;
  const there = await files.read(slug);
  if ("refused" in there) return page(404, nothingPage(path), path, live.keyAt(path));
  const { routine, findings } = readRoutine(there.text, slug, library, `routines/${slug}.md`);
  if (routine)
    return deskPage(songPage({ ...shared, routine: deskRoutine(routine, there.text, there.key) }, library, []));
  const sources = new Map([[`routines/${slug}.md`, there.text]]);
  return page(500, mistakesPage({ findings, sources }, path), path, live.keyAt(path));
}

function deskPage(body: string): Answer {
  return { status: 200, type: "text/html", body };
}

async function answerFrom(live: Live, asked: string): Promise<Answer> {
  const path = asked === "" || asked.endsWith("/") ? `${asked}index.html` : asked;
  const found = await live.at(path);
  if (found.kind === "mistakes") return page(500, mistakesPage(found.mistakes, path), path, found.key);
  if (found.kind === "file") {
    const { mediaType: type, body, told, stale } = found;
    if (type !== "text/html") return { status: 200, type, body };
    const blocks = [...(stale ? [staleBlock] : []), ...(told ? [toldBlock(told)] : [])];
    const html = withBlocks(Buffer.from(body).toString(), blocks, songLink(path, live.library()));
    return page(200, html, path, found.key);
  }
  // A folder's address without its slash: the links of its page would lead astray.
  const folder = await live.at(`${path}/index.html`);
  if (folder.kind === "file")
    return { ...plain(302, ""), location: `/${path.split("/").map(encodeURIComponent).join("/")}/` };
  return page(404, nothingPage(path), path, found.key);
}

/** A page of the site, with what to look at in it before everything else, and a link where it first speaks of its song, or else at its foot. */
function withBlocks(html: string, blocks: readonly string[], link = ""): string {
  const main = '<main id="main">';
  // A page that only leads on to another has nothing to say.
  if ((blocks.length === 0 && link === "") || !html.includes(main)) return html;
  const byline = /(?<=<p class="byline">[^\n]*\n)|(?=<\/main>)/;
  return html
    .replace("</head>", () => `${styleLink.html}</head>`)
    .replace(byline, () => link)
    .replace(main, () => (blocks.length === 0 ? main : `${main}\n${blocks.join("")}`));
}

/** A page, with the script that waits for news of it. */
function page(status: number, html: string, path: string, key: string): Answer {
  const address = `${own}reload.js?${new URLSearchParams({ path, key })}`.replaceAll("&", "&amp;");
  const script = `<script type="module" src="${address}"></script>\n`;
  return { status, type: "text/html", body: html.replace("</head>", () => `${script}</head>`) };
}

/** All text of a pack is UTF-8, which has to be said of these. */
function withCharset(type: string): string {
  return /^text\/|^application\/xml$/.test(type) ? `${type}; charset=utf-8` : type;
}

function plain(status: number, text: string): Answer {
  return { status, type: "text/plain", body: `${text}\n` };
}

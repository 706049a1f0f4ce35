import { spawn } from "node:child_process";
import { type IncomingMessage, request } from "node:http";
import { join, resolve } from "node:path";

const ownMain = join(resolve(import.meta.dirname, "../.."), "dist/cli/main.js");

export interface ServedLibrary {
  readonly port: number;
  readonly url: string;
  /** What the command has said so far. */
  readonly said: () => string;
  readonly stop: () => Promise<number | null>;
}

export interface ServeOptions {
  /** The command itself; this checkout's, where left out. */
  readonly main?: string;
  readonly host?: string;
  readonly env?: Readonly<Record<string, string>>;
}

/** Runs `countleaf serve` on a free port and waits until it is there. */
export function serve(content: string, { main = ownMain, host, env }: ServeOptions = {}): Promise<ServedLibrary> {
  const args = ["serve", "--content", content, "--port", "0", ...(host === undefined ? [] : ["--host", host])];
  const child = spawn(process.execPath, [main, ...args], { env: { ...process.env, ...env } });
  let said = "";
  const ended = new Promise<number | null>((done) => child.on("close", done));
  const stop = () => {
    child.kill("SIGINT");
    return ended;
  };
  return new Promise((done, failed) => {
    child.stderr.on("data", (data) => {
      said += data;
    });
    child.stdout.on("data", (data) => {
      said += data;
      const [, port] = /http:\/\/\S+:(\d+)\//.exec(said) ?? [];
      if (port !== undefined) done({ port: Number(port), url: `http://localhost:${port}`, said: () => said, stop });
    });
    ended.then((status) => failed(new Error(`ended with ${status}: ${said}`)));
  });
}

export interface Got {
  readonly status: number;
  readonly type: string;
  readonly text: string;
}

/** Asks for a path as it is written, which `fetch` and browsers would tidy up. */
export async function get({ port }: ServedLibrary, path: string, options: object = {}): Promise<Got> {
  const answer = await open(port, path, options);
  let text = "";
  for await (const data of answer.setEncoding("utf8")) text += data;
  return { status: answer.statusCode ?? 0, type: answer.headers["content-type"] ?? "", text };
}

/** Opens a page and waits for the news that it has changed; what comes back tells it. */
export async function newsOf(served: ServedLibrary, path: string): Promise<{ readonly changed: Promise<void> }> {
  const { text } = await get(served, path);
  const [, script = ""] = /src="(\/~live\/reload\.js[^"]*)"/.exec(text) ?? [];
  const search = script.replaceAll("&amp;", "&").replace(/^[^?]*/, "");
  const stream = await open(served.port, `/~live/news${search}`, {});
  const changed = new Promise<void>((done, failed) => {
    stream.setEncoding("utf8").on("data", (data: string) => {
      if (!data.includes("data: changed")) return;
      stream.destroy();
      done();
    });
    stream.on("error", failed);
  });
  return { changed };
}

export function open(port: number, path: string, options: object): Promise<IncomingMessage> {
  return new Promise((done, failed) => {
    request({ host: "127.0.0.1", port, path, headers: { host: `localhost:${port}` }, ...options }, done)
      .on("error", failed)
      .end();
  });
}

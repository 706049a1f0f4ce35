import type { AddressInfo } from "node:net";
import { type Mistakes, openLive } from "./live.js";
import { routineFiles } from "./routine-file.js";
import { liveServer } from "./server.js";
import { songWriter } from "./song-writer.js";
import { watchContent } from "./watch.js";

export interface ServeOptions {
  readonly content: string;
  /** The usual one where left out, or any other that is free. */
  readonly port?: number;
  /** The address to listen at; left out, none that leads here from outside this computer. */
  readonly host?: string;
  /** Told what is to be mended or looked at, after every save. */
  readonly told: (mistakes: Mistakes) => void;
  /** Told why a save could not be followed, where that lies outside the content. */
  readonly failed: (error: unknown) => void;
}

export interface Serving {
  /** Where the library is to be seen. */
  readonly address: string;
  readonly close: () => Promise<void>;
}

const usualPort = 8080;
const loopback = "127.0.0.1";
const reasons: Readonly<Record<string, string>> = {
  EADDRINUSE: "another program is there already",
  EADDRNOTAVAIL: "this computer has no such address",
  EACCES: "you are not allowed to",
  ENOTFOUND: "there is no such host",
};
/** What a browser on this computer calls it. */
const here = ["localhost", "127.0.0.1", "[::1]"];
/** Addresses that lead here from this computer alone. */
const alone = ["localhost", "127.0.0.1", "::1"];

/**
 * Serves a library that follows what is saved.
 *
 * @throws Error in words that say what to do, where that can't be served
 */
export async function serveLibrary({ content, port, host = loopback, told, failed }: ServeOptions): Promise<Serving> {
  const live = await openLive(content);
  const isAlone = alone.includes(host);
  const songs = songWriter(routineFiles(content), live.library, isAlone);
  const { server, tell } = liveServer(live, songs, isAlone ? here : undefined);
  const listen = (at: number) =>
    new Promise<void>((done, failed) => {
      server.once("error", failed);
      server.listen(at, host, done);
    });
  try {
    await listen(port ?? usualPort).catch((error: NodeJS.ErrnoException) => {
      if (error.code !== "EADDRINUSE" || port !== undefined) throw error;
      return listen(0);
    });
  } catch (error) {
    await live.close();
    const { code = "", message } = error as NodeJS.ErrnoException;
    const why = reasons[code] ?? message;
    throw new Error(`can't serve at ${host}, port ${port ?? usualPort}: ${why}; choose another with --port or --host`);
  }
  // What everybody will ask for, and the thread that makes it gets warm.
  live.at("index.html").catch(() => {});
  const sayMistakes = () => told(live.told());
  sayMistakes();
  let closed = false;
  const follow = async () => {
    try {
      await live.refresh();
      tell();
      sayMistakes();
    } catch (error) {
      // Called off in the middle of it is no fault.
      if (!closed) failed(error);
    }
  };
  const unwatch = watchContent(content, inTurn(follow));
  return {
    address: addressOf(server.address() as AddressInfo),
    close: async () => {
      closed = true;
      unwatch();
      server.close();
      server.closeAllConnections();
      await live.close();
    },
  };
}

function addressOf({ address, family, port }: AddressInfo): string {
  const name = address === loopback ? "localhost" : family === "IPv6" ? `[${address}]` : address;
  return `http://${name}:${port}/`;
}

/** Has work that never fails done one after the other, and once more where it was asked for meanwhile. */
function inTurn(work: () => Promise<void>): () => void {
  let [running, again] = [false, false];
  return async () => {
    again = true;
    if (running) return;
    running = true;
    while (again) {
      again = false;
      await work();
    }
    running = false;
  };
}

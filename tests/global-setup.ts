import { mkdtemp, rm } from "node:fs/promises";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { TestProject } from "vitest/node";
import { readContent } from "../src/reading/read-content.js";
import { launchBrowser } from "./browser/launch.js";
import { publishInto } from "./browser/publish.js";
import type { Made } from "./shared.js";

/* Files of tests run in processes of their own. What they share is made here, when the first of them asks for it. */

const demo = fileURLToPath(new URL("../content", import.meta.url));

interface Thing {
  readonly place: string;
  readonly remove: () => Promise<void>;
}

const makers: Readonly<Record<Made, () => Promise<Thing>>> = {
  browser: async () => {
    const browser = await launchBrowser();
    return { place: browser.wsEndpoint(), remove: () => browser.close() };
  },
  demo: async () => {
    const folder = await mkdtemp(join(tmpdir(), "countleaf-demo-"));
    await publishInto(await readContent(demo), folder);
    return { place: folder, remove: () => rm(folder, { recursive: true }) };
  },
};

export default async function setup(project: TestProject): Promise<(() => Promise<void>) | undefined> {
  // Called for every project of the run, and first for what they are projects of.
  if (!project.isRootProject()) return undefined;
  const things = new Map<Made, Promise<Thing>>();
  const server = createServer(async ({ url = "/" }, response) => {
    try {
      const what = url.slice(1) as Made;
      const thing = things.get(what) ?? makers[what]();
      things.set(what, thing);
      response.end((await thing).place);
    } catch (error) {
      response.writeHead(500).end(String(error));
    }
  });
  await new Promise<void>((ready) => server.listen(0, "127.0.0.1", ready));
  project.provide("shared", `http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
  return async () => {
    server.closeAllConnections();
    server.close();
    for (const thing of await Promise.allSettled(things.values()))
      if (thing.status === "fulfilled") await thing.value.remove();
  };
}

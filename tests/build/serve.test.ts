import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { type AddressInfo, connect, createServer } from "node:net";
import { networkInterfaces, tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout } from "node:timers/promises";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { type Found, type Live, type Mistakes, openLive } from "../../src/build/live/live.js";
import { rememberingReader } from "../../src/build/live/remember.js";
import { routineFiles } from "../../src/build/live/routine-file.js";
import { serveLibrary } from "../../src/build/live/serve.js";
import { liveServer } from "../../src/build/live/server.js";
import { songWriter } from "../../src/build/live/song-writer.js";
import { openBrowser } from "../browser/browser.js";
import { plainLibrary } from "../fixtures/written.js";
import { countleaf, routineText, writeContent } from "./run.js";
import { get, newsOf, open, type ServedLibrary, serve } from "./serving.js";

const work = mkdtempSync(join(tmpdir(), "countleaf-serve-"));
const content = join(work, "content");
const workshop = "---\ntitle: Eve\nminutes: 60\nroutines: [lamp]\n---\nBring shoes.\n";
let served: ServedLibrary;

beforeAll(async () => {
  writeContent(content, {
    "routines/kerb.md": routineText("Kerb").replace("date:", "formerly: [curb]\ndate:"),
    "routines/lamp.md": routineText("Lamp"),
    "workshops/eve.md": workshop,
  });
  writeContent(work, {
    "secret.txt": "not for you",
    "content-evil/routines/neighbour.md": "---\ntitle: not for you\n---\n",
    "_site-evil/secret.txt": "not for you",
  });
  served = await serve(content);
});

afterAll(async () => {
  await served.stop();
  rmSync(work, { recursive: true, force: true });
});

/** Changes files and waits until an open page has heard of it. */
async function saved(path: string, change: () => void) {
  const { changed } = await newsOf(served, path);
  change();
  await changed;
  return get(served, path);
}

/** Files are written aside and moved into place, so that no half of one is ever there. */
const save = (files: Readonly<Record<string, string>>) => () => {
  for (const [path, text] of Object.entries(files)) {
    writeFileSync(join(work, "aside"), text);
    renameSync(join(work, "aside"), join(content, path));
  }
};

describe("a library that is served", () => {
  it.each([
    ["/", 200, "text/html; charset=utf-8"],
    ["/routines/kerb/", 200, "text/html; charset=utf-8"],
    ["/routines/kerb/index.html", 200, "text/html; charset=utf-8"],
    ["/routines/kerb/handout-1.pdf", 200, "application/pdf"],
    ["/routines/kerb/routine.json", 200, "application/json"],
    ["/routines/kerb/counts.vtt", 200, "text/vtt; charset=utf-8"],
    ["/workshops/eve/", 200, "text/html; charset=utf-8"],
    ["/workshops/eve/pack.pdf", 200, "application/pdf"],
    ["/assets/style.css", 200, "text/css; charset=utf-8"],
    ["/feed.xml", 200, "application/xml; charset=utf-8"],
    ["/routines/kerb", 302, "text/plain; charset=utf-8"],
    ["/routines/curb/", 200, "text/html; charset=utf-8"],
    ["/routines/curb", 302, "text/plain; charset=utf-8"],
    ["/routines/curb/handout-1.pdf", 404, "text/html; charset=utf-8"],
    ["/~live/style.css", 200, "text/css; charset=utf-8"],
    ["/~live/atkinson-hyperlegible-next-latin-400-normal.woff2", 200, "font/woff2"],
    ["/song/", 200, "text/html; charset=utf-8"],
    ["/song/?routine=kerb", 200, "text/html; charset=utf-8"],
    ["/song?routine=kerb", 302, "text/plain; charset=utf-8"],
    ["/song/?routine=nobody", 404, "text/html; charset=utf-8"],
    ["/song/?routine=..%2F..%2Fsecret", 404, "text/html; charset=utf-8"],
    ["/~live/song/song.js", 200, "text/javascript; charset=utf-8"],
    ["/~live/song/listen.js", 200, "text/javascript; charset=utf-8"],
    ["/~live/song/style.css", 200, "text/css; charset=utf-8"],
    ["/~live/song/..%2F..%2Fpackage.json", 404, "text/html; charset=utf-8"],
    ["/~live/package.json", 404, "text/html; charset=utf-8"],
    ["/routines/nobody/", 404, "text/html; charset=utf-8"],
    ["/routines/kerb/nothing.pdf", 404, "text/html; charset=utf-8"],
  ])("has %s", async (path, status, type) => {
    expect(await get(served, path)).toMatchObject({ status, type });
  });

  it("shows the pages as they will be published, but for one script and what leads to the song desk", async () => {
    const out = join(work, "pack");
    expect((await countleaf(["build", "--content", content, "--out", out])).status).toBe(0);
    const songLinks: Readonly<Record<string, string>> = {
      "index.html": 'href="/song/"',
      "routines/kerb/index.html": 'href="/song/?routine=kerb"',
    };
    for (const path of ["index.html", "routines/kerb/index.html", "workshops/eve/index.html"]) {
      const published = readFileSync(join(out, path), "utf8");
      expect(published).not.toContain("~live");
      const { text } = await get(served, `/${path}`);
      const link = /<p class="live-song">[^\n]*\n/.exec(text)?.[0] ?? "";
      expect(/href="[^"]*"/.exec(link)?.[0]).toBe(songLinks[path]);
      // Under who made it and to which song; at the foot of the library.
      expect(text).toMatch(path.startsWith("routines") ? /class="byline">[^\n]*\n<p class="live-song">/ : /<\/main>/);
      const own = /<(?:script type="module" src|link rel="stylesheet" href)="\/~live[^\n]*\n/g;
      expect(text.replace(link, "").replace(own, "")).toBe(published);
    }
    expect((await get(served, "/song/")).text).toContain('<option value="kerb">Kerb</option>');
    const pdf = (await get(served, "/routines/kerb/handout-1.pdf")).text;
    expect(pdf).toBe(readFileSync(join(out, "routines/kerb/handout-1.pdf"), "utf8"));
  });

  it("leads on from an address that a routine had before, and says what there is none of", async () => {
    expect((await get(served, "/routines/curb/")).text).toContain('<a href="../kerb/index.html" data-moved>Kerb</a>');
    const { text } = await get(served, "/routines/nobody/");
    expect(text).toContain(
      "There is no routine <code>nobody</code>: its page is made of <code>routines/nobody.md</code>",
    );
  });

  it.each([
    "/../secret.txt",
    "/../../../../../../etc/passwd",
    "/..%2fsecret.txt",
    "/%2e%2e/%2e%2e/etc/passwd",
    "/..\\secret.txt",
    "/routines/../../secret.txt",
    "/routines/kerb/../../../secret.txt",
    "/routines/..%2f..%2fsecret.txt/index.html",
    "/routines/kerb/%00",
    "/../content-evil/routines/neighbour.md",
    "/..%2fcontent-evil/routines/neighbour.md",
    "/routines/kerb/..%2f..%2f..%2fcontent-evil%2froutines%2fneighbour.md",
    "/../_site-evil/secret.txt",
    "/routines-evil/kerb/index.html",
    "/routines/kerb-evil/index.html",
    "/routines/kerb/../kerb-evil/",
    "/%C5%82odz/..%2f..%2fsecret.txt",
    "//etc/passwd",
    "/routines/kerb.md",
    "/library.yaml",
    "/.countleaf",
    "/%",
    "/assets/../../../../../etc/passwd",
    "/__proto__",
    "/routines/__proto__/",
    "/constructor",
  ])("gives nothing away at %s", async (path) => {
    const { status, text } = await get(served, path);
    expect([400, 404]).toContain(status);
    expect(text).not.toMatch(/not for you|root:|choreographer:/);
  });

  it("answers this computer alone, and no page that has had another name lead here", async () => {
    const hosts = [
      "elsewhere.example",
      "127.0.0.1.evil.example",
      "localhost.evil.example",
      "evil-localhost",
      "localhosts",
    ];
    const odd = ["localhost@evil.example", "[::1].evil.example", "evil.example/localhost", "127.0.0.10", "0.0.0.0"];
    for (const host of [...hosts, ...odd].flatMap((name) => [name, `${name}:${served.port}`]))
      expect((await get(served, "/", { headers: { host } })).status, host).toBe(400);
    for (const path of ["//localhost/", "//127.0.0.1/routines/kerb/", "http://localhost/"])
      expect((await get(served, path, { headers: { host: "elsewhere.example" } })).status, path).toBe(400);
    for (const host of ["localhost", "LOCALHOST", "127.0.0.1", "[::1]"])
      expect((await get(served, "/", { headers: { host } })).status, host).toBe(200);
    expect((await get(served, "/", { method: "POST" })).status).toBe(405);
    const outside = Object.values(networkInterfaces())
      .flatMap((list) => list ?? [])
      .filter(({ internal, family }) => !internal && family === "IPv4");
    for (const { address } of outside) {
      const reached = await new Promise((done) => {
        const socket = connect(served.port, address, () => done("reached"));
        socket.on("error", () => done("refused"));
      });
      expect(reached, address).toBe("refused");
    }
  });
});

describe("a link in the content folder", () => {
  it("to a neighbour whose name begins like the folder's is not followed", async () => {
    const link = join(content, "routines/neighbour.md");
    symlinkSync("../../content-evil/routines/neighbour.md", link);
    const page = () => get(served, "/routines/neighbour/");
    await expect.poll(async () => (await page()).text).toContain("a link to a file outside the content folder");
    expect((await page()).text).not.toContain("not for you");
    rmSync(link);
    await expect.poll(async () => (await page()).status).toBe(404);
  });
});

/** A library that answers as these functions do, served in this process; nothing of it is there otherwise. */
async function pretend(live: Partial<Live>, ask: (at: ServedLibrary, tell: () => void) => Promise<void>) {
  const nothing = { kind: "nothing", key: "" } as const;
  const whole = {
    at: async () => nothing,
    keyAt: () => "",
    library: () => plainLibrary,
    routines: () => [],
    told: () => ({ findings: [], sources: new Map() }),
    refresh: async () => {},
    close: async () => {},
    ...live,
  };
  const { server, tell } = liveServer(whole, songWriter(routineFiles(content), whole.library, false));
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  const { port } = server.address() as AddressInfo;
  try {
    await ask({ port, url: `http://localhost:${port}`, said: () => "", stop: async () => 0 }, tell);
  } finally {
    server.closeAllConnections();
    server.close();
  }
}

const fileOf = (mediaType: string): Found => ({ kind: "file", body: Buffer.from("x"), mediaType, key: "" });

describe("no question ends the program", () => {
  it.each(["łodz", "танго", "%C5%82odz", "a%0d%0aX-Evil:%201", "踊り"])("not that for a folder %s", async (name) => {
    const at = async (path: string): Promise<Found> =>
      path.endsWith("/index.html") ? fileOf("text/html") : { kind: "nothing", key: "" };
    await pretend({ at }, async (served) => {
      const path = encodeURI(decodeURIComponent(name));
      const { headers, statusCode } = await open(served.port, `/routines/${path}`, {});
      expect([statusCode, headers.location]).toEqual([
        302,
        `/routines/${encodeURIComponent(decodeURIComponent(name))}/`,
      ]);
      expect(headers["x-evil"]).toBeUndefined();
    });
  });

  it("nor one at which the program itself goes wrong", async () => {
    const trouble = () => {
      throw new Error("the floor gave way");
    };
    await pretend(
      { keyAt: trouble, at: async (path) => (path === "odd" ? fileOf("text/ł") : trouble()) },
      async (served) => {
        for (const path of ["/", "/routines/kerb/", "/~live/reload.js"]) await get(served, path);
        expect((await get(served, "/index.html")).text).toContain("the floor gave way");
        const odd = await get(served, "/odd");
        expect([odd.status, odd.text]).toEqual([
          500,
          expect.stringMatching(/^This could not be answered: .*goes on\.\n$/),
        ]);
        // What has begun to answer can only break off.
        await expect(get(served, "/~live/news?path=index.html&key=x")).rejects.toThrow();
        expect((await get(served, "/~live/reload.js")).status).toBe(200);
      },
    );
  });
});

describe("pages that are open", () => {
  it("are told of news alone, each for itself, and no more than a hundred of them", async () => {
    let asked = 0;
    let key = "before";
    const keyAt = () => {
      asked++;
      return key;
    };
    await pretend({ keyAt }, async (served, tell) => {
      const streams = [];
      for (let count = 0; count < 102; count++) {
        const stream = await open(served.port, `/~live/news?path=${count}&key=before`, {});
        streams.push(stream.setEncoding("utf8"));
      }
      expect(asked).toBe(102);
      const ended = streams.slice(0, 2).map((stream) => new Promise((done) => stream.resume().on("end", done)));
      await Promise.all(ended);
      key = "after";
      const news = streams.slice(2).map(
        (stream) =>
          new Promise<void>((done) => {
            stream.on("data", (text: string) => text.includes("data: changed") && done());
          }),
      );
      tell();
      await Promise.all(news);
      expect(asked).toBe(202);
      // Told once, they hear nothing of a save that changes nothing for them.
      const heard = streams.slice(2).map((stream) => {
        const more: string[] = [];
        stream.on("data", (text: string) => more.push(text));
        return more;
      });
      tell();
      key = "later";
      tell();
      await expect
        .poll(
          () =>
            heard
              .flat()
              .join("")
              .match(/changed/g)?.length,
        )
        .toBe(100);
    });
  });

  it("cost one digest of what they show, however many they are", async () => {
    const live = await openLive(content);
    const digests = vi.spyOn(JSON, "stringify");
    try {
      live.keyAt("index.html");
      const first = digests.mock.calls.length;
      for (let count = 0; count < 50; count++) live.keyAt("index.html");
      expect([first, digests.mock.calls.length]).toEqual([first, first]);
    } finally {
      digests.mockRestore();
      await live.close();
    }
  });
});

describe("what is made", () => {
  it("is made again where its temporary folder was cleared away", async () => {
    const temporary = join(work, "cleared");
    mkdirSync(temporary);
    const other = await serve(content, { env: { TMPDIR: temporary } });
    const paths = ["/", "/routines/kerb/", "/routines/kerb/handout-1.pdf", "/workshops/eve/pack.pdf"];
    const all = () => Promise.all(paths.map(async (path) => (await get(other, path)).text));
    const before = await all();
    const folders = readdirSync(temporary).map((name) => join(temporary, name));
    const files = folders.flatMap((folder) =>
      readdirSync(folder, { recursive: true, withFileTypes: true }).flatMap((entry) =>
        entry.isFile() ? [join(entry.parentPath, entry.name)] : [],
      ),
    );
    expect(files.length).toBeGreaterThan(paths.length);
    for (const file of files) rmSync(file);
    expect(await all()).toEqual(before);
    for (const what of [...folders, temporary]) {
      rmSync(what, { recursive: true });
      expect(await all()).toEqual(before);
    }
    expect(await other.stop()).toBe(0);
    expect(readdirSync(temporary)).toEqual([]);
  });
});

describe("a save", () => {
  it("that is caught half done, the file empty, shows the page as it was until it is whole", async () => {
    const seen: number[] = [];
    const { changed } = await newsOf(served, "/routines/kerb/");
    writeFileSync(join(content, "routines/kerb.md"), "");
    for (let look = 0; look < 15; look++) {
      seen.push((await get(served, "/routines/kerb/")).status);
      await setTimeout(10);
    }
    writeFileSync(join(content, "routines/kerb.md"), routineText("Kerb whole"));
    await changed;
    const { text } = await get(served, "/routines/kerb/");
    expect(text).toContain("<h1>Kerb whole</h1>");
    expect(new Set(seen)).toEqual(new Set([200]));
    await saved("/routines/kerb/", save({ "routines/kerb.md": routineText("Kerb") }));
  });

  it("is seen on the page, and only pages that it changes hear of it", async () => {
    const lamp = await newsOf(served, "/routines/lamp/");
    let heard = false;
    lamp.changed.then(() => {
      heard = true;
    });
    const after = await saved("/routines/kerb/", save({ "routines/kerb.md": routineText("Kerbstone") }));
    expect(after.text).toContain("<h1>Kerbstone</h1>");
    expect((await get(served, "/")).text).toContain("Kerbstone");
    expect(heard).toBe(false);
    await saved("/routines/lamp/", save({ "routines/lamp.md": routineText("Lamp", "Step left and right") }));
    await lamp.changed;
  });

  it("is seen in the handouts as well, and those of a level that goes go with it", async () => {
    const pdf = () => get(served, "/routines/kerb/handout-2.pdf");
    const levels = (text: string) => text.replace("start:", "levels: [1, 2]\nstart:");
    await saved("/routines/kerb/", save({ "routines/kerb.md": levels(routineText("Kerb")) }));
    const [first, again] = [await pdf(), await pdf()];
    expect([first.status, again.text]).toEqual([200, first.text]);
    await saved("/routines/kerb/", save({ "routines/kerb.md": levels(routineText("Kerb at dusk")) }));
    const later = await pdf();
    expect(later.status).toBe(200);
    expect(later.text).not.toBe(first.text);
    await saved("/routines/kerb/", save({ "routines/kerb.md": routineText("Kerb at dusk") }));
    expect((await pdf()).status).toBe(404);
  });

  it("with something to look at is told, though it hides no page", async () => {
    const doubtful = routineText("Kerb", "Cartwheel");
    const page = await saved("/routines/kerb/", save({ "routines/kerb.md": doubtful }));
    expect(page.status).toBe(200);
    expect(page.text).toMatch(/<main id="main">\n<details class="live-told" open><summary>One thing to look at before/);
    expect(page.text).toMatch(/routines\/kerb\.md, line 10, column \d+/);
    expect(page.text).toContain('<link rel="stylesheet" href="/~live/style.css">');
    for (const other of ["/", "/routines/lamp/"]) expect((await get(served, other)).text).not.toContain("live-told");
    await expect.poll(() => served.said()).toMatch(/kerb\.md:10:\d+ {2}warning: /);
    await saved("/routines/kerb/", save({ "routines/kerb.md": routineText("Kerb") }));
  });

  it("in a folder that has taken the place of another is seen as well", async () => {
    const [folder, aside] = [join(content, "routines"), join(work, "routines-aside")];
    renameSync(folder, aside);
    cpSync(aside, folder, { recursive: true });
    rmSync(aside, { recursive: true });
    const { text } = await saved("/routines/lamp/", save({ "routines/lamp.md": routineText("Lamp by the tram") }));
    expect(text).toContain("<h1>Lamp by the tram</h1>");
    await saved("/routines/lamp/", save({ "routines/lamp.md": routineText("Lamp") }));
  });

  it("by way of another file, as many editors do it, is seen as well", async () => {
    const file = join(content, "routines/kerb.md");
    const { text } = await saved("/routines/kerb/", () => {
      writeContent(content, { "routines/.kerb.md.swp": routineText("Kerb three") });
      renameSync(join(content, "routines/.kerb.md.swp"), file);
    });
    expect(text).toContain("<h1>Kerb three</h1>");
  });

  it("with a mistake shows what to mend in place of the page; the others go on; mended, the page is back", async () => {
    const broken = routineText("Kerb # a remark").replace("1-2:", "9-12:");
    const page = await saved("/routines/kerb/", save({ "routines/kerb.md": broken }));
    expect(page.status).toBe(500);
    expect(page.text).toContain("<h1>One thing to mend</h1>");
    expect(page.text).toMatch(/routines\/kerb\.md, line 10, column \d+/);
    expect(page.text).toContain("<mark>9-12:</mark> { do: Step right and close");
    expect(served.said()).toContain("kerb.md:10:");
    const pdf = await get(served, "/routines/kerb/handout-1.pdf");
    expect([pdf.status, pdf.text]).toEqual([500, expect.stringContaining("<mark>9-12:</mark>")]);
    const elsewhere = broken.replace("9-12: {", "9-12:  {");
    expect((await saved("/routines/kerb/", save({ "routines/kerb.md": elsewhere }))).text).toContain("</mark>  { do:");
    for (const other of ["/", "/routines/lamp/", "/workshops/eve/"])
      expect((await get(served, other)).status).toBe(200);
    const { text: shelf } = await get(served, "/");
    expect(shelf).toContain('<a href="routines/kerb/index.html">Kerb</a></h3><p class="broken">1 thing to mend</p>');
    // In the place where it was, by its title among those of the same day.
    expect(shelf.indexOf("routines/kerb/")).toBeLessThan(shelf.indexOf("routines/lamp/"));
    expect(JSON.parse((await get(served, "/library.json")).text).routines).toMatchObject([{ slug: "lamp" }]);
    const mended = await saved("/routines/kerb/", save({ "routines/kerb.md": routineText("Kerb") }));
    expect([mended.status, mended.text]).toEqual([200, expect.stringContaining("<h1>Kerb</h1>")]);
    expect(served.said()).toContain("All is mended.");
  });

  it("with a mistake that hides a class names the routine to mend", async () => {
    const page = await saved("/workshops/eve/", save({ "routines/lamp.md": "no front matter" }));
    expect([page.status, page.text]).toEqual([500, expect.stringContaining("routines/lamp.md")]);
    expect((await get(served, "/")).text).toContain('<p class="broken">Waits for lamp to be mended</p>');
    const mended = await saved("/workshops/eve/", save({ "routines/lamp.md": routineText("Lamp") }));
    expect(mended.status).toBe(200);
  });

  it("of a broken library.yaml stands in place of the first page; the others keep what it said before", async () => {
    const before = await get(served, "/routines/lamp/");
    const page = await saved("/", save({ "library.yaml": "name: [Kerbside\n" }));
    expect([page.status, page.text]).toEqual([500, expect.stringContaining("library.yaml")]);
    const meanwhile = await get(served, "/routines/lamp/");
    const line = /<p class="live-told"><a href="\/"><code>library\.yaml<\/code> has something to mend.*\n/;
    expect(meanwhile.text).toMatch(line);
    const plain = ({ text }: { text: string }) =>
      text
        .replace(line, "")
        .replace(/\n?.*~live\/.*/g, "")
        .replace(/>\n+/g, ">");
    expect(plain(meanwhile)).toBe(plain(before));
    const { changed } = await newsOf(served, "/routines/lamp/");
    const mended = await saved("/", save({ "library.yaml": "name: Tramside Room\n" }));
    await changed;
    expect((await get(served, "/routines/lamp/")).text).not.toMatch(line);
    expect([mended.status, mended.text]).toEqual([200, expect.stringContaining("Tramside Room")]);
  });

  it("of a new routine puts it on the first page, and its removal takes it off", async () => {
    expect((await saved("/", save({ "routines/moth.md": routineText("Moth") }))).text).toContain("Moth");
    expect((await get(served, "/routines/moth/")).status).toBe(200);
    expect((await saved("/", () => rmSync(join(content, "routines/moth.md")))).text).not.toContain("Moth");
    // A reading that had begun before the file went may have met it half gone; the next one does not.
    await expect.poll(async () => (await get(served, "/routines/moth/")).status).toBe(404);
  });
});

describe("in a real browser", () => {
  it("a page loads itself anew after a save, through a mistake and back", async () => {
    const browser = await openBrowser();
    try {
      const page = await browser.newPage();
      const complaints: string[] = [];
      page.on("pageerror", (error) => complaints.push(error.message));
      page.on("console", (message) => message.type() === "error" && complaints.push(message.text()));
      await page.goto(`${served.url}/routines/kerb/`);
      const heading = (text: string) => page.locator("h1", { hasText: text }).waitFor({ timeout: 30_000 });
      save({ "routines/kerb.md": routineText("Kerb at noon") })();
      await heading("Kerb at noon");
      save({ "routines/kerb.md": routineText("Kerb at noon").replace("title:", "titel:") })();
      await heading("to mend");
      save({ "routines/kerb.md": routineText("Kerb at night") })();
      await heading("Kerb at night");
      // What a page was still fetching when its routine broke is not there; no script and no policy may complain.
      expect(complaints.filter((text) => !text.startsWith("Failed to load resource"))).toEqual([]);
    } finally {
      await browser.close();
    }
  });
});

describe("where it is served", () => {
  const told: string[] = [];
  const options = { content, told: ({ findings }: Mistakes) => told.push(`${findings.length}`), failed: () => {} };

  it("is another place where another program is at the usual one, and what is to be mended is told at once", async () => {
    const other = createServer();
    // Where somebody is there already, that will do as well.
    const taken = await new Promise<boolean>((done) => {
      other.once("error", () => done(false));
      other.listen(8080, "127.0.0.1", () => done(true));
    });
    try {
      const serving = await serveLibrary(options);
      expect(told).toEqual(["0"]);
      expect(serving.address).toMatch(/^http:\/\/localhost:\d+\/$/);
      const port = Number(new URL(serving.address).port);
      expect(port).not.toBe(8080);
      await expect(serveLibrary({ ...options, port })).rejects.toThrow(
        `can't serve at 127.0.0.1, port ${port}: another program is there already; choose another`,
      );
      await serving.close();
    } finally {
      if (taken) other.close();
    }
  });

  it("a file that is gone when it is to be read is said so", async () => {
    const file = await rememberingReader()(content, "routines", "gone.md");
    expect(file.findings).toMatchObject([{ rule: "missing-file" }]);
  });
});

describe("called off", () => {
  const temporary = join(work, "temporary");
  const servedThere = async () => {
    mkdirSync(temporary, { recursive: true });
    return serve(content, { env: { TMPDIR: temporary } });
  };

  it("it ends, and leaves nothing behind", async () => {
    const other = await servedThere();
    const made = () => readdirSync(join(temporary, readdirSync(temporary)[0] ?? ""));
    expect((await get(other, "/routines/kerb/")).status).toBe(200);
    expect(readdirSync(temporary)).toHaveLength(1);
    // Asked for again it is not made again, and what was made of an earlier state goes.
    const before = made();
    const { changed } = await newsOf(other, "/routines/kerb/");
    expect(made()).toEqual(before);
    save({ "routines/kerb.md": routineText("Kerb made anew") })();
    await changed;
    expect((await get(other, "/routines/kerb/")).text).toContain("Kerb made anew");
    await expect.poll(() => made().filter((name) => !before.includes(name)).length).toBe(1);
    await expect.poll(() => made().length).toBe(before.length);
    expect(await other.stop()).toBe(0);
    expect(readdirSync(temporary)).toEqual([]);
  });

  it.each([0, 40])("%s ms after a save as well", async (delay) => {
    const other = await servedThere();
    save({ "library.yaml": `name: Tramside Room\ncautions: After ${delay} ms\n` })();
    await setTimeout(delay);
    expect(await other.stop(), other.said()).toBe(0);
    expect(readdirSync(temporary)).toEqual([]);
  });
});

it("answers this computer alone at the address of IPv6 too, where it has one", async () => {
  const loopbacks = Object.values(networkInterfaces()).flatMap((list) => list ?? []);
  for (const { address } of loopbacks.filter(({ address }) => address === "::1")) {
    const other = await serve(content, { host: address });
    const options = { host: address, headers: { host: "elsewhere.example" } };
    expect((await get(other, "/", options)).status).toBe(400);
    expect((await get(other, "/", { ...options, headers: { host: `[::1]:${other.port}` } })).status).toBe(200);
    expect(await other.stop()).toBe(0);
  }
});

import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { type IncomingMessage, request, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeEach, describe, expect, it } from "vitest";
import type { SongAnswer } from "../../src/build/live/desk-data.js";
import type { Live } from "../../src/build/live/live.js";
import { routineFiles } from "../../src/build/live/routine-file.js";
import { liveServer } from "../../src/build/live/server.js";
import { runHeader, type SongWriter, songWriter } from "../../src/build/live/song-writer.js";
import { plainLibrary } from "../fixtures/written.js";
import { routineText, writeContent } from "./run.js";

const work = mkdtempSync(join(tmpdir(), "countleaf-song-writer-"));
const content = join(work, "content");
const file = join(content, "routines/kerb.md");
const text = routineText("Kerb");
let server: Server;
let songs: SongWriter;
afterAll(() => rmSync(work, { recursive: true, force: true }));

async function serveAs(alone: boolean) {
  const live: Live = {
    at: async () => ({ kind: "nothing", key: "" }),
    keyAt: () => "",
    library: () => plainLibrary,
    routines: () => [],
    told: () => ({ findings: [], sources: new Map() }),
    refresh: async () => {},
    close: async () => {},
  };
  songs = songWriter(routineFiles(content), live.library, alone);
  ({ server } = liveServer(live, songs, alone ? ["localhost", "127.0.0.1", "[::1]"] : undefined));
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
}

beforeEach(async () => {
  rmSync(content, { recursive: true, force: true });
  writeContent(content, { "routines/kerb.md": text });
  await serveAs(true);
});
afterEach(() => {
  server.closeAllConnections();
  server.close();
});

const port = () => (server.address() as AddressInfo).port;
const host = () => `localhost:${port()}`;
/** What a page of this run sends. */
const honest = () => ({
  host: host(),
  origin: `http://${host()}`,
  "sec-fetch-site": "same-origin",
  "content-type": "application/json",
  [runHeader]: songs.token ?? "",
});

async function post(question: string, body: unknown, headers: object = {}) {
  const answer = await new Promise<IncomingMessage>((done, failed) => {
    const options = { host: "127.0.0.1", port: port(), path: `/~live/song/${question}`, method: "POST" };
    request({ ...options, headers: { ...honest(), ...headers } }, done)
      .on("error", failed)
      .end(typeof body === "string" ? body : JSON.stringify(body));
  });
  let said = "";
  for await (const data of answer.setEncoding("utf8")) said += data;
  return {
    status: answer.statusCode,
    answer: (said.startsWith("{") ? JSON.parse(said) : { refused: said }) as SongAnswer,
  };
}

const desk = async () => (await fetch(`http://127.0.0.1:${port()}/song/?routine=kerb`)).text();

async function keyNow(): Promise<string> {
  const found = await routineFiles(content).read("kerb");
  if ("refused" in found) throw new Error(found.refused);
  return found.key;
}
const figures = { countsPerMinute: 95.5, firstCount: 14.35 };
const after = text.replace("96", "95.5").replace("0:14.2", "0:14.35");
const asked = async (more: object = {}) => ({ slug: "kerb", key: await keyNow(), figures, ...more });
/** Nothing was written, there or anywhere beside it. */
const untouched = () => {
  expect(readFileSync(file, "utf8")).toBe(text);
  expect(readdirSync(content, { recursive: true, encoding: "utf8" }).sort()).toEqual([
    "library.yaml",
    "routines",
    "routines/kerb.md",
  ]);
};

describe("the song desk of this run", () => {
  it("is told what is to be written, writes it, and takes it back", async () => {
    const line = text.split("\n").findIndex((one) => one.startsWith("music:"));
    const lines = [{ line: line + 1, before: text.split("\n")[line], after: after.split("\n")[line] }];
    expect(await post("lines", await asked())).toMatchObject({ status: 200, answer: { lines } });
    // What does not stand there need not be taken out.
    const needless = { sections: [{ index: 0, countsPerMinute: 90, needless: ["tempo"] }] };
    expect(await post("lines", await asked({ figures: needless }))).toMatchObject({
      status: 200,
      answer: { lines: [] },
    });
    untouched();
    const { answer } = await post("write", await asked());
    expect(answer).toEqual({ key: await keyNow(), lines });
    expect(readFileSync(file, "utf8")).toBe(after);
    await post("take-back", await asked());
    untouched();
  });

  it("is refused what would break the file, with the finding", async () => {
    const { answer } = await post("write", await asked({ figures: { countsPerMinute: 3 } }));
    expect(answer).toMatchObject({
      refused: expect.stringContaining("could not be read"),
      findings: [expect.objectContaining({ rule: "value", message: expect.stringContaining("between 10 and 1000") })],
    });
    untouched();
  });

  it("is refused where the file was saved meanwhile, or something else wrote first", async () => {
    const question = await asked();
    const [one, other] = await Promise.all([post("write", question), post("write", question)]);
    const refused = { refused: expect.stringContaining("meanwhile") };
    expect([one.answer, other.answer]).toContainEqual(refused);
    expect([one.answer, other.answer]).toContainEqual({ key: await keyNow(), lines: expect.anything() });
    writeFileSync(file, text);
    const lost = { refused: expect.stringContaining("`.kerb.md.before`") };
    expect((await post("take-back", await asked({ key: "another" }))).answer).toEqual(lost);
    expect(readFileSync(file, "utf8")).toBe(text);
    // And where it can't be read as it is now, with what to mend in it.
    writeFileSync(file, text.replace("sections:", "sektions:"));
    const mistake = { findings: [{ rule: "unknown-key" }], refused: expect.stringContaining("mend it") };
    expect((await post("write", question)).answer).toMatchObject(mistake);
  });
});

describe("nobody else writes", () => {
  it.each([
    ["a page of another site", { origin: "https://evil.example", "sec-fetch-site": "cross-site" }],
    ["a page of another program on this computer", { origin: "http://localhost:1", "sec-fetch-site": "same-site" }],
    ["one that hides where it comes from", { origin: "null" }],
    ["one that says nothing of it", { origin: "" }],
    ["a form", { "content-type": "text/plain" }],
    ["a form of the other kind", { "content-type": "application/x-www-form-urlencoded" }],
    ["a page of an earlier run", { [runHeader]: "AAAAAAAAAAAAAAAAAAAAAA" }],
    ["one that knows no run", { [runHeader]: "" }],
  ])("%s", async (_, headers) => {
    for (const question of ["lines", "write", "take-back"])
      expect((await post(question, await asked(), headers)).status).toBe(403);
    untouched();
  });

  it("a page that has had another name lead here", async () => {
    const name = `evil.example:${port()}`;
    const { status } = await post("write", await asked(), { host: name, origin: `http://${name}` });
    expect(status).toBe(400);
    untouched();
  });

  it("anybody, where the library is served to other computers", async () => {
    server.close();
    await serveAs(false);
    expect(songs.token).toBeUndefined();
    expect(await desk()).not.toMatch(/"run":|id="write"/);
    expect(await desk()).toContain("copy the lines into the file");
    for (const run of ["", "undefined"])
      expect(await post("write", await asked(), { [runHeader]: run })).toMatchObject({
        status: 403,
        answer: { refused: expect.stringContaining("without `--host`") },
      });
    untouched();
  });

  it.each(["../library", "..%2f..%2fetc/passwd", "/etc/passwd", ".kerb", "kerb.md", ""])(
    "into a file outside, by the name %s",
    async (slug) => {
      const { answer } = await post("write", await asked({ slug }));
      expect(answer).toEqual({ refused: "There is no such routine in the content folder any more." });
      untouched();
    },
  );

  it.each([
    ["no JSON", "{"],
    ["nothing", ""],
    ["more than it reads", JSON.stringify({ slug: "x".repeat(70_000) })],
    ["other figures", JSON.stringify({ slug: "kerb", key: "", figures: { title: "Evil" } })],
    ["a figure that is none", '{"slug":"kerb","key":"","figures":{"firstCount":1e999}}'],
    ["a line more", '{"slug":"kerb","key":"","figures":{"firstCount":"1\\nevil: yes"}}'],
    ["another key to take out", '{"slug":"kerb","key":"","figures":{"sections":[{"index":0,"needless":["name"]}]}}'],
    ["a prototype", '{"slug":"kerb","key":"","figures":{"sections":[{"index":0,"at":{"__proto__":1}}]}}'],
  ])("with %s", async (_, body) => {
    expect((await post("write", body)).status).toBe(400);
    untouched();
  });

  it("by having somebody press it in a frame of another page", async () => {
    expect(await desk()).toContain(`"token":"${songs.token}"`);
    // What is written would have it loaded again, and the song in it lost.
    expect(await desk()).not.toContain("reload.js");
    const { headers } = await fetch(`http://127.0.0.1:${port()}/song/?routine=kerb`);
    expect(headers.get("content-security-policy")).toBe("frame-ancestors 'self'");
  });

  it("by asking otherwise", async () => {
    const answer = await fetch(`http://127.0.0.1:${port()}/~live/song/write`, {
      headers: { [runHeader]: songs.token ?? "" },
    });
    expect(answer.status).toBe(404);
    expect(answer.headers.get("access-control-allow-origin")).toBeNull();
    expect((await fetch(answer.url, { method: "OPTIONS" })).status).toBe(405);
    untouched();
  });
});

// Measures clicks over a song at the end of the audio graph, in a real browser, and prints a table:
//
//   node tests/tools/measure-song-clicks.mjs [SECONDS] [PERCENT …]
//
// Ten minutes at 60, 100 and 110 per cent if nothing is said, each on a page of its own, all at once. The song is made for it: it hits
// every half second, and a click is due in the middle between two hits. How far a click lies off is measured against the straight line through
// the hits as they come out of the graph; how far these lie off it themselves is what the browser does to a song at another speed.
import { once } from "node:events";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { createServer } from "node:http";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { chromium } from "playwright-core";

const [seconds = 600, ...percents] = process.argv.slice(2).map(Number);
const tests = join(import.meta.dirname, "../browser");
const overSong = join(import.meta.dirname, "../../templates/script/practice/over-song.ts");
const folder = await mkdtemp(join(tmpdir(), "countleaf-clicks-"));
const bundle = { bundle: true, format: "esm", target: "es2022" };
await build({ ...bundle, entryPoints: [join(tests, "song-clicks.ts")], outfile: join(folder, "song-clicks.mjs") });
await build({ ...bundle, entryPoints: [overSong], outfile: join(folder, "over.js") });
const { hearClicks } = await import(pathToFileURL(join(folder, "song-clicks.mjs")).href);
const server = createServer(async ({ url }, answer) => {
  const script = url === "/over.js";
  answer.writeHead(200, { "content-type": script ? "text/javascript" : "text/html" });
  answer.end(script ? await readFile(join(folder, "over.js")) : "<!doctype html><title>Clicks</title>");
});
await once(server.listen(0, "localhost"), "listening");
const address = `http://localhost:${server.address().port}/`;

process.env.AWS_EXECUTION_ENV ??= "AWS_Lambda_nodejs20.x";
const { default: packaged } = await import("@sparticuz/chromium");
const executablePath = process.env.COUNTLEAF_BROWSER ?? (await packaged.executablePath());
const browser = await chromium.launch({
  executablePath,
  args: ["--no-sandbox", "--no-zygote", "--disable-gpu", "--autoplay-policy=no-user-gesture-required"],
  env: {
    ...process.env,
    LD_LIBRARY_PATH: join(dirname(executablePath), "al2023/lib"),
    FONTCONFIG_PATH: join(tmpdir(), "fonts"),
  },
});

const mean = (values) => values.reduce((sum, value) => sum + value, 0) / values.length;
const deviation = (values) => Math.sqrt(mean(values.map((value) => (value - mean(values)) ** 2)));
const worst = (values) => Math.max(...values.map(Math.abs));
const within = (values) => (100 * values.filter((value) => Math.abs(value) <= 5).length) / values.length;
const rows = await Promise.all(
  (percents.length > 0 ? percents : [60, 100, 110]).map(async (percent) => {
    const page = await browser.newPage();
    await page.goto(address);
    const { errors, near, scatter } = await hearClicks(page, "/over.js", percent / 100, seconds);
    const cells = [
      mean(errors),
      deviation(errors),
      worst(errors),
      within(errors),
      within(near),
      deviation(scatter),
      worst(scatter),
    ];
    return `| ${percent} % | ${errors.length} | ${cells.map((cell) => cell.toFixed(2)).join(" | ")} |`;
  }),
);
console.log(
  "| speed | clicks | mean, ms | deviation | worst | within 5 ms, % | of the hits around it, % | the song's own deviation | its worst |",
);
console.log("|---:|---:|---:|---:|---:|---:|---:|---:|---:|");
for (const row of rows) console.log(row);
await browser.close();
server.close();
await rm(folder, { recursive: true });

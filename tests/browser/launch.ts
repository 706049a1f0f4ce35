import { execFile } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdtemp, readFile, rename, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { type BrowserServer, chromium } from "playwright-core";

const root = fileURLToPath(new URL("../../", import.meta.url));

/**
 * A real browser. COUNTLEAF_BROWSER names an installed Chromium or Chrome; without it the one that comes as an npm package
 * is unpacked, once a machine, together with the few system libraries that a bare machine lacks.
 */
export async function launchBrowser(): Promise<BrowserServer> {
  const installed = process.env.COUNTLEAF_BROWSER;
  if (installed) return chromium.launchServer({ executablePath: installed });
  const home = await unpackedBrowser();
  return chromium.launchServer({
    executablePath: join(home, "chromium"),
    env: { ...process.env, LD_LIBRARY_PATH: join(home, "al2023", "lib"), FONTCONFIG_PATH: join(home, "fonts") },
    args: ["--no-sandbox", "--no-zygote", "--disable-gpu"],
  });
}

/** Several runs of the tests may start at once: each unpacks beside the final folder, the first one there wins. */
async function unpackedBrowser(): Promise<string> {
  const manifest = await readFile(join(root, "node_modules/@sparticuz/chromium/package.json"), "utf8");
  const home = join(tmpdir(), `countleaf-browser-${(JSON.parse(manifest) as { version: string }).version}`);
  if (existsSync(home)) return home;
  const beside = await mkdtemp(`${home}-`);
  const unpack = "import chromium from '@sparticuz/chromium'; await chromium.executablePath();";
  await promisify(execFile)(process.execPath, ["--input-type=module", "--eval", unpack], {
    cwd: root,
    // The package unpacks its libraries only where this variable says that they are wanted.
    env: { ...process.env, TMPDIR: beside, AWS_EXECUTION_ENV: "AWS_Lambda_nodejs20.x" },
  });
  await writeFile(join(beside, "fonts/fonts.conf"), fontsIn(join(home, "fonts")));
  try {
    await rename(beside, home);
  } catch (error) {
    if (!existsSync(home)) throw error;
    await rm(beside, { recursive: true });
  }
  return home;
}

/** The package looks for its fonts in a fixed place; a browser that finds none ends with the first select or text field. */
function fontsIn(folder: string): string {
  return `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig><dir>${folder}</dir><cachedir>${folder}-cache</cachedir></fontconfig>
`;
}

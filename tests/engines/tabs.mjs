// Three engines behind one small face: a tab that opens addresses, runs a line in the page, clicks, types and takes a file.
import { execFileSync, spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import puppeteer from "puppeteer-core";
import { Builder, By } from "selenium-webdriver";

const phone = { width: 390, height: 844 };
const miniBrowser = "/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser";

function onPath(program) {
  try {
    return execFileSync("which", [program], { encoding: "utf8" }).trim();
  } catch {
    return undefined;
  }
}

/** Chromium and Firefox, by the protocols that they bring themselves. */
async function byPuppeteer(options) {
  const browser = await puppeteer.launch({ headless: true, defaultViewport: phone, ...options });
  return {
    version: await browser.version(),
    close: () => browser.close(),
    tab: async ({ script = true } = {}) => {
      const context = await browser.createBrowserContext();
      const page = await context.newPage();
      await page.setViewport(phone);
      if (!script) await page.setJavaScriptEnabled(false);
      return {
        open: (address) => page.goto(address, { waitUntil: "load", timeout: 30_000 }),
        ask: (line) => page.evaluate(line),
        click: async (selector) => (await page.waitForSelector(selector)).click(),
        press: (key) => page.keyboard.press(key),
        choose: async (selector, file) => (await page.waitForSelector(selector)).uploadFile(file),
        close: () => context.close(),
      };
    },
  };
}

async function chromium() {
  process.env.AWS_EXECUTION_ENV ??= "AWS_Lambda_nodejs20.x";
  const { default: packaged } = await import("@sparticuz/chromium");
  const executablePath = process.env.COUNTLEAF_BROWSER ?? (await packaged.executablePath());
  return byPuppeteer({
    executablePath,
    args: ["--no-sandbox", "--no-zygote", "--disable-gpu", "--autoplay-policy=no-user-gesture-required"],
    env: {
      ...process.env,
      LD_LIBRARY_PATH: join(dirname(executablePath), "al2023/lib"),
      FONTCONFIG_PATH: join(tmpdir(), "fonts"),
    },
  });
}

async function firefox() {
  return byPuppeteer({ browser: "firefox", executablePath: onPath("firefox-esr") });
}

/** By the W3C's WebDriver, on a screen that nobody sees: WebKitGTK has no mode without one. */
async function webkit() {
  const display = `:${90 + (process.pid % 900)}`;
  const screen = spawn("Xvfb", [display, "-screen", "0", "1280x1000x24"], { stdio: "ignore" });
  const port = await freePort();
  const env = { ...process.env, DISPLAY: display, WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: "1" };
  const driver = spawn("WebKitWebDriver", [`--port=${port}`], { env, stdio: "ignore" });
  const capabilities = {
    browserName: "MiniBrowser",
    "webkitgtk:browserOptions": { binary: miniBrowser, args: ["--automation"] },
  };
  await new Promise((started) => setTimeout(started, 1000));
  const session = () => new Builder().usingServer(`http://127.0.0.1:${port}`).withCapabilities(capabilities).build();
  const first = await session();
  const told = await first.getCapabilities();
  await first.quit();
  return {
    version: `${told.getBrowserName()} ${told.getBrowserVersion()}`,
    close: async () => {
      driver.kill();
      screen.kill();
    },
    // Each tab is a session of its own, with nothing kept from the one before.
    tab: async () => {
      const web = await session();
      await web.manage().window().setRect(phone);
      return {
        open: (address) => web.get(address),
        ask: (line) => web.executeScript(`return (${line})`),
        click: async (selector) => web.findElement(By.css(selector)).click(),
        press: (key) => web.actions().sendKeys(key).perform(),
        choose: async (selector, file) => web.findElement(By.css(selector)).sendKeys(file),
        close: () => web.quit(),
      };
    },
  };
}

async function freePort() {
  const server = createServer();
  await new Promise((ready) => server.listen(0, "127.0.0.1", ready));
  const { port } = server.address();
  await new Promise((closed) => server.close(closed));
  return port;
}

/** What each engine is launched by, and what is missing for it on this machine. */
export const engines = [
  { name: "Chromium", launch: chromium, missing: () => [] },
  { name: "Firefox", launch: firefox, missing: () => (onPath("firefox-esr") ? [] : ["firefox-esr"]) },
  {
    name: "WebKit",
    launch: webkit,
    missing: () => [
      ...(onPath("WebKitWebDriver") && existsSync(miniBrowser) ? [] : ["webkit2gtk-driver"]),
      ...(onPath("Xvfb") ? [] : ["xvfb"]),
    ],
  },
];

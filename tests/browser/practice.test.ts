// What runs inside the page is typed as a page; the build of src knows no DOM.
/// <reference lib="dom" />
/// <reference lib="dom.iterable" />

import type { Page } from "playwright-core";
import { describe } from "vitest";
import { library } from "../fixtures/written.js";
import { practicePages, test } from "./practice-page.js";

practicePages();

const news = (page: Page) => page.locator("[data-news]").textContent();
const speed = (page: Page) => page.locator("[data-speed]").textContent();

describe.concurrent("practice", () => {
  test.concurrent("without script there is no player, and nothing of it in the way", async ({ open, expect }) => {
    const { page } = await open({ javaScriptEnabled: false });
    expect(await page.locator(".practice").isVisible()).toBe(false);
    expect(await page.getByRole("heading", { level: 1 }).isVisible()).toBe(true);
  });

  test.concurrent("start: counted in, then the counts with cue, next cue and what is called", async ({
    open,
    expect,
  }) => {
    const { page, start, untilCount } = await open();
    await page.getByRole("button", { name: "100 %" }).click();
    expect(await speed(page)).toBe("100 %");
    // A number of the count-in comes once: it is waited for before it can come.
    const [six] = await Promise.all([untilCount("6", "count-in"), start.click()]);
    expect(six).toMatchObject({
      kicker: "Count-in, then",
      cue: "Lean into an unseen rail, left palm flat on it",
    });
    expect(await untilCount("2")).toMatchObject({ section: "Gangway", next: "Push off onto the left foot" });
    expect((await untilCount("7")).call).toBe("and melt");
  });

  test.concurrent("audio that never moves: the counts go on in silence, said on the page, and again after a pause", async ({
    open,
    expect,
  }) => {
    // As Firefox has it without an audio device: the clock stands, and nobody is told when the context has started.
    const { page, start, untilCount } = await open({
      prepare: (page) =>
        page.addInitScript(() => {
          Object.defineProperty(BaseAudioContext.prototype, "currentTime", { get: () => 0 });
          AudioContext.prototype.resume = () => new Promise(() => {});
        }),
    });
    await page.getByRole("button", { name: "Faster" }).click({ clickCount: 10 });
    const said = page.getByText("so the counts go on in silence.");
    expect(await said.count()).toBe(0);
    await Promise.all([untilCount("6", "count-in"), start.click()]);
    await said.waitFor();
    const [one, four] = [await untilCount("1"), await untilCount("4")];
    expect([one.section, four.section]).toEqual(["Gangway", "Gangway"]);
    await start.click();
    await Promise.all([untilCount("7", "count-in"), start.click()]);
    expect(await said.isVisible()).toBe(true);
  });

  test.concurrent("below full tempo what is upside down is marked; out of sight the player stands at the foot; from afar a tap pauses", async ({
    open,
    expect,
  }) => {
    const { page, start, untilCount, untilState } = await open({
      routine: "candle-end",
      viewport: { width: 390, height: 844 },
    });
    const dock = page.locator("[data-dock]");
    await page.locator("[data-choose]").click();
    await page.getByLabel("Level 3", { exact: true }).check({ force: true });
    await page.keyboard.press("Escape");
    expect(await page.locator("[data-choose]").innerText()).toBe("Level 3");
    await page.getByRole("button", { name: "90 %" }).click();
    await page.locator("[name=from]").selectOption({ label: "Pool" });
    await start.click();
    await page.evaluate(() => scrollTo(0, 0));
    await dock.waitFor({ state: "hidden" });
    await page.locator(".counts .part").last().scrollIntoViewIfNeeded();
    await dock.waitFor();
    expect(await dock.locator("button").innerText()).toBe("Pause");
    const roll = await untilCount("5", "count", "[data-dock] .stage");
    expect(await dock.locator("[data-show=kicker]").isVisible()).toBe(true);
    // The move that is danced is lit where it stands among the counts.
    expect(await page.locator(".move[data-now] .cue").innerText()).toContain("Roll back over the right shoulder");
    expect(roll).toMatchObject({ call: "Mark it", kicker: "Take care: upside down. Never slowly." });
    expect(["5", "6"]).toContain(await dock.locator(".stage-row [data-now]").innerText());
    await dock.locator("button").click();
    await untilState("rest");
    expect(await dock.locator("button").innerText()).toBe("Go on");
    await start.scrollIntoViewIfNeeded();
    await dock.waitFor({ state: "hidden" });
    await page.getByRole("button", { name: "From afar" }).click();
    await page.locator("dialog .stage-row").click();
    await untilState("count-in");
    await page.locator("dialog .stage-row").click();
    await untilState("rest");
  });

  test.concurrent("pause, and go on from the phrase", async ({ open, expect }) => {
    const { page, start, show, untilState, untilCount } = await open();
    await page.getByRole("button", { name: "Faster" }).click({ clickCount: 10 });
    await start.click();
    await untilCount("7");
    await untilCount("2");
    expect(await start.textContent()).toBe("Pause");
    await start.click();
    expect(await news(page)).toBe("Paused.");
    await untilState("rest");
    expect(await show("count").textContent()).toBe("1");
    expect(await show("cue").textContent()).toBe("hold");
    expect(await start.textContent()).toBe("Go on");
    await Promise.all([untilCount("8", "count-in"), start.click()]);
    await untilCount("3");
    // Two taps within a count: too quick to stand alone, each has its line.
    expect(await page.locator(".stage-page [data-lines]").innerText()).toMatch(
      /3\s+Left heel taps[\s\S]*3&\s+Right heel taps/,
    );
  });

  test.concurrent("one section again and again, then once more and out", async ({ open, expect }) => {
    const { page, start, show, untilState, untilCount } = await open();
    await page.getByLabel("a count-in before every round").uncheck();
    await page.getByRole("button", { name: "Faster" }).click({ clickCount: 10 });
    expect(await speed(page)).toBe("110 %");
    await page.getByRole("button", { name: "Practise Whistle" }).click();
    for (const count of ["1", "4", "1", "3"]) await untilCount(count);
    expect(await show("section").textContent()).toBe("Whistle");
    await page.getByLabel("again and again").uncheck();
    await page.waitForFunction(() => document.querySelector("[data-news]")?.textContent === "End of the run.");
    expect(await start.textContent()).toBe("Start");
    await untilState("rest");
  });

  test.concurrent("a run of sections can't end before it begins, and from the top is all of them", async ({
    open,
    expect,
  }) => {
    const { page, show, untilState } = await open();
    const [from, to] = [page.locator("[name=from]"), page.locator("[name=to]")];
    await to.selectOption({ label: "Gangway" });
    await from.selectOption({ label: "Whistle" });
    expect(await to.inputValue()).toBe("1");
    await to.selectOption({ label: "Gangway" });
    expect(await from.inputValue()).toBe("0");
    await from.selectOption({ label: "Gangway again, 2nd time, other side" });
    expect(await show("cue").textContent()).toBe("Lean into an unseen rail, right palm flat on it");
    await page.getByRole("button", { name: "From the top" }).click();
    expect([await from.inputValue(), await to.inputValue()]).toEqual(["all", "3"]);
    await untilState("count-in");
    expect(await news(page)).toBe("Started: Gangway, 60 %.");
  });

  test.concurrent("another speed holds from the next count on, without a jump", async ({ open, expect }) => {
    const { page, start, untilCount } = await open({
      prepare: (page) =>
        page.addInitScript(() => {
          const at: number[] = [];
          Object.assign(window, { at });
          const play = AudioBufferSourceNode.prototype.start;
          const mute = AudioBufferSourceNode.prototype.disconnect;
          AudioBufferSourceNode.prototype.start = function (when = 0) {
            Object.assign(this, { due: when });
            at.push(when);
            play.call(this, when);
          };
          AudioBufferSourceNode.prototype.disconnect = function (...rest: unknown[]) {
            // Clicks that were taken back before they sounded are none.
            const { due } = this as unknown as { due: number };
            if (due > this.context.currentTime) at.splice(at.indexOf(due), 1);
            mute.apply(this, rest as unknown as [AudioParam, number]);
          };
        }),
    });
    await page.getByRole("button", { name: "100 %" }).click();
    await start.click();
    await untilCount("3");
    await page.getByLabel("Speed, per cent of the tempo").fill("50");
    await untilCount("6");
    const at = await page.evaluate(() => (window as unknown as { at: number[] }).at);
    const gaps = at.slice(1).map((time, index) => time - (at[index] ?? 0));
    const turn = gaps.findIndex((gap) => gap > 1);
    // Heard on 3, changed before 4: the count from 3 to 4 keeps its length, the one after it is twice as long.
    expect(turn).toBeGreaterThanOrEqual(6);
    expect(turn).toBeLessThanOrEqual(8);
    for (const [index, gap] of gaps.entries()) expect(gap).toBeCloseTo((60 / 92) * (index < turn ? 1 : 2), 6);
  });

  test.concurrent("works itself up, round by round", async ({ open }) => {
    const { page } = await open();
    await page.getByLabel("a count-in before every round").uncheck();
    await page.getByLabel("Speed, per cent of the tempo").fill("85");
    await page.getByLabel("up to full tempo, round by round").selectOption("steeply");
    await page.getByRole("button", { name: "Practise Whistle" }).click();
    for (const speed of ["95 %", "100 %"])
      await page.waitForFunction((speed) => document.querySelector("[data-speed]")?.textContent === speed, speed);
  });

  test.concurrent("the version and the side of the page are followed at once", async ({ open, expect }) => {
    const { page, start, show, untilCount } = await open();
    await page.getByLabel("Mirrored").check({ force: true });
    expect(await show("cue").textContent()).toBe("Lean into an unseen rail, right palm flat on it");
    await start.click();
    expect((await untilCount("3")).next).toBe("Push off onto the right foot");
    await page.getByLabel("Mirrored").uncheck({ force: true });
    await page.getByLabel("seated").check({ force: true });
    expect((await untilCount("4")).cue).toBe("Push off with the left hand");
  });
});

test.concurrent("in a routine for groups each has its line, whose counts one dances is asked once, and then they stand alone", async ({
  open,
  expect,
}) => {
  const { page, show } = await open({ routine: "one-umbrella" });
  const line = (group: string) => page.locator(".stage-page [data-lines] li").filter({ hasText: group }).innerText();
  expect(await show("section").textContent()).toBe("On the quay");
  expect([await line("Early"), await line("Late")]).toEqual(["Early\nRight foot forward", "Late\nLeft foot forward"]);
  await page.getByLabel("Late", { exact: true }).check({ force: true });
  expect(await show("section").textContent()).toBe("On the quay, Late");
  expect(await show("cue").textContent()).toBe("Left foot forward");
  await page.goto("about:blank");
  await page.goBack();
  await page.locator("[data-desk] [data-start]:enabled").waitFor();
  expect(await show("section").textContent()).toBe("On the quay, Late");
});

describe.concurrent("by keyboard alone", () => {
  const focused = (page: Page) => page.evaluate(() => document.activeElement?.textContent?.trim());

  test.concurrent("every control can be reached, and the keys work in the player only", async ({ open, expect }) => {
    const { page, start } = await open();
    await page.getByRole("link", { name: library.name }).focus();
    await page.keyboard.press("p");
    expect(await start.textContent()).toBe("Start");
    for (let i = 0; i < 60 && (await focused(page)) !== "Start"; i++) await page.keyboard.press("Tab");
    expect(await focused(page)).toBe("Start");
    await page.keyboard.press("Enter");
    expect(await start.textContent()).toBe("Pause");
    await page.keyboard.press("p");
    expect(await start.textContent()).toBe("Go on");
    await page.keyboard.press("-");
    expect(await speed(page)).toBe("55 %");
    await page.keyboard.press("+");
    expect(await speed(page)).toBe("60 %");
    await page.keyboard.press("r");
    expect(await page.getByLabel("again and again").isChecked()).toBe(false);
    await page.keyboard.press("t");
    expect(await news(page)).toBe("Started: Gangway, 60 %.");
    // A letter in a list of sections finds a section there.
    await page.locator("[name=from]").focus();
    await page.keyboard.press("p");
    expect(await start.textContent()).toBe("Pause");

    const wanted = await page.evaluate(
      () =>
        [...document.querySelectorAll(".practice form :is(button, select, input, summary)")].filter((e) =>
          e.checkVisibility({ contentVisibilityAuto: true }),
        ).length,
    );
    await page.getByRole("link", { name: library.name }).focus();
    const reached = new Set<string>();
    for (let i = 0; i < wanted + 24; i++) {
      await page.keyboard.press("Tab");
      const name = await page.evaluate(() => {
        const { activeElement: at } = document;
        if (!at?.closest(".practice form")) return "";
        const { outlineStyle, outlineWidth } = getComputedStyle(at);
        return `${at.outerHTML.slice(0, 60)}${[...document.querySelectorAll("*")].indexOf(at)} ${outlineStyle === "solid" && Number.parseFloat(outlineWidth) >= 2}`;
      });
      if (name) reached.add(name);
    }
    expect([...reached], [...reached].join()).toHaveLength(wanted);
    expect([...reached].every((name) => name.endsWith("true"))).toBe(true);
  });

  test.concurrent("from afar and back", async ({ open, expect }) => {
    const { page, start, untilCount } = await open();
    await start.focus();
    await page.keyboard.press("f");
    const afar = page.getByRole("dialog", { name: "Seen from afar" });
    await afar.waitFor();
    await page.keyboard.press("p");
    expect((await untilCount("2", "count", "dialog .stage")).next).toBe("Push off onto the left foot");
    expect(await afar.getByRole("button").allInnerTexts()).toEqual(["Pause", "Back to the page"]);
    await page.keyboard.press("f");
    await afar.waitFor({ state: "hidden" });
    await page.keyboard.press("f");
    await afar.waitFor();
    await page.keyboard.press("Escape");
    await afar.waitFor({ state: "hidden" });
    expect(await start.textContent()).toBe("Pause");
    expect(await focused(page)).toBe("Pause");
  });
});

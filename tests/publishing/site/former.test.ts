import { expect, test } from "vitest";
import { outputs, pagesOf } from "../../../src/publishing/list.js";
import { formerPages } from "../../../src/publishing/site/former.js";
import { routineFacts } from "../../../src/publishing/site/routine-facts.js";
import { contextOf } from "../../fixtures/context.js";
import { danced, library, move, phrase, section } from "../../fixtures/written.js";

const tide = danced({
  slug: "low-tide",
  title: "Low Tide",
  formerly: ["slack-water", "ebb"],
  sections: [section("Ebb", [phrase([move("1-8", "Walk")])])],
});

test("a page at each former address names the new one to people, engines and browsers without script", async () => {
  const site = { ...library, url: "https://saltmarsh.example" };
  const pages = await formerPages.publish(tide, contextOf(site));
  expect(pages.map(({ path }) => path)).toEqual(["routines/slack-water/index.html", "routines/ebb/index.html"]);
  for (const { content } of pages) {
    expect(content).toContain('<link rel="canonical" href="https://saltmarsh.example/routines/low-tide/">');
    expect(content).toContain(
      '<noscript><meta http-equiv="refresh" content="0; url=../low-tide/index.html"></noscript>',
    );
    expect(content).toContain('<a href="../low-tide/index.html" data-moved>Low Tide</a>');
  }
});

test("the sitemap has the new address alone", () => {
  const pages = pagesOf(outputs, { routines: [routineFacts(tide)], workshops: [] });
  expect(pages.map(({ path }) => path)).toEqual(["index.html", "routines/low-tide/index.html"]);
});

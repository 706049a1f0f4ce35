import { expect, test } from "vitest";
import { safeAddress } from "../../../src/publishing/site/address.js";
import { bothSides, cueHtml } from "../../../src/publishing/site/cue-html.js";
import { html, jsonBlock, raw } from "../../../src/publishing/site/html.js";
import { markdownHtml } from "../../../src/publishing/site/markdown.js";
import { inlineCue } from "../../../src/reading/cue.js";

test("what is set into a template is text, unless it is markup already", () => {
  expect(html`<p title="${`"'&<>`}">${["a<b", raw("<i>c</i>"), 3, undefined, false]}</p>`.html).toBe(
    '<p title="&quot;&#39;&amp;&lt;&gt;">a&lt;b<i>c</i>3</p>',
  );
});

test("no value can end a data block", () => {
  const { html: block } = jsonBlock({ a: "</script><!--\u2028" });
  expect(block).not.toMatch(/[<\u2028]/);
  expect(JSON.parse(block)).toEqual({ a: "</script><!--\u2028" });
});

test.each([
  "https://example.org/a?b#c",
  "http://example.org",
  "mailto:a@example.org",
  "../map.svg",
  "#part",
  "a:1/b".slice(2),
])("%s may stand in a link", (address) => expect(safeAddress(address)).toBe(address));

test.each([
  "javascript:alert(1)",
  "JaVaScRiPt:alert(1)",
  "java\tscript:alert(1)",
  "\u0001javascript:alert(1)",
  " javascript:1",
])("%j may not", (address) => expect(safeAddress(address)).toBeUndefined());

test.each(["data:text/html,x", "vbscript:x", "file:///etc/hosts", "blob:https://example.org/1", "https://"])(
  "nor may %s",
  (address) => expect(safeAddress(address)).toBeUndefined(),
);

test("a cue's marks become markup, nested as they were written", () => {
  const cue = inlineCue("**Drop *slowly* to** `left` & [watch](https://example.org) ~~fast~~");
  expect(cueHtml(cue).html).toBe(
    '<strong>Drop <em>slowly</em> to</strong> left &amp; <a href="https://example.org">watch</a> <del>fast</del>',
  );
});

test("a link that a mark should not have had is text", () => {
  const marks = [{ kind: "link", from: 0, to: 1, href: "javascript:alert(1)" }] as const;
  expect(cueHtml({ text: "x", marks }).html).toBe("x");
});

test("a text that is the same on both sides stands there once", () => {
  expect(bothSides(html`hold`, html`hold`).html).toBe("hold");
  expect(bothSides(html`left`, html`right`).html).toBe(
    '<span class="as-taught">left</span><span class="mirrored">right</span>',
  );
});

test("a body's Markdown: headings under the page's own, pictures as links, raw HTML as text", () => {
  const body =
    '## Notes\n\nA *soft* <b>knee</b>, ![a map](map.png "x") and [a trap](javascript:alert(1)).\n\n- [x] done';
  expect(markdownHtml(body).html.replace(/\s+/g, " ").trim()).toBe(
    '<h3>Notes</h3> <p>A <em>soft</em> &lt;b&gt;knee&lt;/b&gt;, <a href="map.png">a map</a> and a trap.</p> <ul> <li>☑ done</li> </ul>',
  );
});

test("text between raw tags is text too", () => {
  expect(markdownHtml("a <script> <img/src=x/onerror=alert(1)// </script> &lt; b").html).toBe(
    "<p>a &lt;script&gt; &lt;img/src=x/onerror=alert(1)// &lt;/script&gt; &lt; b</p>\n",
  );
});

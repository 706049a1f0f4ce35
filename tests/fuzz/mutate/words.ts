/** What people, programs and attackers write where a value belongs. */

const numbers = [
  ..."0 -1 1 2 3 7 8 9 16 63 64 65 1000 1001 50000 50001 999999999 1000000000 99999999999999999999".split(" "),
  ..."0.5 1.5 0.000000001 999999999.999999999 1e9 1e-9 0x10 0o7 +1 -0 1_000 1,5 NaN Infinity .inf 1/0 0/0 1/3".split(
    " ",
  ),
];

const counts = [
  ..."1 1-8 1-2 8-1 7-2 3& 3e 3a 1&-2 1a-1 0 9 1,3,5 1,1 2-2 1-64 64 8-8 1-1&".split(" "),
  ..."1-9999 --1 1- -1 1e5 & 1&& ① 1–4 1—4 ١-٤".split(" "),
];

const terms = [
  ..."left right both hands knees seat spine front back-left standing chair kneeling lying inverted hold".split(" "),
  ..."alternate yes no true false null ~ straight triplet half double all teen adult required optional".split(" "),
  "1/4 right",
  "10 left",
  "1 1/2 left",
  "1/0 right",
  "3/7 left",
  "{ forward: 4 }",
  "{ forward: 200, left: 0.001 }",
  "[left, right]",
  "[]",
  "{}",
  "{ beats-per-minute: 4000, beats-per-count: 0.001 }",
  "{ beats-per-minute: 0.001, beats-per-count: 64 }",
];

const times = [
  ..."0:00 1:03 0:14.2 99:59 1:02:03 0:60 86400 86401 24:00:00 0:0 0:00.000001 -0:01 1:3 1.03.2".split(" "),
];

const links = [
  "https://example.org/track",
  "http://",
  "javascript:alert(1)",
  "//example.org",
  "mailto:a@example.org",
  "../x",
  "https://[::1",
  "https://example.org/%ff#t=1",
];

const markdown = [
  "**bold** and `left`",
  "[a](https://example.org) [b](javascript:1)",
  "![x](y.png)",
  "*a **b* c**",
  "`".repeat(300),
  "[".repeat(900),
  "*a ".repeat(300),
  "_a_b".repeat(200),
  "![[".repeat(250),
  "&#0;&#xD800;&lt;&nosuch;",
  "<!-- <script> -->",
  "\\".repeat(99),
  "<a@b.c> <https://x>",
  "~~a~ b~~~",
];

const yaml = [
  ..."*a &a &a,b !!js/function !!binary << | > ? { [ ] } - @ % ` # : '' \"\" --- ...".split(" "),
  ...[
    '"',
    "'",
    "|2-\n   x",
    ">+\n  x\n",
    '"\\u0000"',
    '"\\ud800"',
    '"\\x1b[31m"',
    "&a [*a, *a]",
    "!!python/object:x {}",
  ],
  ...["{ a: { b: { c: { d: [[[[1]]]] } } } }", "[".repeat(60), "{a: ".repeat(60), "? a\n: b", "- - - - - x"],
];

const letters = [
  ..."Ä ß ẞ İ ı ﬁ Ⅷ 左 עברית العربية 👩‍👩‍👧 é ⁨x⁩ ‮abc · – — “x” ‘x’".split(" "),
  ..."\u0000 \u0007 \u001b[2J \u00a0 \u00ad \u200b \u200d \u2028 \u2029 \ufeff \ufffd \uffff \ud800 \udc00".split(" "),
  "a\u0301".repeat(200),
  "x".repeat(999),
  "x".repeat(1001),
  "word ".repeat(250),
  "x".repeat(20_001),
];

/* Names that every object of the language has. */
export const builtIn = [..."__proto__ constructor prototype toString valueOf hasOwnProperty length then".split(" ")];

const kinds = [numbers, counts, terms, times, links, markdown, yaml, letters, builtIn] as const;

export const values: readonly (readonly string[])[] = kinds;

export const keys: readonly string[] = [
  ..."title choreographer date style audience summary credit music video start levels taught adaptations".split(" "),
  ..."gear groups walls times restarts sections name words counts same-as change mirrored repeat at tempo time".split(
    " ",
  ),
  ..."feel canon parts on-walls length from say options do step weight turn facing height through travel".split(" "),
  ..."hit contacts risk choose note lasts allow item need why for forward left after wall phrase accents".split(" "),
  ..."count-in first-count link performance breakdown chapters beats-per-minute beats-per-count 1 2 3 seated".split(
    " ",
  ),
  ...counts,
  ...builtIn,
];

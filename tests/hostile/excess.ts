/* Files that are too much in one way each. */

const head = "title: Too much\nchoreographer: Nobody\nmusic: { tempo: 120 }\n";
const section = "sections:\n  - name: A\n    counts: [{ 1-8: Walk }]\n";

/** A routine file with more in its front matter, a section, and prose. */
function file({ front = "", sections = section, body = "" }): string {
  return `---\n${head}${front}${sections}---\n${body}`;
}

function times(count: number, write: (index: number) => string): string {
  return Array.from({ length: count }, (_, index) => write(index)).join("");
}

function danced(front: string, more = "", counts = "[{ 1-8: Walk }]"): string {
  return file({ front, sections: `sections:\n  - name: A\n    counts: ${counts}\n${more}` });
}

const eachEighth = times(8, (index) => `${index + 1}: Walk, ${index + 1}e: A, ${index + 1}&: B, ${index + 1}a: C, `);
const options = times(20, (index) => `${index + 2}: { do: Walk }, `);
const laughs = `a0: &a0 [lol]\n${times(30, (index) => `a${index + 1}: &a${index + 1} [${times(10, () => `*a${index}, `)}]\n`)}`;

/** One that must be refused. */
export interface Excess {
  readonly name: string;
  readonly text: string;
  /** The rule of one of its errors, and some words of it. */
  readonly rule: string;
  readonly says: RegExp;
}

const excess = (name: string, rule: string, says: RegExp, text: string): Excess => ({ name, rule, says, text });

/** Numbers beyond reason. */
const numbers: readonly Excess[] = [
  ["repeat", "1001"],
  ["repeat", "0"],
  ["repeat", "99999999999999999999"],
  ["repeat", "1e9"],
].map(([key = "", value = ""]) =>
  excess(`${key} ${value}`, "value", /`repeat` .* from 1 to 1000;/, danced("", `    ${key}: ${value}\n`)),
);

const walls: readonly Excess[] = ["65", "0", "-4", "1e99", "999999999999"].map((value) =>
  excess(`walls ${value}`, "value", /`walls`/, danced(`walls: ${value}\n`)),
);

/** Runs that are too long, or have too many moves. */
const runs: readonly Excess[] = [
  excess("repeats of repeats", "too-long", /50000 counts/, danced("times: 1000\n", "    repeat: 1000\n")),
  excess("walls and times", "too-long", /50000 counts/, danced("walls: 64\ntimes: 1000\n", "    repeat: 7\n")),
  excess(
    "a long phrase",
    "too-long",
    /50000 counts/,
    danced("", "    repeat: 1000\n", `[${times(60, () => "{ length: 64, 1: Walk }, ")}]`),
  ),
  excess(
    "a move on every quarter of every count",
    "too-long",
    /60000 moves/,
    danced("times: 1000\n", "    repeat: 6\n", `[{ ${eachEighth} }]`),
  ),
  excess(
    "many versions of many repeats",
    "too-long",
    /60000 moves/,
    danced(`levels: [${times(64, (index) => `${index + 1}, `)}]\n`, "    repeat: 1000\n"),
  ),
  excess(
    "as many versions as there are numbers",
    "value",
    /at most 64/,
    danced(`levels: [${times(20_000, (index) => `${index + 1}, `)}]\n`, "    repeat: 1000\n"),
  ),
  excess(
    "many groups of many repeats",
    "too-long",
    /60000 moves/,
    danced(
      `groups: [${times(64, (index) => `g${index}, `)}]\n`,
      `    canon: { ${times(63, (index) => `g${index + 1}: ${(index % 4) + 1}, `)} }\n    repeat: 1000\n`,
    ),
  ),
  excess(
    "a crowd of groups",
    "value",
    /at most 64/,
    danced(
      `groups: [${times(1000, (index) => `g${index}, `)}]\n`,
      `    canon: { ${times(999, (index) => `g${index + 1}: ${(index % 4) + 1}, `)} }\n    repeat: 800\n`,
    ),
  ),
  excess(
    "phrases beyond any run",
    "too-long",
    /50000 counts/,
    file({ sections: `sections:\n  - name: A\n    counts:\n${"      - 1-8: Walk\n".repeat(6300)}` }),
  ),
  excess("a move that never ends", "value", /lasts/, danced("", "", "[{ 1: { do: Melt, lasts: 1001 } }]")),
];

/** Texts that nest deeper than anybody would write. */
const deep: readonly Excess[] = [
  excess("lists in lists", "too-much", /flatter/, file({ front: `style: ${"[".repeat(20_000)}\n` })),
  excess(
    "closed lists in lists",
    "too-much",
    /flatter/,
    file({ front: `style: ${"[".repeat(9000)}${"]".repeat(9000)}\n` }),
  ),
  excess("mappings in mappings", "too-much", /flatter/, file({ front: `start: ${"{a: ".repeat(9000)}\n` })),
  excess("dashes", "too-much", /flatter/, file({ front: `style:\n  ${"- ".repeat(9000)}x\n` })),
  excess("colons on a line", "too-much", /flatter/, file({ front: `style: ${": ".repeat(20_000)}\n` })),
  excess("question marks", "too-much", /flatter/, file({ front: `${"? ".repeat(9000)}x\n` })),
  excess(
    "steps to the right",
    "too-much",
    /flatter/,
    file({ front: times(600, (index) => `${" ".repeat(index)}a:\n`) }),
  ),
  excess("quotations in quotations", "too-much", /too deep/, file({ body: `${">".repeat(9000)} x\n` })),
  excess(
    "bullets in bullets",
    "too-much",
    /too deep/,
    file({ body: times(70, (index) => `${"  ".repeat(index)}- x\n`) }),
  ),
  excess("numbers in numbers", "too-much", /too deep/, file({ body: `${"1. ".repeat(3000)}x\n` })),
];

/** A great many of everything. */
const many: readonly Excess[] = [
  excess("a list of a hundred thousand", "too-much", /entries/, file({ front: `style: [${"a,".repeat(100_000)}]\n` })),
  excess("a hundred thousand keys", "too-much", /entries/, file({ front: times(90_000, () => "a:\n") })),
  excess(
    "twenty thousand unknown keys",
    "unknown-key",
    /not a key/,
    file({ front: times(20_000, (n) => `k${n}: x\n`) }),
  ),
  excess(
    "keys like those that exist",
    "unknown-key",
    /not a key/,
    file({ front: times(9_000, (n) => `sections${n}: x\n`) }),
  ),
  excess(
    "the same key again and again",
    "key-twice",
    /second time/,
    file({ front: times(20_000, () => "title: x\n") }),
  ),
  excess(
    "moves off the phrase",
    "outside",
    /phrase/,
    danced("", "", `[${times(3000, () => "{ 9: Walk, 10: Walk }, ")}]`),
  ),
  excess(
    "moves on each other",
    "overlap",
    /meets?|overlap|same|already/i,
    danced("", "", `[${times(3000, () => "{ 1-8: A, 2-7: B }, ")}]`),
  ),
  excess(
    "wrong values",
    "value",
    /must be/,
    danced("", "", `[${times(3000, () => "{ 1: { do: W, step: l, turn: x } }, ")}]`),
  ),
  excess(
    "options that do not exist",
    "unknown-version",
    /is no level/,
    danced("", "", `[${times(250, () => `{ 1-8: { do: W, options: { ${options} } } }, `)}]`),
  ),
  excess(
    "sections without counts",
    "no-counts",
    /no counts/,
    file({ sections: `sections:\n${times(5000, (n) => `  - name: S${n}\n`)}` }),
  ),
  excess(
    "a chain of the same",
    "same-as",
    /circle|same/,
    file({ sections: `sections:\n${times(5000, (n) => `  - { name: S${n}, same-as: S${(n + 1) % 5000} }\n`)}` }),
  ),
  excess(
    "sections that are danced as none",
    "same-as",
    /no other section/i,
    file({ sections: `sections:\n${times(2500, (n) => `  - { name: S${n}, same-as: T }\n`)}` }),
  ),
  excess("keys without a value", "no-value", /Nothing is written/, file({ front: times(5000, (n) => `k${n}:\n`) })),
  excess("tabs", "tab", /spaces/, file({ front: "\tx: y\n".repeat(3000) })),
  excess("documents", "yaml", /Everything ends/, file({ front: "...\n".repeat(20_000) })),
  excess("quotes on a line", "yaml", /in quotes/, file({ front: `style: "${`'"`.repeat(20_000)}\n` })),
  excess("spaces on a line", "no-colon", /colon/, file({ front: `style${" ".repeat(200_000)}x\n` })),
  excess("front matter without an end", "too-much", /characters/, file({ front: "# x\n".repeat(150_000) })),
  excess("lines that YAML stumbles over", "no-colon", /colon/, file({ front: times(9000, () => "title\n") })),
  excess("quotes that never close", "quotes", /quotes/, file({ front: times(2000, () => 'summary: "x\n') })),
  excess(
    "a line of half a million letters",
    "too-much",
    /characters/,
    file({ front: `summary: ${"x".repeat(600_000)}\n` }),
  ),
  excess(
    "a text of four hundred thousand letters",
    "value",
    /`summary`/,
    file({ front: `summary: ${"x".repeat(400_000)}\n` }),
  ),
  excess(
    "a key of a hundred thousand letters",
    "unknown-key",
    /not a key/,
    file({ front: `? ${"x".repeat(100_000)}\n: y\n` }),
  ),
  excess("a paragraph without an end", "too-much", /paragraph/, file({ body: "*a _b `c [d](e ".repeat(9000) })),
  excess("prose of a whole book", "too-much", /prose/, file({ body: "A line of prose.\n\n".repeat(20_000) })),
  excess("empty lines", "too-much", /empty lines/, file({ front: "\n".repeat(50_000) })),
  excess("anchors", "special-start", /in quotes/, file({ front: times(4000, (n) => `k${n}: &a x\n`) })),
  excess("aliases", "special-start", /in quotes/, file({ front: `style: [&a x, ${"*a, ".repeat(4000)}]\n` })),
  excess("an alias bomb", "special-start", /quotes/, file({ front: laughs })),
  excess("an anchor that holds itself", "special-start", /quotes/, file({ front: "style: &a [*a, *a]\n" })),
];

export const excesses: readonly Excess[] = [...numbers, ...walls, ...runs, ...deep, ...many];

/** What is much, but not too much: it may be whole or not, and warn, but must come to an end as soon. */
export const muches: Readonly<Record<string, string>> = {
  "twenty thousand headings": file({ body: times(20_000, (n) => `## A${n}\n`) }),
  "a hundred thousand unsafe links": file({ body: times(9_000, () => "[x](javascript:1)\n\n") }),
  "emphasis that opens and opens": file({ body: `${times(15, () => `${"*a **b ".repeat(1200)}\n\n`)}` }),
  "brackets that open and open": file({ body: times(15, () => `${"[".repeat(9000)}\n\n`) }),
  "backticks of all lengths": file({ body: times(15, () => `${times(130, (n) => `${"`".repeat(n + 1)} `)}\n\n`) }),
  "link definitions": file({ body: `${times(5000, (n) => `[a${n}]: x\n`)}\n${times(500, (n) => `[a${n}] `)}` }),
  tables: file({ body: `|a|\n|-|\n${times(2000, () => "|x|\n")}` }),
  "a cue of nothing but stars": danced("", "", `[{ 1-8: "${"*a ".repeat(330)}" }]`),
  "a cue of nothing but brackets": danced("", "", `[{ 1-8: "${"[".repeat(999)}" }]`),
  spaces: danced("", "", `[{ 1-8: "${" ".repeat(100_000)}x" }]`),
  "a note of twenty thousand stars": danced("", "", `[{ 1-8: { do: W, note: "${"*a _b ".repeat(3300)}" } }]`),
  "left and right a thousand times": danced(
    "",
    "",
    `[{ 1-8: { do: W, note: "${"left right o'clock ".repeat(1000)}" } }]`,
  ),
  "a long run": danced("times: 1000\n", "    repeat: 6\n"),
  "long dashes": `---${"-".repeat(100_000)}\n`,
  "front matter that never ends": `---\n${"a: b\n".repeat(50_000)}`,
  "nothing but carriage returns": `---\r${"a: b\r".repeat(20_000)}---\r`,
  "nothing but byte order marks": "\ufeff".repeat(100_000),
  comments: file({ front: "# x\n".repeat(30_000) }),
  "a text over thirty thousand lines": file({ front: `summary: >\n${"  x\n".repeat(30_000)}` }),
  "many tabs": file({ front: `style:\n${times(5000, () => "\t- x\n")}` }),
};

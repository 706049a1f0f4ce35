import {
  Composer,
  type CST,
  type Document,
  LineCounter,
  type Node,
  type ParsedNode,
  Parser,
  type YAMLParseError,
} from "yaml";
import type { Place } from "../routine/problem.js";
import type { Position, TextFinding } from "./finding.js";
import { given } from "./given.js";
import { mend, plainReason } from "./mend.js";
import { parentOf } from "./place.js";
import { readTree } from "./tree.js";

/** A front matter (or a whole YAML file) as read. */
export interface Front {
  /** Texts, lists and mappings; nothing where the text is empty. */
  readonly value: unknown;
  readonly findings: readonly TextFinding[];
  /** True where the text is no YAML that could be mended: parts of it may be missing for no other fault of the author's. */
  readonly ragged: boolean;
  /** True of a part that could not be read: it has its finding. */
  readonly isBroken: (place: Place) => boolean;
  /** Keys of the outermost mapping in which something could not be read. */
  readonly faulty: readonly string[];
  /** True of a mapping or a list a part of which could not be read. */
  readonly hasGap: (place: Place) => boolean;
  /** Where a part stands, its key or its value; of a part that does not exist, the nearest part around it. */
  readonly locate: (place: Place, part?: "key" | "value") => Position;
}

const deepest = 40;
const mostMends = 25;

/**
 * Reads YAML 1.2 with every scalar as it was written. Of a slip that is well known, it says what to write instead, mends
 * the line, and reads on, so that one slip does not hide the next.
 */
export function readYaml(text: string): Front {
  const findings: TextFinding[] = [];
  let lines = text.split("\n");
  let parsed = parse(lines.join("\n"));
  for (let mends = 0; parsed.document && mends < mostMends; mends++) {
    const error = parsed.document.errors[0];
    const cure = error && mend(lines, error, parsed.lineOf, parsed.document);
    if (!cure) break;
    findings.push(cure.finding);
    lines = [...cure.lines];
    parsed = parse(lines.join("\n"));
  }
  return { ...front(parsed, findings), ragged: parsed.document === undefined || parsed.document.errors.length > 0 };
}

interface Parsed {
  readonly text: string;
  readonly counter: LineCounter;
  readonly lineOf: (offset: number) => number;
  readonly document?: Document.Parsed<ParsedNode>;
  /** Where a second document begins. */
  readonly more?: number;
  readonly tooDeep?: number;
}

function parse(text: string): Parsed {
  const counter = new LineCounter();
  const tokens = [...new Parser(counter.addNewLine).parse(text)];
  const lineOf = (offset: number) => counter.linePos(offset).line;
  const tooDeep = tooDeepAt(tokens);
  const options = { schema: "failsafe", uniqueKeys: false, prettyErrors: false, logLevel: "silent" } as const;
  const documents = tooDeep !== undefined ? [] : [...new Composer(options).compose(tokens, true, text.length)];
  const [document, second] = documents as Document.Parsed<ParsedNode>[];
  return { text, counter, lineOf, ...given({ document, more: second?.range[0], tooDeep }) };
}

/** What of any token of the yaml package leads further down. */
interface TokenPart {
  readonly offset?: number;
  readonly items?: readonly unknown[];
  readonly value?: unknown;
  readonly key?: unknown;
}

/* Where a text first nests deeper than anybody would write. Walks with a list of its own: it may nest deeper than calls can. */
function tooDeepAt(tokens: readonly CST.Token[]): number | undefined {
  let layer: readonly TokenPart[] = tokens;
  // A mapping or list is two layers: itself and its entries.
  for (let deep = 0; layer.length > 0; deep++) {
    if (deep > 2 * deepest) return layer.find(({ offset }) => offset !== undefined)?.offset ?? 0;
    layer = layer.flatMap((token) => {
      const parts = [...(token.items ?? []), token.value, token.key];
      return parts.filter((part) => typeof part === "object" && part !== null) as TokenPart[];
    });
  }
  return undefined;
}

function front(parsed: Parsed, before: readonly TextFinding[]): Omit<Front, "ragged"> {
  const findings = [...before];
  const positionOf = (offset: number): Position => {
    const { line, col } = parsed.counter.linePos(Math.min(offset, parsed.text.length));
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  const report = (severity: TextFinding["severity"], rule: string, message: string, offset: number) =>
    void findings.push({ severity, rule, message, ...positionOf(offset) });
  if (parsed.tooDeep !== undefined)
    report("error", "too-deep", "Lists stand in lists too deep here: write it flatter.", parsed.tooDeep);
  if (parsed.more !== undefined)
    report(
      "error",
      "yaml",
      "Here a second text begins: leave out the line of three dashes or dots above it.",
      parsed.more,
    );
  const [error] = parsed.document?.errors ?? [];
  if (error) report("error", "yaml", plainReason(error as YAMLParseError), error.pos[0]);
  const tree = readTree((parsed.document?.contents as Node | null) ?? null, parsed.text, report);
  const gaps = new Set([...tree.broken].map(parentOf));
  return {
    value: tree.value,
    findings,
    isBroken: (place) => tree.broken.has(place),
    faulty: [...tree.broken].map((place) => place.split("/")[1] ?? ""),
    hasGap: (place) => gaps.has(place),
    locate: (place, part = "key") => {
      for (let at = place; ; at = parentOf(at)) {
        const found = tree.places.get(at);
        if (found) return positionOf(at === place ? found[part] : found.key);
        if (at === "") return { line: 1, column: 1 };
      }
    },
  };
}

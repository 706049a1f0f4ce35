import { transformSync } from "esbuild";

/** A text that stands in a program, and what it stands after. */
export interface Literal {
  /** As it is written, but for line ends; `gap` where a template sets a value in. */
  readonly text: string;
  readonly template: boolean;
  /** The code before it, without spaces at its end. */
  readonly before: string;
}

/** Stands for a value that is set into a template. */
export const gap = "\u25a1";

/**
 * The texts of a TypeScript program: its strings and templates, those within a template's values too. Types and comments
 * have none.
 *
 * @throws Error where a text has no end, or the program is none
 */
export function literalsOf(program: string): readonly Literal[] {
  const { code } = transformSync(program, {
    loader: "ts",
    format: "esm",
    charset: "utf8",
    // Else a template with a closing script tag in it is taken apart.
    supported: { "inline-script": false },
  });
  return scan(code, 0, "").literals;
}

interface Scanned {
  readonly literals: readonly Literal[];
  /** Where the scan ended. */
  readonly at: number;
}

/** Scans code up to the bracket that ends it, or to the end of the program where `end` is empty. */
function scan(code: string, from: number, end: string): Scanned {
  const literals: Literal[] = [];
  let depth = 0;
  let at = from;
  while (at < code.length) {
    const sign = code[at] ?? "";
    const before = () => code.slice(Math.max(0, at - 200), at).trimEnd();
    if (sign === '"' || sign === "'") {
      const close = endOf(code, at + 1, sign);
      literals.push({ text: plain(code.slice(at + 1, close)), template: false, before: before() });
      at = close + 1;
    } else if (sign === "`") {
      const template = scanTemplate(code, at, before());
      literals.push(...template.literals);
      at = template.at;
    } else if (code.startsWith("//", at)) at = lineEnd(code, at);
    else if (code.startsWith("/*", at)) at = code.indexOf("*/", at) + 2;
    else if (sign === "/" && beginsPattern(before())) at = endOfPattern(code, at + 1);
    else {
      if (sign === end && depth === 0) return { literals, at };
      if (sign === "{") depth++;
      if (sign === "}") depth--;
      at++;
    }
  }
  if (end !== "") throw new Error(`A template's value has no end: ${code.slice(from, from + 60)}`);
  return { literals, at };
}

function scanTemplate(code: string, from: number, before: string): Scanned {
  const inner: Literal[] = [];
  let text = "";
  let at = from + 1;
  while (code[at] !== "`") {
    if (at >= code.length) throw new Error(`A template has no end: ${code.slice(from, from + 60)}`);
    if (code.startsWith("${", at)) {
      const value = scan(code, at + 2, "}");
      inner.push(...value.literals);
      text += gap;
      at = value.at + 1;
    } else {
      const length = code[at] === "\\" ? 2 : 1;
      text += code.slice(at, at + length);
      at += length;
    }
  }
  return { literals: [{ text: plain(text), template: true, before }, ...inner], at: at + 1 };
}

/** A stroke divides after a value and begins a pattern elsewhere. */
function beginsPattern(before: string): boolean {
  return /(^|[(,=:[!&|?{};+\-*%<>~^]|\b(return|typeof|case|in|of|yield))$/.test(before);
}

function endOf(code: string, from: number, quote: string): number {
  let at = from;
  while (code[at] !== quote) {
    if (at >= code.length) throw new Error(`A text has no end: ${code.slice(from, from + 60)}`);
    at += code[at] === "\\" ? 2 : 1;
  }
  return at;
}

/** After the closing stroke, which is none within square brackets. */
function endOfPattern(code: string, from: number): number {
  let [at, inClass] = [from, false];
  while (code[at] !== "/" || inClass) {
    if (at >= code.length) throw new Error(`A pattern has no end: ${code.slice(from, from + 60)}`);
    if (code[at] === "[") inClass = true;
    if (code[at] === "]") inClass = false;
    at += code[at] === "\\" ? 2 : 1;
  }
  return at + 1;
}

function lineEnd(code: string, from: number): number {
  const end = code.indexOf("\n", from);
  return end < 0 ? code.length : end;
}

/** Line ends as spaces. */
function plain(text: string): string {
  return text.replace(/\\n|\n/g, " ");
}

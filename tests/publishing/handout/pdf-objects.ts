import { inflateSync } from "node:zlib";

/** PDF objects as plain values (ISO 32000-1, 7.3). A name keeps its slash, so that it is no string. */
export type PdfObject = null | boolean | number | string | PdfRef | PdfText | readonly PdfObject[] | PdfDictionary;
export interface PdfRef {
  readonly ref: number;
}
export interface PdfText {
  readonly text: string;
}
export interface PdfDictionary {
  readonly [key: `/${string}`]: PdfObject;
}

export interface PdfFile {
  readonly objects: ReadonlyMap<number, PdfObject>;
  readonly trailer: PdfDictionary;
  /** Bytes of a stream, inflated. */
  readonly streamOf: (ref: PdfObject | undefined) => Buffer;
}

export interface Operation {
  readonly operator: string;
  readonly operands: readonly PdfObject[];
}

const space = /[\0\t\n\f\r ]/;
const delimiter = /[\0\t\n\f\r ()<>[\]{}/%]/;

/** Reads objects one after the other; a bare word that is no object (an operator) comes as its name. */
class Reader {
  at = 0;
  constructor(readonly text: string) {}

  skip(): void {
    while (space.test(this.text[this.at] ?? "")) this.at++;
  }

  word(): string {
    const from = this.at;
    while (this.at < this.text.length && !delimiter.test(this.text[this.at] ?? "")) this.at++;
    return this.text.slice(from, this.at);
  }

  read(): PdfObject | { readonly operator: string } {
    this.skip();
    const two = this.text.slice(this.at, this.at + 2);
    if (two === "<<") return this.dictionary();
    const one = two[0] ?? "";
    if (one === "[") return this.array();
    if (one === "(") return this.literal();
    if (one === "<") return this.hex();
    if (one === "/") {
      this.at++;
      return `/${this.word().replace(/#([0-9a-f]{2})/gi, (_, code) => String.fromCharCode(Number.parseInt(code, 16)))}`;
    }
    return this.bare();
  }

  bare(): PdfObject | { readonly operator: string } {
    const reference = /^(\d+) 0 R\b/.exec(this.text.slice(this.at, this.at + 20));
    if (reference) {
      this.at += reference[0].length;
      return { ref: Number(reference[1]) };
    }
    const word = this.word();
    if (word === "") throw new Error(`Nothing to read at ${this.at}: ${this.text.slice(this.at, this.at + 20)}`);
    if (word === "true" || word === "false") return word === "true";
    if (word === "null") return null;
    return Number.isNaN(Number(word)) ? { operator: word } : Number(word);
  }

  dictionary(): PdfDictionary {
    this.at += 2;
    const entries: [string, PdfObject][] = [];
    for (this.skip(); !this.text.startsWith(">>", this.at); this.skip())
      entries.push([this.read() as string, this.read() as PdfObject]);
    this.at += 2;
    return Object.fromEntries(entries) as PdfDictionary;
  }

  array(): readonly PdfObject[] {
    this.at++;
    const items: PdfObject[] = [];
    for (this.skip(); this.text[this.at] !== "]"; this.skip()) items.push(this.read() as PdfObject);
    this.at++;
    return items;
  }

  hex(): PdfText {
    const end = this.text.indexOf(">", this.at);
    const digits = this.text.slice(this.at + 1, end);
    this.at = end + 1;
    return { text: Buffer.from(digits, "hex").toString("latin1") };
  }

  literal(): PdfText {
    let [depth, text] = [0, ""];
    for (;;) {
      const letter = this.text[this.at++] ?? "";
      if (letter === "\\") {
        const next = this.text[this.at++] ?? "";
        text += { n: "\n", r: "\r", t: "\t", b: "\b", f: "\f" }[next] ?? next;
        continue;
      }
      if (letter === "(" && depth++ === 0) continue;
      if (letter === ")" && --depth === 0) break;
      text += letter;
    }
    const bytes = Buffer.from(text, "latin1");
    return { text: text.startsWith("\xfe\xff") ? Buffer.from(bytes.subarray(2)).swap16().toString("utf16le") : text };
  }
}

/** Takes a file apart by its cross-reference stream (ISO 32000-1, 7.5.8) and object streams (7.5.7). */
export function readObjects(file: Uint8Array): PdfFile {
  const text = Buffer.from(file).toString("latin1");
  const streams = new Map<number, Buffer>();
  const objects = new Map<number, PdfObject>();
  const readAt = (offset: number): { number: number; object: PdfObject } => {
    const head = /^(\d+) 0 obj\n/.exec(text.slice(offset, offset + 20));
    if (!head) throw new Error(`There is no object at ${offset}.`);
    const reader = new Reader(text);
    reader.at = offset + head[0].length;
    const object = reader.read() as PdfDictionary;
    const number = Number(head[1]);
    const body = /^\s*stream\r?\n/.exec(text.slice(reader.at, reader.at + 20));
    if (body) {
      const from = reader.at + body[0].length;
      const bytes = Buffer.from(text.slice(from, from + (object["/Length"] as number)), "latin1");
      streams.set(number, object["/Filter"] === "/FlateDecode" ? inflateSync(bytes) : bytes);
    }
    return { number, object };
  };
  const start = Number(/startxref\n(\d+)\n%%EOF\n$/.exec(text)?.[1]);
  const table = readAt(start);
  const trailer = table.object as PdfDictionary;
  const rows = streams.get(table.number) ?? Buffer.alloc(0);
  const packed: { number: number; stream: number; index: number }[] = [];
  for (let number = 1; number < (trailer["/Size"] as number); number++) {
    const [type, place, index] = [
      rows[number * 7],
      rows.readUInt32BE(number * 7 + 1),
      rows.readUInt16BE(number * 7 + 5),
    ];
    if (type === 1) objects.set(number, readAt(place).object);
    else if (type === 2) packed.push({ number, stream: place, index });
    else throw new Error(`Object ${number} is free.`);
  }
  for (const { number, stream, index } of packed) {
    const holder = objects.get(stream) as PdfDictionary;
    const data = (streams.get(stream) ?? Buffer.alloc(0)).toString("latin1");
    const head = data
      .slice(0, holder["/First"] as number)
      .trim()
      .split(/\s+/)
      .map(Number);
    if (head[index * 2] !== number) throw new Error(`Object ${number} is not where it should be.`);
    const reader = new Reader(data);
    reader.at = (holder["/First"] as number) + (head[index * 2 + 1] ?? 0);
    objects.set(number, reader.read() as PdfObject);
  }
  const streamOf = (ref: PdfObject | undefined) => streams.get((ref as PdfRef).ref) ?? Buffer.alloc(0);
  return { objects, trailer, streamOf };
}

/** The operations of a content stream (ISO 32000-1, 7.8.2). */
export function readContent(stream: Buffer): readonly Operation[] {
  const reader = new Reader(stream.toString("latin1"));
  const operations: Operation[] = [];
  let operands: PdfObject[] = [];
  for (reader.skip(); reader.at < reader.text.length; reader.skip()) {
    const item = reader.read();
    if (item !== null && typeof item === "object" && "operator" in item) {
      operations.push({ operator: item.operator as string, operands });
      operands = [];
    } else operands.push(item as PdfObject);
  }
  return operations;
}

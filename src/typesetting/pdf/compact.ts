import { deflateSync } from "node:zlib";
import { level } from "../adapter.js";

/** Objects in one object stream: readers unpack a whole stream to get at one of them. */
const mostObjects = 200;

interface Packed {
  readonly stream: number;
  readonly index: number;
}

/**
 * The same document with its small objects in compressed object streams (ISO 32000-1, 7.5.7 and 7.5.8), which pdfkit does
 * not write. A tagged sheet has some hundred structure elements, and is half its size afterwards.
 *
 * @param text a whole PDF as pdfkit writes it, a letter a byte: one cross-reference table, generation 0 throughout
 */
export function compactPdf(text: string): Uint8Array {
  const table = Number(/startxref\n(\d+)\n%%EOF\s*$/.exec(text)?.[1]);
  const offsets = [...text.slice(table).matchAll(/^(\d{10}) 00000 n /gm)].map((match) => Number(match[1]));
  const bodies = bodiesOf(text, offsets, table);
  const small = bodies.flatMap((body, index) => (body.endsWith("\nendstream") ? [] : [index + 1]));

  const chunks: string[] = [text.slice(0, Math.min(...offsets))];
  let at = chunks[0]?.length ?? 0;
  const write = (number: number, body: string) => {
    const chunk = `${number} 0 obj\n${body}\nendobj\n`;
    chunks.push(chunk);
    places.set(number, at);
    at += chunk.length;
  };
  const places = new Map<number, number | Packed>();
  bodies.forEach((body, index) => {
    if (body.endsWith("\nendstream")) write(index + 1, body);
  });
  let next = bodies.length + 1;
  for (let from = 0; from < small.length; from += mostObjects, next++) {
    const numbers = small.slice(from, from + mostObjects);
    for (const [index, number] of numbers.entries()) places.set(number, { stream: next, index });
    write(next, objectStream(numbers.map((number) => [number, bodies[number - 1] ?? "null"])));
  }
  const trailer = /trailer\n<<\n([\s\S]*?)\n>>\nstartxref/.exec(text.slice(table))?.[1] ?? "";
  places.set(next, at);
  chunks.push(`${next} 0 obj\n${crossReferences(places, next + 1, trailer)}\nendobj\nstartxref\n${at}\n%%EOF\n`);
  return Buffer.from(chunks.join(""), "latin1");
}

/** What stands between `obj` and `endobj`, in the order of the objects' numbers. */
function bodiesOf(text: string, offsets: readonly number[], table: number): readonly string[] {
  const sorted = [...offsets, table].sort((a, b) => a - b);
  const after = new Map(sorted.map((offset, index) => [offset, sorted[index + 1] ?? table]));
  return offsets.map((offset) => {
    const whole = text.slice(offset, after.get(offset));
    return whole.slice(whole.indexOf("\n") + 1, whole.lastIndexOf("\nendobj"));
  });
}

function objectStream(objects: readonly (readonly [number: number, body: string])[]): string {
  let at = 0;
  const heads = objects.map(([number, body]) => {
    const head = `${number} ${at}`;
    at += body.length + 1;
    return head;
  });
  const first = `${heads.join(" ")}\n`;
  const data = first + objects.map(([, body]) => body).join("\n");
  return stream(`/Type /ObjStm /N ${objects.length} /First ${first.length}`, Buffer.from(data, "latin1"));
}

/** A cross-reference stream: one byte of type, four of offset or stream number, two of index. */
function crossReferences(places: ReadonlyMap<number, number | Packed>, size: number, trailer: string): string {
  const data = Buffer.alloc(size * 7);
  data.writeUInt16BE(0xffff, 5);
  for (const [number, place] of places) {
    data.writeUInt8(typeof place === "number" ? 1 : 2, number * 7);
    data.writeUInt32BE(typeof place === "number" ? place : place.stream, number * 7 + 1);
    data.writeUInt16BE(typeof place === "number" ? 0 : place.index, number * 7 + 5);
  }
  const rest = trailer.replace(/^\/Size .*$/m, "").trim();
  return stream(`/Type /XRef /Size ${size} /W [1 4 2] ${rest}`, data);
}

function stream(keys: string, data: Buffer): string {
  const packed = deflateSync(data, { level }).toString("latin1");
  return `<< ${keys} /Filter /FlateDecode /Length ${packed.length} >>\nstream\n${packed}\nendstream`;
}

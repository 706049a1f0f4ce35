import { inflateSync } from "node:zlib";

const header = { woff: 44, sfnt: 12 };
const entry = { woff: 20, sfnt: 16 };

/**
 * Unpacks a font file from WOFF 1.0 (W3C Recommendation 2012, sections 3 to 5) to the plain sfnt that was packed. fontkit reads
 * WOFF too, but would unpack a table anew for every glyph that it copies.
 */
export function unpackWoff(file: Buffer): Uint8Array {
  const count = file.readUInt16BE(12);
  const tables = Array.from({ length: count }, (_, index) => {
    const at = header.woff + index * entry.woff;
    const [offset, packed, size] = [file.readUInt32BE(at + 4), file.readUInt32BE(at + 8), file.readUInt32BE(at + 12)];
    const data = file.subarray(offset, offset + packed);
    const tag = file.subarray(at, at + 4);
    return { tag, checksum: file.readUInt32BE(at + 16), data: packed < size ? inflateSync(data) : data };
  });
  const head = Buffer.alloc(header.sfnt + count * entry.sfnt);
  file.copy(head, 0, 4, 8);
  head.writeUInt16BE(count, 4);
  const bodies: Buffer[] = [];
  let offset = head.length;
  tables.forEach(({ tag, checksum, data }, index) => {
    const at = header.sfnt + index * entry.sfnt;
    tag.copy(head, at);
    head.writeUInt32BE(checksum, at + 4);
    head.writeUInt32BE(offset, at + 8);
    head.writeUInt32BE(data.length, at + 12);
    const padded = Buffer.alloc(Math.ceil(data.length / 4) * 4);
    data.copy(padded);
    bodies.push(padded);
    offset += padded.length;
  });
  return Buffer.concat([head, ...bodies]);
}

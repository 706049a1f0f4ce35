import { crc32, deflateSync } from "node:zlib";

export type Colour = readonly [red: number, green: number, blue: number];

/** A picture of at most 256 colours: an index a pixel, row by row. */
export interface Indexed {
  readonly width: number;
  readonly height: number;
  readonly palette: readonly Colour[];
  readonly pixels: Uint8Array;
}

/** A picture as a PNG file (ISO/IEC 15948:2004): indexed colour, 8 bits, no filter, since its areas are flat. */
export function pngFile({ width, height, palette, pixels }: Indexed): Uint8Array {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, 3, 0, 0, 0], 8);
  const rows = Buffer.alloc((width + 1) * height);
  for (let y = 0; y < height; y++) rows.set(pixels.subarray(y * width, (y + 1) * width), y * (width + 1) + 1);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk("IHDR", header),
    chunk("PLTE", Buffer.from(palette.flat())),
    chunk("IDAT", deflateSync(rows)),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

function chunk(name: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(name, "latin1"), data]);
  const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  check.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, check]);
}

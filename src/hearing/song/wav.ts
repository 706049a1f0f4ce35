/** A sound as one row of samples between -1 and 1. */
export interface Sound {
  readonly samples: Float32Array;
  /** Samples a second. */
  readonly rate: number;
  /** True where the file ends before it says it does. */
  readonly cutShort: boolean;
}

/** Why a file could not be read as a WAV. */
export type NoSound =
  | { readonly why: "empty" | "not-wav" | "no-format" | "no-samples" }
  | { readonly why: "not-pcm" | "bits" | "channels" | "rate"; readonly found: number };

/** A piece of a RIFF file. */
interface Chunk {
  readonly name: string;
  readonly from: number;
  /** As far as the file goes. */
  readonly size: number;
  readonly cutShort: boolean;
}

/** More have none but files that are no sound. */
const mostChunks = 1_000;

const [pcm, extensible] = [1, 0xfffe];

/**
 * Reads a RIFF/WAVE file of 16-bit PCM (Microsoft & IBM, Multimedia Programming Interface and Data Specifications 1.0, 1991; the
 * extensible form as in Microsoft's WAVEFORMATEXTENSIBLE; both *from memory*), mono or stereo, which becomes mono. Chunks of other
 * kinds are passed over; the sizes of the file and of its last chunk may be wrong, as recorders leave them that were switched off.
 */
export function readWav(bytes: Uint8Array): Sound | NoSound {
  if (bytes.length === 0) return { why: "empty" };
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 12 || nameAt(bytes, 0) !== "RIFF" || nameAt(bytes, 8) !== "WAVE") return { why: "not-wav" };
  const chunks = chunksIn(bytes, view);
  const format = chunks.find(({ name, size }) => name === "fmt " && size >= 16);
  if (format === undefined) return { why: "no-format" };
  const channels = view.getUint16(format.from + 2, true);
  const rate = view.getUint32(format.from + 4, true);
  const fault = formatFault(view, format, channels, rate);
  if (fault) return fault;
  const data = chunks.find(({ name, size }) => name === "data" && size >= 2 * channels);
  if (data === undefined) return { why: "no-samples" };
  return { samples: samplesOf(view, data, channels), rate, cutShort: data.cutShort };
}

function formatFault(view: DataView, { from, size }: Chunk, channels: number, rate: number): NoSound | undefined {
  const tag = view.getUint16(from, true);
  // The extensible form names the kind again, at the head of a longer name.
  const kind = tag === extensible && size >= 26 ? view.getUint16(from + 24, true) : tag;
  const bits = view.getUint16(from + 14, true);
  if (kind !== pcm) return { why: "not-pcm", found: kind };
  if (bits !== 16) return { why: "bits", found: bits };
  if (channels !== 1 && channels !== 2) return { why: "channels", found: channels };
  return rate < 4_000 || rate > 400_000 ? { why: "rate", found: rate } : undefined;
}

function chunksIn(bytes: Uint8Array, view: DataView): readonly Chunk[] {
  const chunks: Chunk[] = [];
  let at = 12;
  while (at + 8 <= bytes.length && chunks.length < mostChunks) {
    const said = view.getUint32(at + 4, true);
    const left = bytes.length - at - 8;
    const name = nameAt(bytes, at);
    // A recorder that was switched off has written no size yet, and a program that wrote as it went never knew it.
    const unknown = name === "data" && (said === 0 || said === 0xffffffff);
    const size = unknown ? left : Math.min(said, left);
    chunks.push({ name, from: at + 8, size, cutShort: said > left && !unknown });
    // A chunk of an odd size has a byte behind it that makes it even.
    at += 8 + size + (size % 2);
  }
  return chunks;
}

function nameAt(bytes: Uint8Array, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4));
}

function samplesOf(view: DataView, { from, size }: Chunk, channels: number): Float32Array {
  const samples = new Float32Array(Math.floor(size / (2 * channels)));
  for (let index = 0; index < samples.length; index++) {
    const at = from + 2 * channels * index;
    const left = view.getInt16(at, true);
    samples[index] = (channels === 1 ? left : (left + view.getInt16(at + 2, true)) / 2) / 32_768;
  }
  return samples;
}

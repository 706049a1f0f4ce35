/** A quiet tone in the plainest of formats: RIFF/WAVE, PCM, one channel, 8 bits, 8000 Hz. */
export function tone(seconds) {
  const rate = 8000;
  const samples = Uint8Array.from({ length: seconds * rate }, (_, i) => 128 + Math.round(20 * Math.sin(i / 3)));
  const head = Buffer.alloc(44);
  head.write("RIFF", 0);
  head.writeUInt32LE(36 + samples.length, 4);
  head.write("WAVEfmt ", 8);
  head.writeUInt32LE(16, 16);
  head.writeUInt16LE(1, 20);
  head.writeUInt16LE(1, 22);
  head.writeUInt32LE(rate, 24);
  head.writeUInt32LE(rate, 28);
  head.writeUInt16LE(1, 32);
  head.writeUInt16LE(8, 34);
  head.write("data", 36);
  head.writeUInt32LE(samples.length, 40);
  return Buffer.concat([head, samples]);
}

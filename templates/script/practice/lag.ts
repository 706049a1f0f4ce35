import { median } from "../../../src/hearing/song/numbers.js";

/** Seconds of song between two knocks: uneven, so that nothing that works on stretches of sound falls into step with them. */
const gaps = [0.23, 0.19, 0.26, 0.21, 0.24, 0.18, 0.25, 0.2, 0.22, 0.27];
const sampleRate = 44_100;
/** Seconds of song. */
const length = 12;
/** Seconds after which a measurement may begin, and how many snapshots it takes. */
const settle = 0.5;
const snapshots = 10;
/** Samples of a snapshot: the longest that the Web Audio API has, three quarters of a second. */
const window = 32_768;
const loud = 0.15;

/**
 * How much later than an audio element reports a song is heard in an audio graph, by the rate at which it plays. The delay is the
 * browser's own and not reported: what keeps the pitch works on stretches of sound, and puts what is struck in one of them before or after
 * its place, at 60 per cent by up to 30 ms. So a train of knocks that nobody hears is played at that rate, and what comes of it is compared
 * with a knock at a known time. The mean of them is believed from the first ones on, and gets better with the others, as long as no other rate
 * waits to be measured.
 *
 * @returns seconds, negative where the song is heard earlier; none before the first knocks, and 0 where it can't be measured
 */
export function lagOf(context: AudioContext): (rate: number) => number | undefined {
  const known = new Map<number, number>();
  const asked = new Set<number>();
  let last: Promise<void> = Promise.resolve();
  let waiting = 0;
  return (rate) => {
    if (!asked.has(rate)) {
      asked.add(rate);
      waiting++;
      const learn = (lag: number) => {
        known.set(rate, lag);
        // Who makes room for another comes again.
        if (waiting > 1) asked.delete(rate);
        return waiting > 1;
      };
      last = last
        .then(() => measure(context, rate, learn))
        .catch(() => {
          if (!known.has(rate)) learn(0);
        })
        .finally(() => waiting--);
    }
    return known.get(rate);
  };
}

/** @param learn told what is known so far; returns whether that is enough */
async function measure(context: AudioContext, rate: number, learn: (lag: number) => boolean): Promise<void> {
  const places = placesOfKnocks();
  const audio = new Audio(URL.createObjectURL(train(places)));
  audio.preservesPitch = true;
  audio.playbackRate = rate;
  const ear = new AnalyserNode(context, { fftSize: window });
  const silence = new GainNode(context, { gain: 0 });
  const source = context.createMediaElementSource(audio);
  source.connect(ear).connect(silence).connect(context.destination);
  try {
    await audio.play();
    const until = (seconds: number) => new Promise<void>((done) => setTimeout(done, seconds * 1000));
    const lags: number[] = [];
    await until(settle);
    for (let shot = 0; shot < snapshots; shot++) {
      // A knock downwards, which the train has none of: what is heard is placed by it, to the sample.
      const mark = context.currentTime + 0.1;
      const sign = new AudioBufferSourceNode(context, { buffer: markOf(context) });
      sign.connect(ear);
      sign.start(mark);
      const origins: number[] = [];
      for (let look = 0; look < 20; look++) {
        origins.push(audio.currentTime - rate * context.currentTime);
        await until((window / context.sampleRate - 0.1) / 20);
      }
      const origin = median(origins);
      for (const time of knocksIn(ear, mark)) {
        const place = origin + rate * time;
        const nearest = places.reduce((best, at) => (Math.abs(at - place) < Math.abs(best - place) ? at : best), 0);
        if (Math.abs(place - nearest) < 0.08) lags.push((place - nearest) / rate);
      }
      if (lags.length > 0 && learn(lags.reduce((sum, lag) => sum + lag, 0) / lags.length)) return;
    }
    if (lags.length === 0) learn(0);
  } finally {
    audio.pause();
    URL.revokeObjectURL(audio.src);
    source.disconnect();
    silence.disconnect();
  }
}

/** Times on the context's clock at which knocks begin in what was heard last, placed by the mark. */
function knocksIn(ear: AnalyserNode, mark: number): readonly number[] {
  const samples = new Float32Array(window);
  ear.getFloatTimeDomainData(samples);
  const rate = ear.context.sampleRate;
  const sign = samples.indexOf(samples.reduce((least, sample) => Math.min(least, sample)));
  const found: number[] = [];
  for (let i = 1; i < samples.length; i++) {
    if ((samples[i] ?? 0) < loud) continue;
    found.push(mark + (i - sign) / rate);
    i += Math.round(0.05 * rate);
  }
  // One that began before the snapshot is not whole.
  return found.filter((time) => time > mark - sign / rate + 0.02);
}

function placesOfKnocks(): readonly number[] {
  const places: number[] = [];
  for (let at = 0.1, i = 0; at < length - 0.1; at += gaps[i++ % gaps.length] ?? 0.2) places.push(at);
  return places;
}

/** One sample, all the way down. */
function markOf(context: AudioContext): AudioBuffer {
  const buffer = context.createBuffer(1, 1, context.sampleRate);
  buffer.getChannelData(0)[0] = -2;
  return buffer;
}

/** Knocks upwards at these places, as a file that every browser plays (RIFF/WAVE, PCM, one channel, 16 bits). */
function train(places: readonly number[]): Blob {
  const bytes = new DataView(new ArrayBuffer(44 + length * sampleRate * 2));
  const text = (at: number, letters: string) => {
    for (let i = 0; i < letters.length; i++) bytes.setUint8(at + i, letters.charCodeAt(i));
  };
  text(0, "RIFF");
  bytes.setUint32(4, bytes.byteLength - 8, true);
  text(8, "WAVEfmt ");
  bytes.setUint32(16, 16, true);
  bytes.setUint16(20, 1, true);
  bytes.setUint16(22, 1, true);
  bytes.setUint32(24, sampleRate, true);
  bytes.setUint32(28, sampleRate * 2, true);
  bytes.setUint16(32, 2, true);
  bytes.setUint16(34, 16, true);
  text(36, "data");
  bytes.setUint32(40, bytes.byteLength - 44, true);
  for (let i = 0; i < length * sampleRate; i++) bytes.setInt16(44 + 2 * i, bed(i / sampleRate), true);
  for (const place of places)
    for (let i = 0; i < 800; i++)
      bytes.setInt16(44 + 2 * (Math.round(place * sampleRate) + i), 24_000 * Math.exp(-i / 200), true);
  return new Blob([bytes], { type: "audio/wav" });
}

/** A chord under the knocks, since what keeps the pitch looks for what is alike. */
function bed(seconds: number): number {
  return [220, 275, 330].reduce((sum, pitch) => sum + 1000 * Math.sin(2 * Math.PI * pitch * seconds), 0);
}

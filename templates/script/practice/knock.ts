import type { Sound } from "./schedule.js";

const tones: Readonly<Record<Sound, { readonly pitch: number; readonly level: number }>> = {
  count: { pitch: 1150, level: 0.45 },
  accent: { pitch: 1720, level: 0.95 },
  "count-in": { pitch: 760, level: 0.6 },
};

export type Knock = (sound: Sound, time: number) => () => void;

/**
 * What makes the sound of clicks: has one sound at a time of the context's clock, and returns how to take it back.
 *
 * @param into where it is heard
 */
export function knocks(context: BaseAudioContext, into: AudioNode): Knock {
  const made = new Map<Sound, AudioBuffer>();
  return (sound, time) => {
    const buffer = made.get(sound) ?? clickSound(context, sound);
    made.set(sound, buffer);
    const source = new AudioBufferSourceNode(context, { buffer });
    source.connect(into);
    source.start(time);
    return () => source.disconnect();
  };
}

/** A short knock: a tone and its fifth that begin at once and die away within sixty milliseconds. */
function clickSound(context: BaseAudioContext, sound: Sound): AudioBuffer {
  const { pitch, level } = tones[sound];
  const buffer = context.createBuffer(1, Math.ceil(context.sampleRate * 0.06), context.sampleRate);
  const samples = buffer.getChannelData(0);
  for (let i = 0; i < samples.length; i++) {
    const phase = (2 * Math.PI * pitch * i) / context.sampleRate;
    const fade = Math.exp((-i / context.sampleRate) * 90);
    samples[i] = level * fade * (0.75 * Math.sin(phase) + 0.25 * Math.sin(phase * 1.5));
  }
  return buffer;
}

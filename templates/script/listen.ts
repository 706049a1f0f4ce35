/* What the song desk has done aside, so that its page goes on: it listens to a whole song. */
import { guessSong } from "../../src/hearing/song/tempo.js";
import type { NoGuess, SongGuess } from "../../src/hearing/song/types.js";

/** A song as one channel of samples. */
export interface ToHear {
  readonly samples: Float32Array;
  /** Samples a second. */
  readonly rate: number;
}

/** What a worker can do beyond a page, as far as it is used here; the library of types has pages or workers. */
interface WorkerScope {
  addEventListener(name: "message", listen: (event: MessageEvent<ToHear>) => void): void;
  postMessage(guess: SongGuess | NoGuess): void;
}

const worker = self as unknown as WorkerScope;
worker.addEventListener("message", ({ data }) => worker.postMessage(guessSong(data.samples, data.rate)));

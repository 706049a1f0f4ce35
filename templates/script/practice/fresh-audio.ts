/** An audio element that can be changed for a fresh one while it plays. */
export interface FreshAudio {
  /** Stands for whichever element plays now. */
  readonly audio: HTMLAudioElement;
  /** That element itself. */
  readonly element: () => HTMLAudioElement;
  /** Goes on with a fresh one from where the sound is. */
  readonly change: () => void;
}

/**
 * What is led into an audio graph can't be led out of it again, and is silent where that stands still. A fresh element of the same file
 * sounds by itself.
 */
export function freshAudio(first: HTMLAudioElement): FreshAudio {
  let element = first;
  const listeners: (readonly [string, EventListener])[] = [];
  const audio = new Proxy(first, {
    get: (_, name) => {
      if (name === "addEventListener")
        return (type: string, listener: EventListener) => {
          listeners.push([type, listener]);
          element.addEventListener(type, listener);
        };
      const value: unknown = Reflect.get(element, name, element);
      return typeof value === "function" ? value.bind(element) : value;
    },
    set: (_, name, value) => Reflect.set(element, name, value, element),
  });
  return {
    audio,
    element: () => element,
    change: () => {
      const [old, fresh] = [element, element.cloneNode() as HTMLAudioElement];
      const { paused, currentTime, playbackRate } = old;
      for (const [type, listener] of listeners) {
        old.removeEventListener(type, listener);
        fresh.addEventListener(type, listener);
      }
      old.pause();
      fresh.currentTime = currentTime;
      fresh.preservesPitch = true;
      fresh.defaultPlaybackRate = playbackRate;
      fresh.playbackRate = playbackRate;
      old.replaceWith(fresh);
      element = fresh;
      // A browser that wants a touch for every sound has it from whoever goes on.
      if (!paused) fresh.play().catch(() => fresh.dispatchEvent(new Event("pause")));
    },
  };
}

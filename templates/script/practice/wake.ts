/** Keeps the screen awake while it is held, as far as the browser can: a lock is lost whenever the page is hidden. */
export function wakeLock(): (hold: boolean) => void {
  let held = false;
  let lock: WakeLockSentinel | undefined;
  const update = async () => {
    try {
      if (held && !document.hidden) {
        const got = await navigator.wakeLock?.request("screen");
        // It may have been let go while the browser thought about it.
        if (held) lock = got;
        else await got?.release();
      } else {
        await lock?.release();
        lock = undefined;
      }
    } catch {
      // A browser may refuse, on low battery for one; the practice goes on.
    }
  };
  document.addEventListener("visibilitychange", update);
  return (hold) => {
    held = hold;
    void update();
  };
}

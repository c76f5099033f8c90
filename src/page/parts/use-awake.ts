import { useEffect, useState } from 'preact/hooks';

/** Keeps the screen on while a step is in hand, in browsers that can; true where it does. */
export function useAwake(isNeeded: boolean): boolean {
  const [isAwake, setAwake] = useState(false);
  useEffect(() => {
    if (!isNeeded || !('wakeLock' in navigator)) return;
    let lock: WakeLockSentinel | null = null;
    let isOver = false;
    const hold = async (): Promise<void> => {
      if (document.visibilityState !== 'visible' || (lock !== null && !lock.released)) return;
      try {
        const held = await navigator.wakeLock.request('screen');
        if (isOver) return void held.release();
        lock = held;
        held.addEventListener('release', () => setAwake(false));
        setAwake(true);
      } catch {
        // refused, as on a low battery: the screen goes dark as it always does
        setAwake(false);
      }
    };
    void hold();
    // a browser lets go of it whenever the page is hidden
    document.addEventListener('visibilitychange', hold);
    return () => {
      isOver = true;
      document.removeEventListener('visibilitychange', hold);
      void lock?.release();
      setAwake(false);
    };
  }, [isNeeded]);
  return isAwake;
}

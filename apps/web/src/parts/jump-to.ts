/**
 * Jumps to a part of the page and keeps it where it was brought to while what stands above it comes:
 * stations are fetched and laid out when they are near, and push down what follows.
 */

/** By then all that was near has come. */
const LONGEST = 10_000;
/** The reader's own moves, which end the holding. */
const MOVES = ['wheel', 'touchstart', 'pointerdown', 'keydown'] as const;

let release: (() => void) | null = null;

/** @param part - one of the page's parts; those before it in its parent are watched */
export function jumpTo(part: HTMLElement): void {
  release?.();
  part.scrollIntoView();
  const observer = new ResizeObserver(() => {
    part.scrollIntoView();
  });
  for (let each: Element | null = part; each !== null; each = each.previousElementSibling) {
    observer.observe(each);
  }
  const own = new AbortController();
  const stop = (): void => {
    observer.disconnect();
    own.abort();
    clearTimeout(timer);
    if (release === stop) release = null;
  };
  const timer = setTimeout(stop, LONGEST);
  for (const move of MOVES) {
    addEventListener(move, stop, { capture: true, passive: true, signal: own.signal });
  }
  release = stop;
}

/**
 * Jumps to a part of the page and keeps it where it was brought to while what stands above it comes:
 * stations are fetched and laid out when they are near, and push down what follows. The focus goes
 * along to the part's heading, so that the next Tab is inside it and a reader of the screen says it.
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
  // A part that was fetched just now is laid out by the next frame.
  requestAnimationFrame(() => {
    focusOn(headingIn(part));
  });
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

/** The first heading in a part, or in the element that the part was fetched for. */
function headingIn(part: Element): HTMLElement | null {
  const root = part.shadowRoot;
  if (root === null) return null;
  const inner = root.firstElementChild;
  return root.querySelector('h2') ?? (inner === null ? null : headingIn(inner));
}

function focusOn(heading: HTMLElement | null): void {
  if (heading === null) return;
  // Only now: a heading is no place to come to by Tab or to click into.
  heading.tabIndex = -1;
  heading.focus({ preventScroll: true });
  const leave = () => {
    heading.removeAttribute('tabindex');
  };
  heading.addEventListener('blur', leave, { once: true });
}

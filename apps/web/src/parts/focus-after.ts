/**
 * Where the focus goes when a button has taken away the part that it stood in: to the like button
 * that came to its place, to the last of them, or to what is left when there is none.
 */
import type { LitElement } from 'lit';

/** To what an element shows in its next drawing: a part come new, or what is left of one gone. */
export async function focusIn(host: LitElement, selector: string): Promise<void> {
  await host.updateComplete;
  host.renderRoot.querySelector<HTMLElement>(selector)?.focus();
}

/** An element may follow the notebook a frame or two later. */
const FRAMES = 3;

/**
 * To be called beside the command that takes the part away.
 *
 * @param host - the element that shows the parts
 * @param button - the button that was pressed
 * @param alike - selector of such buttons
 * @param otherwise - selector of what takes the focus when none of them is left
 */
export async function focusAfter(
  host: LitElement,
  button: EventTarget | null,
  alike: string,
  otherwise: string,
): Promise<void> {
  const root = host.renderRoot;
  const place = [...root.querySelectorAll(alike)].findIndex((each) => each === button);
  await host.updateComplete;
  const isGone = () => !(button instanceof Node && button.isConnected);
  for (let frame = 0; frame < FRAMES && !isGone(); frame += 1) {
    await new Promise(requestAnimationFrame);
  }
  // Rows without names of their own keep their buttons, and with them the focus.
  if (!isGone()) return;
  const left = root.querySelectorAll<HTMLElement>(alike);
  const next = left[Math.min(Math.max(place, 0), left.length - 1)];
  (next ?? root.querySelector<HTMLElement>(otherwise))?.focus();
}

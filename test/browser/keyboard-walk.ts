/** A user without a mouse: keys pressed and counted, and what the focus stands on. */
import type { Page } from 'playwright-core';

interface Focused {
  /** Its accessible name, or its text where it has none of its own. */
  readonly name: string;
  readonly tag: string;
  /** Whether the browser shows where the focus is: an outline, in the window. */
  readonly visible: boolean;
}

export interface Walk {
  readonly keys: () => number;
  /** Counts keys that were pressed on another page. */
  readonly count: (keys: number) => void;
  readonly press: (key: string, times?: number) => Promise<void>;
  readonly type: (text: string) => Promise<void>;
  readonly focused: () => Promise<Focused>;
  /** Tab, or Shift+Tab, until the focus stands on what is named; it must show at every stop. */
  readonly tabTo: (name: RegExp, key?: 'Tab' | 'Shift+Tab') => Promise<void>;
}

/** More stops than this on the way to one thing are too many for a person too. */
const MOST_STOPS = 40;

export function keyboardWalk(page: Page): Walk {
  let keys = 0;
  const press = async (key: string, times = 1): Promise<void> => {
    for (let i = 0; i < times; i += 1) {
      await page.keyboard.press(key);
      keys += 1;
    }
  };
  const focused = (): Promise<Focused> => focusedIn(page);
  return {
    keys: () => keys,
    count: (more) => {
      keys += more;
    },
    press,
    focused,
    type: async (text) => {
      await page.keyboard.type(text);
      keys += text.length;
    },
    tabTo: async (name, key = 'Tab') => {
      const stops: string[] = [];
      for (let i = 0; i < MOST_STOPS; i += 1) {
        const at = await focused();
        if (i > 0) stops.push(at.name);
        if (i > 0 && !at.visible) throw new Error(`the focus on "${at.name}" does not show`);
        if (name.test(at.name) && i > 0) return;
        await press(key);
      }
      throw new Error(`${String(name)} was not reached by ${key}: ${stops.join(' | ')}`);
    },
  };
}

/** What has the focus, through every shadow root. */
function focusedIn(page: Page): Promise<Focused> {
  return page.evaluate(() => {
    let at = document.activeElement;
    while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
    if (at === null || at === document.body) return { name: '(nothing)', tag: '', visible: false };
    const labels =
      at instanceof HTMLInputElement || at instanceof HTMLSelectElement ? at.labels : null;
    const labelled = [...(labels ?? [])].map((label) => label.textContent).join(' ');
    const name = at.ariaLabel ?? (labelled === '' ? at.textContent : labelled);
    const { outlineStyle, outlineWidth } = getComputedStyle(at);
    const { top, bottom, left, right } = at.getBoundingClientRect();
    const inWindow = bottom > 0 && right > 0 && top < innerHeight && left < innerWidth;
    const outlined = outlineStyle !== 'none' && parseFloat(outlineWidth) >= 1;
    return {
      name: name.replace(/\s+/g, ' ').trim().slice(0, 80),
      tag: at.tagName.toLowerCase(),
      visible: outlined && inWindow,
    };
  });
}

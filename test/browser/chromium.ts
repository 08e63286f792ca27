/** A headless Chromium, and pages of the app in it that note every fault. */
import {
  chromium,
  type Browser,
  type BrowserContextOptions,
  type Locator,
  type Page,
} from 'playwright-core';

export const FLAGS = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Debian's Chromium, or the one that WEDGEBOOK_CHROMIUM names. */
export const EXECUTABLE = process.env['WEDGEBOOK_CHROMIUM'] ?? '/usr/bin/chromium';

export function launchChromium(flags: readonly string[] = []): Promise<Browser> {
  return chromium.launch({ executablePath: EXECUTABLE, args: [...FLAGS, ...flags] });
}

export type Theme = 'light' | 'dim' | 'darkroom';

export interface AppPage {
  readonly page: Page;
  /** Console errors, uncaught exceptions and violations of the content security policy. */
  readonly faults: string[];
  readonly close: () => Promise<void>;
}

export interface OpenOptions {
  readonly width?: number;
  readonly height?: number;
  readonly theme?: Theme;
  readonly context?: BrowserContextOptions;
  /** Whether the browser may keep the app for use without a network; most tests do without. */
  readonly mayKeepApp?: boolean;
  /** Runs in the page before the app does. */
  readonly script?: () => void;
}

/** Opens the app in a context of its own, with nothing stored. */
export async function openApp(
  browser: Browser,
  url: string,
  {
    width = 1280,
    height = 900,
    theme = 'light',
    context: options = {},
    mayKeepApp = false,
    script,
  }: OpenOptions = {},
): Promise<AppPage> {
  const context = await browser.newContext({ viewport: { width, height }, ...options });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') faults.push(message.text());
  });
  page.on('pageerror', (error) => faults.push(error.message));
  await page.addInitScript((chosen) => {
    document.addEventListener('securitypolicyviolation', (event) => {
      console.error(`content security policy: ${event.violatedDirective} ${event.blockedURI}`);
    });
    if (localStorage.getItem('wedgebook-theme') === null) {
      localStorage.setItem('wedgebook-theme', chosen);
    }
  }, theme);
  if (!mayKeepApp) {
    await page.addInitScript(() => {
      // As at an address that is not secure; a copy for each test would cost more than the test.
      Reflect.deleteProperty(Navigator.prototype, 'serviceWorker');
    });
  }
  if (script !== undefined) await page.addInitScript(script);
  await page.goto(url);
  await page.locator('wb-sheet svg').first().waitFor();
  return { page, faults, close: () => context.close() };
}

/** The text of an element, also where it is out of sight and not laid out, spaces collapsed. */
export async function textOf(locator: Locator): Promise<string> {
  return ((await locator.textContent()) ?? '').replace(/\s+/g, ' ').trim();
}

/** Path data of a named mark of the curve sheet, or null. */
export function markOf(page: Page, name: string): Promise<string | null> {
  const mark = page.locator(`wb-sheet #sheet svg [data-name="${name}"]`);
  return mark.count().then((count) => (count === 0 ? null : mark.first().getAttribute('d')));
}

/** A cell of the typing sheet: row 0 is the first step, column 1 the first reading. */
export function cellOf(page: Page, row: number, column: number) {
  return page.locator(`wb-worksheet input[data-row="${row}"][data-column="${column}"]`);
}

/** Puts text on the page's clipboard event, as a paste into a field does. */
export async function pasteInto(page: Page, row: number, column: number, text: string) {
  await cellOf(page, row, column).evaluate((field, pasted) => {
    const data = new DataTransfer();
    data.setData('text/plain', pasted);
    const paste = { clipboardData: data, bubbles: true, composed: true, cancelable: true };
    field.dispatchEvent(new ClipboardEvent('paste', paste));
  }, text);
}

/**
 * From keystroke to repainted curves and numbers, in Chromium on the built app, for a notebook of
 * 12 strips of 31 steps: `npm run bench -- keystroke`.
 *
 * - "the app's own work": processor time of the page's main thread for one key, from the task that
 *   takes the event through script, style, layout and paint to the commit of the frame. It counts
 *   no waiting, neither for the display nor for a processor that others use.
 * - "presented, frames at once": from the key event's time stamp until the frame with its answer is
 *   on the screen, in a browser that draws each frame when it is ready. The drawing of the pixels,
 *   here by the processor for want of a graphics card, is in it.
 * - "presented, 60 Hz": the same on a display of 60 Hz, which shows nothing between two frames: up
 *   to 16.7 ms of waiting that no app can better.
 *
 * Beside the app stands a bare page with one field, typed into alike: what the browser needs when
 * there is nothing to reckon. Keys fall at random moments of a frame; the first ones, while the
 * engine still compiles, are typed but not counted.
 */
import { launchChromium } from '../browser/chromium.ts';
import buildApp from '../browser/build-app.ts';
import { serveApp } from '../browser/served-app.ts';
import { STEPS, STRIPS } from './keystroke/notebook.ts';
import { tracing, type Keystroke } from './keystroke/trace.ts';
import { openBarePage, openNotebook, typeReadings, type Desk } from './keystroke/typist.ts';

const WARM_UP = 40;
const KEYS = 80;
const FRAMES_AT_ONCE = ['--disable-frame-rate-limit', '--disable-gpu-vsync'];
const WANTED_MILLISECONDS = 16;

interface Measured {
  readonly app: readonly Keystroke[];
  readonly bare: readonly Keystroke[];
}

export async function main(): Promise<void> {
  buildApp();
  const server = await serveApp();
  const display = await measure(server.url, []);
  const atOnce = await measure(server.url, FRAMES_AT_ONCE);
  await server.close();
  console.log(
    `${STRIPS} strips of ${STEPS} steps, ${display.app.length} keystrokes; milliseconds as ` +
      `p50 / p95 / greatest, and the share within ${WANTED_MILLISECONDS} ms`,
  );
  const row = (name: string, { app, bare }: Measured, figure: keyof Keystroke) => {
    const cell = (keys: readonly Keystroke[]) => summary(keys.map((key) => key[figure]));
    console.log(`${name.padEnd(30)}${cell(app).padEnd(34)}${cell(bare)}`);
  };
  console.log(`${''.padEnd(30)}${'app'.padEnd(34)}bare page`);
  row("the app's own work", display, 'work');
  row('  events and script', display, 'script');
  row('  style and layout', display, 'layout');
  row('  paint and commit', display, 'paint');
  row('presented, frames at once', atOnce, 'presented');
  row('presented, 60 Hz', display, 'presented');
}

async function measure(url: string, flags: readonly string[]): Promise<Measured> {
  const browser = await launchChromium(flags);
  const measured = {
    app: await typeInto(await openNotebook(browser, url)),
    bare: await typeInto(await openBarePage(browser)),
  };
  await browser.close();
  return measured;

  async function typeInto(desk: Desk): Promise<readonly Keystroke[]> {
    await typeReadings(desk, WARM_UP);
    const keystrokes = await tracing(browser, () => typeReadings(desk, KEYS));
    await desk.close();
    return keystrokes;
  }
}

function summary(milliseconds: readonly number[]): string {
  const sorted = milliseconds.toSorted((a, b) => a - b);
  const at = (part: number) => (sorted[Math.floor(part * (sorted.length - 1))] ?? NaN).toFixed(1);
  const inTime = sorted.filter((each) => each <= WANTED_MILLISECONDS).length;
  const share = ((100 * inTime) / sorted.length).toFixed(0);
  return `${at(0.5)} / ${at(0.95)} / ${at(1)}, ${share} %`;
}

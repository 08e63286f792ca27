/**
 * From keystroke to repainted curves and numbers, in Chromium on the built app, for a notebook of
 * 12 strips of 31 steps: `npm run bench -- keystroke`.
 *
 * Two times are printed for each key: the work, from the input event until the page is laid out
 * anew; and the paint, from the key event's own time stamp until the frame after it has been
 * painted, which includes the wait for that frame (up to 16.7 ms on a 60 Hz screen).
 */
import { cellOf, launchChromium, openApp } from '../browser/chromium.ts';
import buildApp from '../browser/build-app.ts';
import { serveApp } from '../browser/served-app.ts';

const STRIPS = 12;
const STEPS = 31;
const KEYS = 400;

const softplus = (z: number): number => Math.log1p(Math.exp(z));

/** A notebook like a year's work: strips of many shapes, three of them toned. */
function notebook(): string {
  const strips = Array.from({ length: STRIPS }, (_, strip) => ({
    id: `s${strip}`,
    name: `strip ${strip + 1}`,
    material: 'film',
    filmId: null,
    channel: 'visual',
    tabletId: 'nominal-31',
    exposure: { kind: 'absolute', sourceLogExposure: 0.3 },
    rows: Array.from({ length: STEPS }, (_row, step) => {
      const x = 0.25 - 0.1 * step;
      const slope = 0.4 + 0.03 * strip;
      const net = slope * (0.22 * softplus((x + 2.1) / 0.22) - 0.3 * softplus((x + 0.1) / 0.3));
      const noise = 0.006 * Math.sin(12.9898 * step + 78.233 * strip);
      const gain = strip > 8 ? 1.05 + 0.04 * (strip - 8) : 1;
      const density = Math.round((0.14 + gain * net + noise) * 1000) / 1000;
      return { step: step + 1, logExposure: null, densities: [density, density + 0.004] };
    }),
    unexposedDensities: [0.14, 0.15],
    development: { minutes: 4 + strip, celsius: 20 },
    treatment:
      strip > 8
        ? {
            process: 'selenium',
            partsWater: 1,
            minutes: strip - 7,
            celsius: 20,
            untreatedStripId: `s${strip - 3}`,
          }
        : null,
    note: '',
  }));
  const negative = {
    id: 'n',
    name: 'test negative',
    filmId: null,
    stripId: 's4',
    baseFog: null,
    spots: [
      { id: 'a', name: 'shadow', density: 0.35, role: 'shadow' },
      { id: 'b', name: 'highlight', density: 1.1, role: 'highlight' },
    ],
    note: '',
  };
  const plan = {
    negativeId: 'n',
    paperId: null,
    gradeTableId: 'ansi-1966',
    callierFactor: 1,
    process: 'selenium',
    partsWater: 1,
    minutes: 6.5,
    celsius: 20,
    stain: 0,
    stainKept: 1,
  };
  const document = {
    title: 'Bench',
    note: '',
    invented: true,
    tablets: [],
    films: [],
    strips,
    papers: [],
    negatives: [negative],
    plan,
  };
  return JSON.stringify({ format: 'wedgebook-notebook', schemaVersion: 1, document });
}

interface Times {
  readonly work: readonly number[];
  readonly paint: readonly number[];
}

export async function main(): Promise<void> {
  buildApp();
  const server = await serveApp();
  const browser = await launchChromium();
  const { page, close } = await openApp(browser, server.url, { width: 1600, height: 1000 });
  await page.locator('input[type=file]').setInputFiles({
    name: 'bench.json',
    mimeType: 'application/json',
    buffer: Buffer.from(notebook()),
  });
  await page.getByRole('button', { name: 'Replace' }).click();
  await page.locator('wb-worksheet tbody tr').nth(STEPS).waitFor();
  await page.waitForTimeout(1500);

  await page.evaluate(() => {
    const work: number[] = [];
    const paint: number[] = [];
    Object.assign(globalThis, { times: { work, paint } });
    addEventListener(
      'input',
      (event) => {
        const begun = performance.now();
        const stamped = event.timeStamp;
        // After the microtasks of the update: everything is rendered, nothing laid out yet.
        const channel = new MessageChannel();
        channel.port1.onmessage = () => {
          document.body.getBoundingClientRect();
          work.push(performance.now() - begun);
        };
        channel.port2.postMessage(null);
        requestAnimationFrame(() => {
          const after = new MessageChannel();
          after.port1.onmessage = () => paint.push(performance.now() - stamped);
          after.port2.postMessage(null);
        });
      },
      { capture: true },
    );
  });

  // A careful typist goes down the strip shown and types each reading again, one hundredth off or
  // not: most keys leave a half-typed number that fits nowhere, as typing does.
  let typed = '';
  for (let key = 0; key < KEYS; key++) {
    const entry = Math.floor(key / 4);
    if (key % 4 === 0) {
      const cell = cellOf(page, entry % STEPS, 1);
      typed = (Number(await cell.inputValue()) + 0.01 * ((entry % 3) - 1)).toFixed(2);
      await cell.focus();
      await page.keyboard.press('Control+a');
    }
    await page.keyboard.type(typed[key % 4] ?? '0');
    await page.waitForTimeout(40);
  }
  const times = await page.evaluate(() => (globalThis as unknown as { times: Times }).times);
  console.log(`${STRIPS} strips of ${STEPS} steps, ${times.work.length} keystrokes`);
  for (const name of ['work', 'paint'] as const) {
    const sorted = [...times[name]].sort((a, b) => a - b);
    const at = (part: number) => (sorted[Math.floor(part * (sorted.length - 1))] ?? NaN).toFixed(1);
    console.log(`${name.padEnd(6)} p50 ${at(0.5)} ms, p95 ${at(0.95)} ms, greatest ${at(1)} ms`);
  }
  await close();
  await browser.close();
  await server.close();
}

/** The browser is killed in the middle of writing: the last or the last but one state is there, whole. */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { EXECUTABLE, FLAGS } from './chromium.ts';
import { serveApp, type ServedApp } from './served-app.ts';

const ROUNDS = 4;
let server: ServedApp;
const profile = mkdtempSync(path.join(tmpdir(), 'wedgebook-crash-'));

beforeAll(async () => {
  server = await serveApp();
});
afterAll(async () => {
  await server.close();
  rmSync(profile, { recursive: true, force: true });
});

interface Running {
  readonly process: ChildProcess;
  readonly browser: Browser;
  readonly page: Page;
}

/** A browser of our own on the lasting profile, so that it can be killed. */
async function start(): Promise<Running> {
  const args = [...FLAGS, `--user-data-dir=${profile}`, '--remote-debugging-port=0', 'about:blank'];
  const child = spawn(EXECUTABLE, args, { stdio: ['ignore', 'ignore', 'pipe'], detached: true });
  const address = await new Promise<string>((resolve, reject) => {
    let said = '';
    child.stderr.on('data', (bytes: Buffer) => {
      said += bytes.toString();
      const [, found] = /DevTools listening on (\S+)/.exec(said) ?? [];
      if (found !== undefined) resolve(found);
    });
    child.once('exit', () => {
      reject(new Error(`the browser ended: ${said.slice(-500)}`));
    });
  });
  const browser = await chromium.connectOverCDP(address);
  const context = browser.contexts()[0] ?? (await browser.newContext());
  const page = await context.newPage();
  await page.goto(server.url);
  await page.locator('wb-sheet svg').first().waitFor();
  return { process: child, browser, page };
}

/** The whole family of processes at once, as when the power fails. */
async function kill({ process: child }: Running): Promise<void> {
  if (child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
  await once(child, 'exit');
}

const savedAt = (page: Page) =>
  page.locator('header .kept span').first().getAttribute('data-saved');
const titleOf = (page: Page) => page.getByLabel('Title of the notebook');

it('keeps a whole notebook, at most one change behind', { timeout: 240_000 }, async () => {
  let last = 0;
  let running = await start();
  for (let round = 0; round < ROUNDS; round += 1) {
    const { page } = running;
    const before = last;
    let saved = before;
    for (let i = 1; i <= 6; i += 1) {
      last += 1;
      const at = await savedAt(page);
      await titleOf(page).fill(`state ${last}`);
      // The last change is not waited for.
      if (i === 6) break;
      await expect.poll(() => savedAt(page)).not.toBe(at);
      saved = last;
    }
    // Into the pause, the write or just after it.
    await new Promise((resolve) => setTimeout(resolve, 60 * round));
    await kill(running);
    running = await start();
    const [, found] = /^state (\d+)$/.exec(await titleOf(running.page).inputValue()) ?? [];
    expect([saved, last]).toContain(Number(found));
    expect(await running.page.getByRole('alert').count()).toBe(0);
    expect(await running.page.locator('wb-readings .rack button').count()).toBeGreaterThan(10);
    last = Number(found);
  }
  await kill(running);
});

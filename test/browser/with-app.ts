/** The life of server, browser and page around the browser tests of one file. */
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect } from 'vitest';
import { launchChromium, openApp, type AppPage, type OpenOptions } from './chromium.ts';
import { serveApp, type ServedApp } from './served-app.ts';

export interface WithBrowser {
  /** Opens the app in a context of its own, with nothing stored; the caller closes it. */
  readonly open: (options?: OpenOptions) => Promise<AppPage>;
}

export interface WithApp extends WithBrowser {
  /** The page of the test that runs. */
  readonly page: AppPage['page'];
}

/** Serves the built app and starts a browser for the tests of a file. */
export function withBrowser(): WithBrowser {
  let browser: Browser;
  let server: ServedApp;
  beforeAll(async () => {
    server = await serveApp();
    browser = await launchChromium();
  });
  afterAll(async () => {
    await browser.close();
    await server.close();
  });
  return { open: (options) => openApp(browser, server.url, options) };
}

/** As `withBrowser`, with a fresh page for each test, which must end without a fault. */
export function withApp(): WithApp {
  const { open } = withBrowser();
  let app: AppPage;
  beforeEach(async () => {
    app = await open();
  });
  afterEach(async () => {
    const { faults } = app;
    await app.close();
    expect(faults).toEqual([]);
  });
  return {
    open,
    get page() {
      return app.page;
    },
  };
}

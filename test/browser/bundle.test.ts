import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, it } from 'vitest';
import { DIST } from './served-app.ts';

const read = (file: string) => readFileSync(path.join(DIST, file), 'utf8');
const html = read('index.html');
const scripts = [...html.matchAll(/(?:src|href)="([^"]+\.js)"/g)].map(([, file]) => file ?? '');

it('loads at most 200 kB of JavaScript, gzip, before any lazily loaded part', () => {
  expect(scripts.length).toBeGreaterThan(0);
  // A static import of another chunk would be part of the first load as well.
  const queue = [...scripts];
  const files = new Set<string>();
  for (let file = queue.pop(); file !== undefined; file = queue.pop()) {
    if (files.has(file)) continue;
    files.add(file);
    const folder = path.dirname(file);
    for (const [, found] of read(file).matchAll(/(?:from|import)\s*"(\.[^"]+\.js)"/g)) {
      queue.push(path.join(folder, found ?? ''));
    }
  }
  const size = [...files].reduce((sum, file) => sum + gzipSync(read(file)).length, 0);
  console.log(`first load: ${(size / 1000).toFixed(1)} kB gzip in ${files.size} file(s)`);
  expect(size).toBeLessThanOrEqual(200_000);
});

it('keeps the units of quantities out of the first load', () => {
  const chunks = readdirSync(path.join(DIST, 'assets')).filter((file) =>
    /^quantities.*\.js$/.test(file),
  );
  expect(chunks).toHaveLength(1);
});

it('states a content security policy without inline code, and has no inline style', () => {
  expect(html).toMatch(/default-src 'none'; script-src 'self'; style-src 'self'/);
  expect(html).not.toMatch(/unsafe|<style|style=|onload=/);
});

it('ships no decorator syntax that a browser cannot parse', () => {
  for (const script of scripts)
    expect(read(script)).not.toMatch(/[;}\s]@(customElement|property|state)\(/);
});

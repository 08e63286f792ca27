/** The demonstration data: sound, marked as invented, and made by the script that states its truth. */
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { demoNotebook } from '@wedgebook/data';
import {
  notebookFromText,
  openNotebook,
  readReadings,
  stripReadings,
  tabletLookup,
} from '@wedgebook/notebook';
import { describe, expect, it } from 'vitest';
import { ROOT } from './built-command.ts';

const FOLDER = path.join(ROOT, 'data/demo');
const text = (name: string) => readFileSync(path.join(FOLDER, name), 'utf8');
const files = readdirSync(FOLDER);

describe('the demonstration data', () => {
  it('opens as a notebook with nothing to mend', () => {
    const { document, mended } = notebookFromText(text('notebook.json'));
    expect(mended).toEqual([]);
    expect(openNotebook(demoNotebook).document).toEqual(document);
    expect(document.invented).toBe(true);
    const film = document.strips.filter((strip) => strip.material === 'film');
    const untreated = film.filter((strip) => strip.treatment === null);
    expect(new Set(untreated.map((strip) => strip.development?.minutes)).size).toBe(5);
    expect(film.filter((strip) => strip.treatment !== null).length).toBeGreaterThanOrEqual(3);
    expect(document.negatives).toHaveLength(3);
    const tablets = tabletLookup(document);
    for (const strip of document.strips) {
      expect(stripReadings(strip, tablets).stepsWithoutExposure, strip.name).toEqual([]);
    }
  });

  it('says in every file that it is invented', () => {
    expect(files.length).toBeGreaterThan(3);
    for (const file of files) expect(text(file), file).toMatch(/Invented readings/);
  });

  it('reads without a fault', () => {
    for (const name of ['film-strips.csv', 'treatment.csv', 'paper.csv']) {
      expect(readReadings(text(name)).strips.length, name).toBeGreaterThan(0);
    }
  });

  it('is what its script makes, to the byte', () => {
    const before = files.map(text);
    const { status, stderr } = spawnSync(process.execPath, ['tools/make-demo.mjs', '--check'], {
      cwd: ROOT,
      encoding: 'utf8',
    });
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(files.map(text)).toEqual(before);
  });
});

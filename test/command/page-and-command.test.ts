/**
 * The page and the command say the same of the same readings: the family of the curve and every
 * measure with its error, to seven digits. Fits end within 1e-8 of a standard error, and the order in
 * which the readings are handed over moves the last digits.
 */
import { readFileSync } from 'node:fs';
import { randomNormal } from '@wedgebook/core';
import * as lastWord from '@wedgebook/core/last-word';
import { notebookFromText } from '@wedgebook/notebook';
import { describe, expect, it } from 'vitest';
import { Derive, gradeTableOf } from '../../apps/web/src/state/derive.ts';
import { ran } from '../../packages/cli/src/memory-io.ts';

interface SavedStrip {
  readonly material: string;
  readonly rows: readonly object[];
}

/**
 * The demonstration with one strip more, of two emulsions of different speed, which no family of one
 * emulsion fits: 21 steps of 0.15 behind a light of log exposure 0.40, errors of 0.005.
 */
function notebook(): string {
  const saved = JSON.parse(readFileSync('data/demo/notebook.json', 'utf8')) as {
    document: { strips: SavedStrip[] };
  };
  const { strips } = saved.document;
  const film = strips.find(({ material }) => material === 'film');
  const z = randomNormal(1912);
  const two = (x: number): number =>
    0.2 + 0.55 / (1 + Math.exp(-(x + 1.9) / 0.17)) + 0.85 / (1 + Math.exp(-(x + 0.7) / 0.24));
  const rows = Array.from({ length: 21 }, (_, i) => ({
    step: i + 1,
    logExposure: null,
    densities: [Math.round(1000 * (two(-0.15 * i) + 0.005 * z())) / 1000],
  }));
  const unexposedDensities = [0.2, 0.2, 0.2];
  const added = { ...film, id: 'two-emulsions', name: 'two emulsions', rows, unexposedDensities };
  strips.push(added as unknown as SavedStrip);
  return JSON.stringify(saved);
}

const TEXT = notebook();
const { document } = notebookFromText(TEXT);
const derive = new Derive(lastWord);
const { curveFamily } = document.plan;

async function strips(verb: string): Promise<Map<string, Record<string, unknown>>> {
  const { stdout, stderr } = await ran([verb, 'notebook.json', '--json'], {
    'notebook.json': TEXT,
  });
  expect(stderr).toBe('');
  const { strips: list } = JSON.parse(stdout) as { strips: Record<string, unknown>[] };
  return new Map(list.map((strip) => [String(strip['strip']), strip]));
}

/** As it comes out of a file, numbers to seven digits. */
const plain = (value: unknown): unknown =>
  value === undefined
    ? undefined
    : JSON.parse(
        JSON.stringify(value, (_key, part: unknown) =>
          typeof part === 'number' ? Number(part.toPrecision(7)) : part,
        ),
      );

describe('page and command', () => {
  it('measure every film strip alike', async () => {
    const byCommand = await strips('film');
    const films = document.strips.filter(({ material }) => material === 'film');
    expect(byCommand.size).toBe(films.length);
    for (const strip of films) {
      const fit = derive.fit(document, strip, curveFamily);
      const measures = derive.film(strip, fit);
      const told = byCommand.get(strip.name);
      expect(told?.['model'], strip.name).toBe(fit.curve?.family);
      for (const name of [
        'baseFog',
        'densityMax',
        'gamma',
        'inertia',
        'speedPoint',
        'isoTriangle',
        'speed',
        'contrastIndex',
        'usefulRange',
        'averageGradients',
      ] as const) {
        expect(plain(told?.[name]), `${name} of ${strip.name}`).toEqual(plain(measures?.[name]));
      }
    }
    // The strip of two emulsions is told by the smooth curve on both.
    expect(byCommand.get('two emulsions')?.['model']).toBe('monotone-smooth');
  });

  it('measure every paper strip alike', async () => {
    const byCommand = await strips('paper');
    const papers = document.strips.filter(({ material }) => material === 'paper');
    expect(byCommand.size).toBe(papers.length);
    for (const strip of papers) {
      const fit = derive.fit(document, strip, curveFamily);
      const measures = derive.paper(strip, fit, gradeTableOf(document));
      const told = byCommand.get(strip.name);
      expect(told?.['model'], strip.name).toBe(fit.curve?.family);
      for (const name of ['densityMin', 'densityMax', 'isoRange', 'isoSpeed'] as const) {
        expect(plain(told?.[name]), `${name} of ${strip.name}`).toEqual(plain(measures?.[name]));
      }
    }
  });

  it('differ only until the choice of curves has come, and the page says where it cannot come', () => {
    const strip = document.strips.find(({ name }) => name === 'two emulsions');
    if (strip === undefined) throw new Error('no strip');
    const first = new Derive();
    expect(first.fit(document, strip, curveFamily).curve?.family).toBe('toe-shoulder');
    first.curves = 'lost';
    const lost = first.fit(document, strip, curveFamily);
    expect(lost.warnings.map(({ code }) => code)).toContain('curve-preliminary');
    first.curves = lastWord;
    expect(first.fit(document, strip, curveFamily).curve).toEqual(
      derive.fit(document, strip, curveFamily).curve,
    );
  });
});

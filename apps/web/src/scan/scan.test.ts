/** Scans are generated with known densities (see test/generated-scan.ts). */
import { nominalTablet } from '@wedgebook/core';
import { describe, expect, it } from 'vitest';
import { generatedScan } from '../../../../test/generated-scan.ts';
import { answerOfScan } from './answer-of-scan.ts';
import { firstMarks, moveEnd, setWidth, turned } from './marks.ts';
import { stripOfScan } from './strip-of-scan.ts';
import { newStrip } from '../worksheet/new-entries.ts';
import { emptyDocument } from '@wedgebook/notebook';

const tabletDensities = nominalTablet({ steps: 21, increment: 0.15 });
const stripDensities = tabletDensities.map((density) => 2.2 - 0.6 * density);
const { image, tablet, strip } = generatedScan({
  tabletDensities,
  stripDensities,
  pitch: 16,
  stripWidth: 36,
});
const answer = answerOfScan(image, {
  tablet: { place: tablet, count: 21 },
  tabletDensities,
  strip: { place: strip, count: 21 },
  channel: 'mean',
  inverted: false,
});

describe('the answer of a scan', () => {
  it('can be carried by a message: it is plain data without a NaN', () => {
    expect(structuredClone(answer)).toEqual(answer);
    expect(JSON.stringify(answer)).not.toMatch(/NaN/);
  });

  it('becomes a strip of the notebook, unread where no density was given', () => {
    if (answer.status !== 'ok') throw new Error(answer.reason);
    const steps = answer.steps.map((each) =>
      each.step === 3 ? { ...each, density: null, status: 'clipped' as const } : each,
    );
    const entry = stripOfScan({
      unread: newStrip(emptyDocument(), null, 'film'),
      name: 'scanned',
      tabletId: 'nominal-21',
      steps,
      channel: 'blue',
      note: 'from a test',
    });
    expect(entry).toMatchObject({ name: 'scanned', channel: 'blue', tabletId: 'nominal-21' });
    expect(entry.rows).toHaveLength(21);
    expect(entry.rows[2]).toEqual({ step: 3, logExposure: null, densities: [null] });
    const first = entry.rows[0]?.densities[0] ?? NaN;
    expect(Math.abs(first - (stripDensities[0] ?? NaN))).toBeLessThan(0.01);
  });
});

describe('marks', () => {
  it('begin along the longer side, inside the picture', () => {
    const across = firstMarks(1000, 400);
    expect(across.tablet.from).toEqual({ x: 80, y: 132 });
    expect(across.strip.to).toEqual({ x: 920, y: 268 });
    expect(firstMarks(400, 1000).tablet.to).toEqual({ x: 132, y: 920 });
  });
  it('are moved, widened and turned one at a time', () => {
    const marks = firstMarks(1000, 400);
    const moved = moveEnd(marks, { kind: 'strip', end: 'to' }, { x: 5, y: 6 });
    expect(moved.strip.to).toEqual({ x: 5, y: 6 });
    expect(moved.tablet).toBe(marks.tablet);
    expect(setWidth(marks, 'tablet', 31).tablet.width).toBe(31);
    expect(turned(marks, 'tablet').tablet.from).toEqual(marks.tablet.to);
  });
});

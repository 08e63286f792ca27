import { describe, expect, it } from 'vitest';
import { FEWEST_FOR_SLIPS, findSuspects, fitCurve, slipSearch } from './index.ts';

/** A toe and a straight part, with two digits swapped near the middle. */
function stripWithSlip(steps: number, unexposed: number) {
  const logExposures = Array.from({ length: steps }, (_, i) => -2.4 + (2.4 * i) / (steps - 1));
  const densities = logExposures.map((x) => 0.12 + 0.13 * Math.log1p(Math.exp((x + 2) / 0.2)));
  const middle = Math.floor(steps / 2);
  densities[middle] = (densities[middle] ?? 0) + 0.45;
  return {
    logExposures,
    densities,
    unexposedDensities: Array.from({ length: unexposed }, () => 0.12),
  };
}

describe('slipSearch', () => {
  it('says what the search itself does, unexposed readings counted', () => {
    for (const [steps, unexposed] of [
      [5, 0],
      [7, 0],
      [6, 1],
      [7, 1],
      [9, 0],
      [9, 2],
    ] as const) {
      const readings = stripWithSlip(steps, unexposed);
      let searched = false;
      const fit = fitCurve(readings, {
        suspects: (curve, sorted) => {
          const found = findSuspects(curve, sorted);
          searched = found.suspects.length > 0 || found.stepSlip !== null;
          expect(slipSearch(curve, sorted.x.length)).toBe(
            steps + unexposed >= FEWEST_FOR_SLIPS ? 'done' : 'too-few-readings',
          );
          return found;
        },
      });
      expect(fit.status).toBe('ok');
      // Half a density off: found wherever it is looked for among nine and more.
      if (steps + unexposed < FEWEST_FOR_SLIPS) expect(searched).toBe(false);
      if (steps + unexposed > FEWEST_FOR_SLIPS) expect(searched).toBe(true);
    }
  });

  it('is none on a curve drawn through every reading', () => {
    const readings = stripWithSlip(21, 1);
    const drawn = fitCurve(readings, { family: 'as-drawn', suspects: findSuspects });
    expect(drawn).toMatchObject({ status: 'ok', suspects: [] });
    expect(slipSearch({ family: 'as-drawn' }, 22)).toBe('drawn-curve');
  });
});

/**
 * Generated study, named as such: the law of contrast against time is known, contrasts and speed
 * points carry normal errors, the model chooses its law for itself, and the 95 % intervals of planned
 * minutes and exposure indexes must cover the truth. Two laws are those that are fitted, the rest are
 * neither. The whole table stands in docs/2026-11-26-the-errors-of-planned-minutes.md.
 */
import { describe, expect, it } from 'vitest';
import { LAW_TRUTHS, studyLaw } from '../bench/planned-minutes.bench.ts';

describe('[derived] 95 % intervals of planned developments, the choice of law included', () => {
  it.each(LAW_TRUTHS.map((truth) => [truth.name, truth] as const))('%s', (_, truth) => {
    const { minutes, index, unreachable, planned } = studyLaw(truth, 0, 60, 41);
    // Three planned times of one set of strips err together: 240 sets, so three standard errors of
    // a share of 0.95 are 0.042. The intervals may be a little too wide, not too narrow.
    expect(minutes).toBeGreaterThan(0.908);
    expect(minutes).toBeLessThan(0.992);
    expect(index).toBeGreaterThan(0.908);
    expect(index).toBeLessThan(0.992);
    expect(unreachable).toBeLessThan(planned / 100);
  });

  it.each(LAW_TRUTHS.map((truth) => [truth.name, truth] as const))(
    '%s, strips developed 2 %% too long or too short',
    (_, truth) => {
      const { minutes, index } = studyLaw(truth, 0.02, 60, 43);
      // They held 90 to 94 % while errors of timing were left out.
      expect(minutes).toBeGreaterThan(0.908);
      expect(index).toBeGreaterThan(0.908);
    },
  );
});

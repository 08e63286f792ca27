import { describe, expect, it } from 'vitest';
import { seleniumDefaults } from '../../../../test/selenium-bath.ts';
import { expectWithin } from '../../../../test/within.ts';
import { InvalidArgumentError } from '../errors.ts';
import { bathForGain, defaultTreatment, gainAtBath } from './index.ts';

const model = defaultTreatment(seleniumDefaults);
const bath = { partsWater: 3, celsius: 20 };
const most = model.doseResponse.maximumGain.value;

describe('bathForGain', () => {
  it('gives the minutes after which the bath has that gain, with an interval around them', () => {
    const gain = 1 + (most - 1) / 2;
    const found = bathForGain(model, gain, bath);
    expect(found.reachable).toBe(true);
    const reached = gainAtBath(model.doseResponse, { ...bath, minutes: found.minutes });
    expectWithin(reached.gain.value, gain, 1e-9);
    const [least, greatest] = found.minutesError!.plausible;
    expect(least).toBeLessThan(found.minutes);
    expect(greatest ?? Infinity).toBeGreaterThan(found.minutes);
  });

  it('goes to the practical end, 95 % of the change, and no farther', () => {
    const found = bathForGain(model, most + 0.1, bath);
    expect(found).toMatchObject({ reachable: false, minutesError: null });
    expectWithin(found.gain, 1 + 0.95 * (most - 1), 1e-12);
    expectWithin(
      gainAtBath(model.doseResponse, { ...bath, minutes: found.minutes }).gain.value,
      found.mostGain,
      1e-9,
    );
  });

  it('needs no minutes for no gain, and refuses what is none', () => {
    expect(bathForGain(model, 1, bath)).toMatchObject({ reachable: true, minutes: 0 });
    for (const gain of [NaN, 0.9, Infinity]) {
      expect(() => bathForGain(model, gain, bath)).toThrow(InvalidArgumentError);
    }
  });
});

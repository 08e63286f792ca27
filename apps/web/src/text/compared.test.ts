import * as lastWord from '@wedgebook/core/last-word';
import { describe, expect, it } from 'vitest';
import { defaultTreatment } from '@wedgebook/core';
import { seleniumDefaults } from '@wedgebook/data';
import { Derive, DEFAULT_FAMILY } from '../state/derive.ts';
import { DeriveBath } from '../state/derive-bath.ts';
import { demoDocument } from '../state/demo.ts';
import { compared } from './compared.ts';

describe('what trials cannot tell', () => {
  it('is everything without trials', () => {
    expect(compared.says(defaultTreatment(seleniumDefaults))).toMatch(
      /do not tell the greatest gain, the half dose, .* and how the temperature counts/,
    );
  });

  it('names the rivals of the demonstration in words, and no parameter that was fitted', () => {
    const model = new DeriveBath(new Derive(lastWord)).model(demoDocument, DEFAULT_FAMILY);
    const said = compared.says(model);
    expect(said).not.toMatch(/tell the greatest gain/);
    const { family, comparison } = model.doseResponse;
    for (const { name, weight } of comparison) {
      if (name === family) continue;
      const word = compared.families[name as keyof typeof compared.families];
      expect(said.includes(word)).toBe(weight >= 0.1);
    }
  });
});

describe('stain that is lost', () => {
  it('with s 0.375 and k 1.17: 1.1236 kept, 0.85 lost (derived)', () => {
    // (1.17 + 0.375) / 1.375 and 1.17 / 1.375.
    const said = compared.stainLoss(1.17, 0.375);
    expect(said).toMatch(/×1\.12 .* if the stain stays/);
    expect(said).toMatch(/×0\.85 if all of it goes/);
    expect(said).toMatch(/less than nothing/);
    expect(compared.stainLoss(1.3, 0.1)).toMatch(/something is gained/);
  });
});

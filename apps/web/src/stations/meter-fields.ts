/**
 * Fields of a light meter in place of a densitometer: its reading of the open light, its step, and
 * the standard error of a density that follows from the step.
 */
import { formatNumber } from '@wedgebook/charts';
import { meteredDensity, meterReadingOf, type MeterScale } from '@wedgebook/core';
import { html, nothing, type TemplateResult } from 'lit';
import type { Meter } from '../state/app.ts';
import { text } from '../text.ts';
import '../parts/number-field.ts';

/** Density at which the error is also told: a dense highlight. */
const DENSE = 1.5;
const MOST = 1e6;

export function meterFields(
  scale: MeterScale,
  meter: Meter,
  set: (changes: Partial<Meter>) => void,
): TemplateResult {
  const t = text.readings.meter;
  const lowest = scale === 'exposure-value' ? -MOST : 1e-6;
  return html`<wb-number
      label=${t.base[scale]}
      unit=${t.unit[scale]}
      key=${`meter/${scale}/base`}
      .value=${meter.base}
      .min=${lowest}
      .max=${MOST}
      .step=${scale === 'exposure-value' ? 0.1 : 1}
      .decimals=${4}
      optional
      @wb-value=${({ detail }: CustomEvent<number | null>) => {
        set({ base: detail });
      }}
    ></wb-number>
    <wb-number
      label=${t.step}
      unit=${t.unit[scale]}
      key=${`meter/${scale}/step`}
      .value=${meter.step}
      .min=${0}
      .max=${MOST}
      .step=${scale === 'lux' ? 1 : 0.1}
      .decimals=${4}
      @wb-value=${({ detail }: CustomEvent<number>) => {
        set({ step: detail });
      }}
    ></wb-number>
    <p class="quiet small">${t.hint[scale]} ${errorTemplate(scale, meter)}</p>`;
}

function errorTemplate(scale: MeterScale, { base, step }: Meter): string | typeof nothing {
  if (base === null) return nothing;
  const errorAt = (density: number): number | null =>
    meteredDensity(scale, meterReadingOf(scale, density, base), { base, step }).standardError;
  const [thin, dense] = [errorAt(0), errorAt(DENSE)];
  if (thin === null || dense === null) return nothing;
  return text.readings.meter.error(
    formatNumber(thin, 3),
    formatNumber(dense, 3),
    formatNumber(DENSE, 1),
  );
}

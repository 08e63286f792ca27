/** The bath that is set beside development: its model, and the cautions that go with it. */
import { defaultTreatment, fitTreatment, type TreatmentModel } from '@wedgebook/core';
import { cautionsFor, seleniumDefaults, type Caution } from '@wedgebook/data';
import type { ReadingsFile } from '@wedgebook/notebook';
import type { StripOptions } from '../input/strip-options.ts';
import { treatedStrips } from '../treatment/treated-strips.ts';
import type { Order } from './order.ts';

const PROCESS = 'selenium';

/**
 * The selenium bath by the film strips of the file that went through it, else the built-in one.
 *
 * @throws {InputError} where a treated strip does not say its bath
 */
export function seleniumModel(file: ReadingsFile, { exposure }: StripOptions): TreatmentModel {
  const strips = file.strips.filter(
    ({ material, treatment }) =>
      material !== 'paper' && (treatment === null || treatment === PROCESS),
  );
  return strips.some(({ treatment }) => treatment !== null)
    ? fitTreatment(treatedStrips({ ...file, strips }, exposure).strips, seleniumDefaults)
    : defaultTreatment(seleniumDefaults);
}

/** Cautions of the bath that is asked for; of one known by its gain alone, those of every one. */
export function bathCautions({ bath }: Order): readonly Caution[] {
  if (bath === null) return [];
  return bath.ownGain === null ? cautionsFor(PROCESS) : cautionsFor(PROCESS, 'chromium');
}

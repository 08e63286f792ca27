/** Words of the trial pieces. */
import type { TreatmentModel } from '@wedgebook/core';

export const trials = {
  title: 'Trial pieces',
  name: 'trial',
  toned: (name: string) => `${name}, toned`,
  note: 'Trial piece: the steps are spots on one frame, read before and after the bath; their exposures only pair them.',
  says: 'No toned wedge? A frame that you can spare, read at two spots before and after the bath, gives a gain with its error.',
  add: '+ Trial piece',
  remove: (name: string) => `Remove ${name}`,
  table: (name: string) => `Readings of ${name}`,
  spot: 'spot',
  spotName: (index: number) => `spot ${String.fromCharCode(65 + index)}`,
  baseFog: 'base + fog',
  before: 'before',
  after: 'after',
  cell: (spot: string, when: string) => `${spot}, ${when}`,
  bath: 'The bath that it had',
  gain: 'Gain',
  noGain: 'Type densities before and after to see the gain.',
  cautions: 'The cautions above hold for a scrap as for the negative that matters.',
  nextStep: ({ doseResponse: { origin } }: TreatmentModel): string => {
    if (origin.maximumGain === 'default')
      return 'The first trial replaces the built-in gain by your own.';
    if (origin.halfDose === 'default')
      return 'One dose gives a gain. A second piece at another time, shorter by half or more, gives the rate.';
    if (origin.concentrationExponent === 'default')
      return 'Gain and rate are yours. A piece at another dilution would tell how the strength counts, one at another temperature how the warmth counts.';
    if (origin.temperatureCoefficient === 'default')
      return 'Gain, rate and dilution are yours. A piece at another temperature would tell how the warmth counts.';
    return 'Gain, rate, dilution and temperature are all told by your trials; more of them narrow the errors.';
  },
};

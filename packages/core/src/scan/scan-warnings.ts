/**
 * What the user must know beside densities read from a picture.
 *
 * Limits are the project's own: each is the size at which a density would be off by about 0.02, twice
 * what a working densitometer is. Sources: none. Deviations: none.
 */
import { warning, type Warning } from '../warning.ts';
import type { GreyImage } from './grey-image.ts';
import type { ScanReading, ScannedPatch } from './read-scan.ts';

/** Part of the slope that flare may take at the densest step of the strip. */
const NOTABLE_FLARE = 0.1;
const NOTABLE_EXPONENT = 0.1;
/** Levels below which half a level is more than 0.014 of density. */
const FEW_LEVELS = 16;
const NOTABLE_REJECTED = 0.15;
const NOTABLE_SCATTER = 0.03;
/** Scatter of the inside of a step, as density, that dust or a wrong mark makes. */
const UNEVEN_ERROR = 0.02;

/** Warnings of one reading. */
export function scanWarnings({
  image,
  patches,
  tablet,
  response,
  light,
}: Omit<ScanReading, 'status' | 'rows' | 'warnings'> & { readonly image: GreyImage }): Warning[] {
  const warnings: Warning[] = [];
  const steps = (which: (patch: ScannedPatch) => boolean): string =>
    patches
      .filter(which)
      .map(({ average }) => average.step)
      .join(', ');
  const note = (code: Warning['code'], named: string, details: Warning['details'] = {}): void => {
    if (named !== '') warnings.push(warning(code, { steps: named, ...details }));
  };
  const [thin, dense] = response.range;
  note(
    'scan-clipped',
    steps(({ density }) => density.status === 'clipped'),
  );
  const tabletClipped = tablet
    .filter(({ knownDensity, difference, average }) => {
      return knownDensity !== null && difference === null && average.clipped > 0;
    })
    .map(({ average }) => average.step);
  note('scan-tablet-clipped', tabletClipped.join(', '));
  note(
    'scan-beyond-tablet',
    steps(({ density }) => density.status === 'denser'),
    { side: 'denser', limit: dense },
  );
  note(
    'scan-beyond-tablet',
    steps(({ density }) => density.status === 'thinner'),
    { side: 'thinner', limit: thin },
  );
  const highest = Math.max(
    thin,
    ...patches.map(({ density }) => (density.status === 'ok' ? density.value : thin)),
  );
  const { flare, exponent } = response;
  if (flare !== null) {
    const transmitted = 10 ** -highest;
    const lost = flare.value / (flare.value + transmitted);
    const sure = flare.standardError === null || flare.value > 2 * flare.standardError;
    if (lost > NOTABLE_FLARE && sure) {
      warnings.push(
        warning('scan-flare', { percent: 100 * flare.value, lost: 100 * lost, highest }),
      );
    }
  }
  if (response.form === 'screen') warnings.push(warning('scan-response-encoded'));
  if (exponent !== null && Math.abs(exponent.value - 1) > NOTABLE_EXPONENT) {
    warnings.push(warning('scan-response-encoded', { exponent: exponent.value }));
  }
  if (response.form === 'smooth') warnings.push(warning('scan-response-irregular'));
  if (response.tabletScatter > NOTABLE_SCATTER) {
    warnings.push(warning('scan-tablet-scatters', { scatter: response.tabletScatter }));
  }
  const few = ({ average, density }: ScannedPatch): boolean =>
    density.status === 'ok' && average.levels < FEW_LEVELS;
  note('scan-few-levels', steps(few), { bits: image.bits });
  note(
    'scan-step-uneven',
    steps(({ average, darkness, density }) => {
      const uneven = average.rejected > NOTABLE_REJECTED || darkness.standardError > UNEVEN_ERROR;
      return density.status === 'ok' && uneven && average.levels >= FEW_LEVELS;
    }),
  );
  if (!light.measured) warnings.push(warning('scan-light-assumed-even'));
  return warnings;
}

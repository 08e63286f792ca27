/**
 * Burning in and dodging with soft or hard light: what each density of an area becomes.
 *
 *   x' = x + 0.30103 s      s stops more (+) or less (-) of one light on the area
 *   seconds added t (2^s - 1)
 *
 * Sources: see `variable-contrast-paper.ts`. Deviations: none.
 */
import { InvalidArgumentError } from '../../errors.ts';
import { lightnessFromDensity, type VariableContrastPaper } from '../../paper/index.ts';
import { LOG_STOP } from '../../readings/index.ts';
import { splitTones, type LightExposures } from './split-tones.ts';

/** Stops on an area: more (+) is burning in, less (-) dodging. */
export interface AreaStops {
  readonly softStops?: number;
  readonly hardStops?: number;
}

/** A tone of the area before and after. */
export interface BurntTone {
  readonly negativeDensity: number;
  readonly before: { readonly printDensity: number; readonly lightness: number };
  readonly after: { readonly printDensity: number; readonly lightness: number };
}

/** An area burnt in or dodged. */
export interface BurntArea {
  /** Light added (+) or held back (-) on the area, as a part of the exposure of that light. */
  readonly softPart: number;
  readonly hardPart: number;
  readonly tones: readonly BurntTone[];
}

/**
 * What burning in makes of an area.
 *
 * @param paper - a fitted paper
 * @param lights - exposures of the whole print
 * @param stops - on the area, within ±10
 * @param negativeDensities - of the area, gross, as the paper sees them
 * @throws InvalidArgumentError if a number of stops is out of range
 */
export function burnIn(
  paper: VariableContrastPaper,
  lights: LightExposures,
  stops: AreaStops,
  negativeDensities: readonly number[],
): BurntArea {
  const { softStops = 0, hardStops = 0 } = stops;
  for (const [name, value] of Object.entries({ softStops, hardStops })) {
    if (!(value >= -10 && value <= 10)) {
      throw new InvalidArgumentError('burnIn', name, value, 'from -10 to 10');
    }
  }
  const after = {
    softLogExposure: lights.softLogExposure + LOG_STOP * softStops,
    hardLogExposure: lights.hardLogExposure + LOG_STOP * hardStops,
  };
  const shown = (one: LightExposures) =>
    splitTones(paper, one, negativeDensities).map(({ printDensity }) => ({
      printDensity,
      lightness: lightnessFromDensity(printDensity),
    }));
  const [before, then] = [shown(lights), shown(after)];
  const nothing = { printDensity: paper.minimumDensity, lightness: 0 };
  return {
    softPart: 2 ** softStops - 1,
    hardPart: 2 ** hardStops - 1,
    tones: negativeDensities.map((negativeDensity, i) => ({
      negativeDensity,
      before: before[i] ?? nothing,
      after: then[i] ?? nothing,
    })),
  };
}

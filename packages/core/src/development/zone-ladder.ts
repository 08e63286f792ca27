/**
 * What each zone becomes: log exposure, density of the negative, density and lightness of the print.
 *
 *   log H(zone) = log H_m + 0.30103 (zone - 1)          zone I at the speed point
 *   log H with flare = log10(10^(log H) + F)
 *   x_paper = x_threshold + Q (D(zone VIII) - D(zone))  zone VIII prints just darker than white
 *
 * Sources: published zone practice for the step of one stop and zone I at net 0.10; [ISO6846] the
 * threshold; `zone-print.ts` for the print. Deviations: none.
 */
import { densityBand, derivedBaseFog, type CharacteristicCurve } from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import type { PrintPaper } from '../paper/index.ts';
import { LOG_STOP } from '../readings/index.ts';
import { zonePrint, type ZonePrint } from './zone-print.ts';

export interface ZoneLadderOptions {
  /** Log exposure at which zone I is placed: the speed point, or as a meter set to an index puts it. */
  readonly zoneOneLogExposure: number;
  /** Zones, 0 to X as 0 to 10, ascending; all eleven unless given. */
  readonly zones?: readonly number[];
  /** Camera flare as an exposure in the unit of the curve; 0 unless given. */
  readonly flareExposure?: number;
  /** Paper to print on. */
  readonly paper?: PrintPaper | null;
  /** Density of the unexposed paper, for the lightness; 0.06 unless given. */
  readonly paperWhiteDensity?: number;
  /** Density the paper sees over diffuse density; 1 unless given. */
  readonly callierFactor?: number;
  /** Standard error of the factor where it was measured. */
  readonly callierFactorError?: number | null;
  /** Zone that prints just darker than white; 8 unless given. */
  readonly whiteZone?: number;
}

export interface ZoneRung {
  /** 0 to 10. */
  readonly zone: number;
  readonly logExposure: number;
  /** Gross density of the negative. */
  readonly density: Estimate;
  /** Above base + fog. */
  readonly netDensity: number;
  /** Null without a paper. */
  readonly print: ZonePrint | null;
  /** True outside the exposures that were read. */
  readonly extrapolated: boolean;
}

/**
 * The ladder of zones on a curve.
 *
 * @param curve - of a strip, or of a development surface at a time
 * @param options - place of zone I, flare, paper
 * @returns a rung for each zone
 * @throws InvalidArgumentError if an option is out of range
 */
export function zoneLadder(curve: CharacteristicCurve, options: ZoneLadderOptions): ZoneRung[] {
  const {
    zoneOneLogExposure,
    zones = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10],
    flareExposure = 0,
    paper = null,
    paperWhiteDensity = 0.06,
    callierFactor = 1,
    callierFactorError = null,
    whiteZone = 8,
  } = options;
  const refuse = (name: string, value: unknown, expected: string): never => {
    throw new InvalidArgumentError('zoneLadder', name, value, expected);
  };
  if (!Number.isFinite(zoneOneLogExposure)) {
    refuse('zoneOneLogExposure', zoneOneLogExposure, 'a finite number');
  }
  if (!zones.every((zone) => zone >= -5 && zone <= 20)) refuse('zones', zones, 'from -5 to 20');
  if (!(flareExposure >= 0 && flareExposure < Infinity)) {
    refuse('flareExposure', flareExposure, 'zero or more');
  }
  if (!(callierFactor > 0 && callierFactor < 5)) {
    refuse('callierFactor', callierFactor, 'in (0, 5)');
  }
  if (callierFactorError !== null && !(callierFactorError >= 0 && callierFactorError < Infinity)) {
    refuse('callierFactorError', callierFactorError, 'zero or more');
  }
  const exposureOf = (zone: number): number =>
    Math.log10(10 ** (zoneOneLogExposure + LOG_STOP * (zone - 1)) + flareExposure);
  const points = densityBand(curve, zones.map(exposureOf));
  const baseFog = derivedBaseFog(curve).value;
  const [first, last] = curve.logExposureRange;
  return points.map(({ logExposure, density, standardError }, i): ZoneRung => {
    return {
      zone: zones[i] ?? 0,
      logExposure,
      density: { value: density, standardError },
      netDensity: density - baseFog,
      print:
        paper === null
          ? null
          : zonePrint(curve, logExposure, exposureOf(whiteZone), paper, paperWhiteDensity, {
              value: callierFactor,
              standardError: callierFactorError,
            }),
      extrapolated: logExposure < first - 1e-9 || logExposure > last + 1e-9,
    };
  });
}

/** Roman numeral of a zone, as the trade writes it; 0 stays 0. */
export function zoneName(zone: number): string {
  const names = ['0', 'I', 'II', 'III', 'IV', 'V', 'VI', 'VII', 'VIII', 'IX', 'X'];
  return names[zone] ?? String(zone);
}

/** What every zone becomes at each planned development. */
import {
  greyOfLightness,
  speedPointOf,
  surfaceCurve,
  warning,
  zoneLadder,
  zoneName,
  type Warning,
  type ZoneRung,
} from '@wedgebook/core';
import type { Order } from './order.ts';
import type { PlannedTimes } from './planned-times.ts';

export interface Ladder {
  readonly development: string;
  readonly minutes: number;
  readonly rungs: readonly (ZoneRung & { readonly name: string; readonly grey: number | null })[];
}

/**
 * Zone I stands at the shadow density of each development; on the paper, the zone that is the
 * brightest with texture there (VIII less n) prints just darker than white.
 */
export function laddersOf(
  { plan, surface }: PlannedTimes,
  order: Order,
): { readonly ladders: readonly Ladder[]; readonly warnings: readonly Warning[] } {
  if (surface === null) return { ladders: [], warnings: [warning('surface-not-determined')] };
  const white = order.paper?.whiteDensity ?? null;
  const warnings: Warning[] = [];
  const ladders = plan.flatMap(({ development, change, minutes }): Ladder[] => {
    if (minutes === null) return [];
    const cut = surfaceCurve(surface, minutes.value, order.celsius);
    const zoneOne = cut && speedPointOf(cut.curve, order.shadowDensity);
    if (cut === null || zoneOne === null) {
      warnings.push(warning('zones-not-placed', { development }));
      return [];
    }
    const rungs = zoneLadder(cut.curve, {
      zoneOneLogExposure: zoneOne.value,
      paper: order.paper?.paper ?? null,
      ...(white !== null && { paperWhiteDensity: white }),
      callierFactor: order.callierFactor,
      callierFactorError: order.callierFactorError,
      whiteZone: 8 - change,
    }).map((rung) => ({
      ...rung,
      name: zoneName(rung.zone),
      grey: rung.print === null ? null : greyOfLightness(Math.max(0, rung.print.lightness.value)),
    }));
    const outside = rungs.filter(({ extrapolated }) => extrapolated).map(({ name }) => name);
    if (outside.length > 0) {
      warnings.push(warning('zones-extrapolated', { development, zones: outside.join(', ') }));
    }
    return [{ development, minutes: minutes.value, rungs }];
  });
  return { ladders, warnings };
}

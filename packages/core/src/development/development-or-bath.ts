/**
 * More contrast by longer development of the next film or by a bath for the negative: the same
 * printing range, reckoned side by side.
 *
 *   k               = S / (S - n)                         contrast of N+n over that of N
 *   development     c = k c_N at its own time, speed point read at that time
 *   bath            c = c_N min(k, k_max) at the time of N; net 0.10 is where 0.10 / k was
 *   graininess      × k at the middle density in both
 *
 * A bath works on the grains that are there; longer development makes new and larger ones, so its
 * figure is the least it may be, as in `waysOut`.
 *
 * Sources: [GSE1979] that a good intensification equals longer development in its result. Deviations:
 * equal grains added at random would raise graininess by the square root of k alone; practice counts
 * development as the grainier of the two, so that rule is not used.
 */
import { derivedNetPoint, type CharacteristicCurve } from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import { SPEED_POINT_DENSITY } from '../film/index.ts';
import { LOG_STOP } from '../readings/index.ts';
import type { Estimate } from '../estimate.ts';
import type { ContrastModel } from './contrast-model.ts';
import {
  developmentPlan,
  type DevelopmentPlanOptions,
  type PlannedDevelopment,
} from './development-plan.ts';
import type { ExposureIndex } from './speed-against-time.ts';

export interface DevelopmentOrBathOptions extends Omit<DevelopmentPlanOptions, 'changes'> {
  /** n of N+n, stops, above zero; 1 unless given. */
  readonly change?: number;
  /** Greatest gain that the bath reaches, 1 or more. */
  readonly greatestGain: number;
  /** Curve of normal development, for what the bath adds to the speed. */
  readonly curve?: CharacteristicCurve | null;
}

/** What can still be undone, and when the choice is made. */
export interface Commitment {
  /** All frames of the film alike, or each by itself. */
  readonly worksOn: 'whole-film' | 'single-frame';
  /** Before the exposure that it needs, or after a print has shown what is missing. */
  readonly decided: 'before-exposure' | 'after-printing';
  /** Neither development nor an intensifying bath can be taken back. */
  readonly canBeUndone: false;
}

interface Way {
  /** Gain over normal development that it reaches, 1 or more. */
  readonly gain: number;
  readonly contrast: number;
  /** False where the range falls short of the one that was asked for. */
  readonly reachable: boolean;
  readonly minutes: Estimate | null;
  readonly exposureIndex: ExposureIndex | null;
  /** Speed against normal development, in stops; null where nothing tells it. */
  readonly speedChangeStops: number | null;
  /** Fluctuation of density against that of normal development. */
  readonly graininess: number;
  /** True where the figure is the least that it may be. */
  readonly graininessAtLeast: boolean;
  readonly commitment: Commitment;
}

export interface DevelopmentOrBath {
  /** k, contrast asked for over that of normal development. */
  readonly gainAskedFor: number;
  readonly normal: PlannedDevelopment;
  /** The next film, developed longer. */
  readonly development: Way & { readonly plan: PlannedDevelopment };
  /** This film, developed normally, then treated. */
  readonly bath: Way;
}

/**
 * Compares N+n by development with N and a bath.
 *
 * @param model - contrast against time
 * @param options - as for the plan, with n, the bath's greatest gain, and the curve of N
 * @returns both ways with speed, graininess, contrast reached and what can be undone
 * @throws InvalidArgumentError if an option is out of range
 * @source [GSE1979]
 */
export function developmentOrBath(
  model: ContrastModel,
  options: DevelopmentOrBathOptions,
): DevelopmentOrBath {
  const { change = 1, greatestGain, curve = null, ...planned } = options;
  if (!(change > 0)) {
    throw new InvalidArgumentError('developmentOrBath', 'change', change, 'above zero');
  }
  if (!(greatestGain >= 1 && greatestGain < 10)) {
    throw new InvalidArgumentError('developmentOrBath', 'greatestGain', greatestGain, 'in [1, 10)');
  }
  const [normal, more] = developmentPlan(model, { ...planned, changes: [0, change] });
  if (normal === undefined || more === undefined) throw new Error('two rows');
  const gainAskedFor = more.contrast / normal.contrast;
  // A law without a limit that still does not get there promises nothing.
  const limit = model.contrastInfinity?.value ?? normal.contrast;
  const byTime = more.reachable ? gainAskedFor : Math.max(1, limit / normal.contrast);
  const byBath = Math.min(gainAskedFor, greatestGain);
  return {
    gainAskedFor,
    normal,
    development: {
      gain: byTime,
      contrast: normal.contrast * byTime,
      reachable: more.reachable,
      minutes: more.minutes,
      exposureIndex: more.exposureIndex,
      speedChangeStops: more.speedChangeStops,
      graininess: byTime,
      graininessAtLeast: true,
      commitment: { worksOn: 'whole-film', decided: 'before-exposure', canBeUndone: false },
      plan: more,
    },
    bath: {
      gain: byBath,
      contrast: normal.contrast * byBath,
      reachable: normal.reachable && greatestGain >= gainAskedFor,
      minutes: normal.minutes,
      exposureIndex: normal.exposureIndex,
      speedChangeStops: curve === null ? null : speedByBath(curve, byBath),
      graininess: byBath,
      graininessAtLeast: false,
      commitment: { worksOn: 'single-frame', decided: 'after-printing', canBeUndone: false },
    },
  };
}

/** Stops by which net 0.10 moves when every net density is multiplied. */
function speedByBath(curve: CharacteristicCurve, gain: number): number | null {
  const before = derivedNetPoint(curve, SPEED_POINT_DENSITY);
  const after = derivedNetPoint(curve, SPEED_POINT_DENSITY / gain);
  return before && after && (before.value - after.value) / LOG_STOP;
}

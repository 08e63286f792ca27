/** The law of a film's contrast, the plan by it, and what belongs to both. */
import {
  bathForGain,
  contrastAt,
  developmentOrBath,
  developmentPlan,
  fitContrastModel,
  fitSpeedModel,
  fitSurface,
  nextDevelopment,
  surfaceCurve,
  warning,
  type BathForGain,
  type ContrastModel,
  type DevelopmentOrBath,
  type DevelopmentPlanOptions,
  type DevelopmentSurface,
  type DevelopmentTrial,
  type PlannedDevelopment,
  type SpeedModel,
  type SurfaceCurve,
  type TreatmentModel,
  type Warning,
} from '@wedgebook/core';
import { developmentDefaults } from '@wedgebook/data';
import { TIMES_WORDS } from './times-words.ts';
import type { Order } from './order.ts';
import type { TimedStrip } from './timed-strips.ts';

export interface PlannedTimes {
  readonly model: ContrastModel | null;
  readonly target: Order['target'];
  readonly plan: readonly PlannedDevelopment[];
  /** The same plan at other temperatures. */
  readonly others: readonly {
    readonly celsius: number;
    readonly plan: readonly PlannedDevelopment[];
  }[];
  readonly surface: DevelopmentSurface | null;
  /** The strip that would tell most, and the error of the planned minutes before and after it. */
  readonly nextTest: (DevelopmentTrial & { readonly errorNow: number }) | null;
  readonly bath: (DevelopmentOrBath & { readonly inBath: BathForGain | null }) | null;
  readonly warnings: readonly Warning[];
}

export function plannedTimes(
  strips: readonly TimedStrip[],
  order: Order,
  selenium: TreatmentModel,
): PlannedTimes {
  const timed = strips.map((strip) => ({
    minutes: strip.minutes,
    ...(strip.celsius !== null && { celsius: strip.celsius }),
  }));
  const fit = fitContrastModel(
    strips.map(({ contrast }, i) => ({ ...timed[i], minutes: timed[i]?.minutes ?? 0, contrast })),
    { temperatureCoefficient: order.coefficient.value, family: order.family },
  );
  if (fit.status !== 'ok') {
    const { target } = order;
    const none = { plan: [], others: [], surface: null, nextTest: null, bath: null };
    return { model: null, target, ...none, warnings: fit.warnings };
  }
  const { model } = fit;
  const target = order.target ?? {
    value: contrastAt(model, order.normalMinutes ?? 1, order.celsius).value,
    error: 0,
    source: TIMES_WORDS.atMinutes(order.normalMinutes ?? 1, order.celsius),
  };
  if (!(target.value > 0)) {
    const contrast = target.value;
    const none = { plan: [], others: [], surface: null, nextTest: null, bath: null };
    const early = warning('contrast-not-begun', { minutes: order.normalMinutes ?? 0, contrast });
    return { model, target, ...none, warnings: [...fit.warnings, early] };
  }
  const q = model.temperatureCoefficient.value;
  const changes = Array.from({ length: 2 * order.span + 1 }, (_, i) => i - order.span);
  const common = {
    normalContrast: target.value,
    normalContrastError: target.error,
    texturalStops: order.texturalStops,
    speed: speedOf(strips, q),
    usablePart: developmentDefaults.usablePart.value,
    shortestMinutes: developmentDefaults.shortestMinutes.value,
  };
  const planAt = (celsius: number) => developmentPlan(model, { ...common, changes, celsius });
  const plan = planAt(order.celsius);
  const others = order.otherCelsius.map((celsius) => ({ celsius, plan: planAt(celsius) }));

  const surfaceFit = fitSurface(
    strips.map(({ readings }, i) => ({ ...timed[i], minutes: timed[i]?.minutes ?? 0, readings })),
    { temperatureCoefficient: q },
  );
  const surface = surfaceFit.status === 'ok' ? surfaceFit.surface : null;
  const contrasts = plan.filter(({ reachable }) => reachable).map(({ contrast }) => contrast);
  const next =
    contrasts.length === 0 ? null : nextDevelopment(model, { contrasts, celsius: order.celsius });
  const [best] = next?.trials ?? [];
  const normal = plan.find(({ change }) => change === 0)?.minutes ?? null;
  const cut =
    surface === null || normal === null ? null : surfaceCurve(surface, normal.value, order.celsius);
  return {
    model,
    target,
    plan,
    others,
    surface,
    nextTest: next === null || best === undefined ? null : { ...best, errorNow: next.errorNow },
    bath:
      order.bath &&
      bathBeside(order.bath, model, { ...common, celsius: order.celsius }, cut, selenium),
    warnings: [
      ...fit.warnings,
      ...plan.flatMap((row) => row.warnings),
      ...others.flatMap(({ celsius, plan: rows }) =>
        rows.flatMap((row) => row.warnings.map((own) => atTemperature(own, celsius))),
      ),
    ],
  };
}

/** N+1 by development beside N and a bath: one of the user's own gain, or selenium. */
function bathBeside(
  { ownGain, ...bath }: NonNullable<Order['bath']>,
  model: ContrastModel,
  options: Omit<DevelopmentPlanOptions, 'changes'>,
  cut: SurfaceCurve | null,
  selenium: TreatmentModel,
): PlannedTimes['bath'] {
  const greatestGain = ownGain ?? bathForGain(selenium, 1, bath).mostGain;
  const both = developmentOrBath(model, { ...options, greatestGain, curve: cut?.curve ?? null });
  const inBath = ownGain === null ? bathForGain(selenium, both.gainAskedFor, bath) : null;
  return { ...both, inBath };
}

/** A warning of a row says which temperature it is for. */
function atTemperature({ code, details }: Warning, celsius: number): Warning {
  const development = TIMES_WORDS.rowAt(String(details['development'] ?? ''), celsius);
  return warning(code, { ...details, development });
}

function speedOf(strips: readonly TimedStrip[], temperatureCoefficient: number): SpeedModel | null {
  const readings = strips.flatMap(({ minutes, celsius, speedPoint }) =>
    speedPoint === null
      ? []
      : [{ minutes, logExposure: speedPoint, ...(celsius !== null && { celsius }) }],
  );
  return readings.length === 0 ? null : fitSpeedModel(readings, { temperatureCoefficient });
}

/** The ways out for the negative of a plan, in the order that the user wishes. */
import {
  sortWays,
  WAY_ORDERS,
  warning,
  waysOut,
  type KnownDevelopment,
  type PrintingOptions,
  type SplitLights,
  type TreatmentModel,
  type TreatmentTarget,
  type Warning,
  type WayOrder,
  type WayOut,
} from '@wedgebook/core';
import {
  builtInSplit,
  cautionsFor,
  processDefaults,
  wayNotes,
  type Caution,
} from '@wedgebook/data';
import type { Arguments, OptionKinds } from '../input/arguments.ts';
import { UsageError } from '../usage-error.ts';
import { USAGE } from '../text.ts';
import type { NegativeToPlan } from './plan-order.ts';

export const WAYS_OPTIONS = {
  ways: { type: 'boolean' },
  order: { type: 'string' },
  'separate-shadow': { type: 'string' },
  'separate-highlight': { type: 'string' },
  'developed-for': { type: 'string' },
  'split-paper': { type: 'string' },
} as const satisfies OptionKinds;

/** What of the ways is asked for. */
export interface WaysOrder {
  readonly order: WayOrder;
  readonly separateShadow: number | undefined;
  readonly separateHighlight: number | undefined;
  readonly developedMinutes: number | undefined;
}

export interface ShownWays {
  readonly ways: readonly WayOut[];
  readonly order: WayOrder;
  readonly cautions: readonly Caution[];
  readonly warnings: readonly Warning[];
}

/** Where only a range is known, its foot is put at the speed point. */
const ASSUMED_SHADOW = 0.1;
const USUAL_CELSIUS = 20;

/** @returns null where `--ways` was not asked for */
export function waysOrder(given: Arguments): WaysOrder | null {
  const order = given.choice('order', WAY_ORDERS);
  const asked: WaysOrder = {
    order: order ?? 'least-interference',
    separateShadow: given.number('separate-shadow', -0.5, 6),
    separateHighlight: given.number('separate-highlight', -0.5, 6),
    developedMinutes: given.number('developed-for', 0.1, 1000),
  };
  if (given.flag('ways')) return asked;
  const idle = Object.keys(WAYS_OPTIONS).find((name) => name !== 'ways' && given.has(name));
  if (idle !== undefined) throw new UsageError(USAGE.onlyWithWays(idle));
  return null;
}

export interface WaysContext {
  readonly model: TreatmentModel;
  readonly negative: NegativeToPlan;
  readonly target: TreatmentTarget;
  readonly bath: { readonly partsWater: number; readonly celsius: number };
  readonly options: PrintingOptions;
  readonly development: KnownDevelopment | null;
  /** The user's own paper under soft and hard light. */
  readonly split: SplitLights | null;
}

export function waysOf(asked: WaysOrder, context: WaysContext): ShownWays {
  const { model, negative, target, bath, options, development, split } = context;
  const { densityRange, shadowNetDensity, baseFog } = negative;
  const shadow = shadowNetDensity ?? ASSUMED_SHADOW;
  const nets = { shadow, highlight: shadow + densityRange };
  const net = (density: number | undefined, end: number): number =>
    density === undefined ? end : Math.max(0, density - (baseFog ?? 0));
  const minutes = asked.developedMinutes ?? development?.minutes ?? null;
  const ways = waysOut({
    model,
    negative: nets,
    separationAt: {
      shadow: net(asked.separateShadow, nets.shadow),
      highlight: net(asked.separateHighlight, nets.highlight),
    },
    target,
    bath,
    options,
    defaults: processDefaults,
    split: split ?? builtInSplit,
    development: {
      model: development?.model ?? null,
      minutes,
      celsius: development?.celsius ?? USUAL_CELSIUS,
    },
  });
  const processes = new Set(
    ways.flatMap(({ id }) => wayNotes.find((note) => note.id === id)?.process ?? []),
  );
  return {
    ways: sortWays(ways, asked.order),
    order: asked.order,
    cautions: cautionsFor(...processes),
    warnings: [
      ...(shadowNetDensity === undefined
        ? [warning('shadow-density-assumed', { shadow: ASSUMED_SHADOW })]
        : []),
      ...ways.flatMap((way) => way.warnings),
    ],
  };
}

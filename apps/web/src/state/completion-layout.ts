/** The completion chart of the bath as the app draws it. */
import { layoutCompletionChart } from '@wedgebook/charts';
import { gainAtBath } from '@wedgebook/core';
import type { Plan } from '@wedgebook/notebook';
import type { SceneLayout } from '../parts/scene-chart.ts';
import { text } from '../text.ts';
import type { BathView, CompletionCurves } from './derive-bath.ts';

/** Trials at the plan's dilution and within this of its temperature lie on its curve. */
const SAME_CELSIUS = 0.6;

export function completionLayout(
  curves: CompletionCurves,
  plan: Plan,
  { model, plan: target }: BathView,
): SceneLayout {
  const points = (list: CompletionCurves['planned']) =>
    list.map(({ minutes, completion }) => ({ minutes, completion: completion.value }));
  const maximumGain = model.doseResponse.maximumGain.value;
  const { completion } = gainAtBath(model.doseResponse, plan);
  const trials = model.treated
    .filter(
      ({ partsWater, bathCelsius }) =>
        partsWater === plan.partsWater && Math.abs(bathCelsius - plan.celsius) < SAME_CELSIUS,
    )
    .map(({ bathMinutes, gain }) => ({
      minutes: bathMinutes,
      completion: maximumGain > 1 ? (gain.value - 1) / (maximumGain - 1) : 0,
    }));
  return (width, height) =>
    layoutCompletionChart({
      width,
      height,
      title: text.treatment.completionTitle,
      maximumGain,
      trials,
      plan: { minutes: plan.minutes, completion: completion.value },
      target:
        target !== null && target.reachable && target.minutes > 0
          ? {
              minutes: target.minutes,
              completion: target.completion,
              label: text.treatment.targetLabel(target.minutes),
            }
          : null,
      curves: [
        ...curves.others.map(({ partsWater, points: list }) => ({
          id: String(partsWater),
          label: `1+${partsWater}`,
          planned: false,
          points: points(list),
        })),
        {
          id: 'planned',
          label: text.treatment.plannedLabel(plan),
          planned: true,
          points: points(curves.planned),
        },
      ],
    });
}

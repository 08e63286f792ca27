/** Words of what trials can and cannot tell apart. */
import type { TreatmentModel } from '@wedgebook/core';
import {
  fogChangeText,
  LAW_NAMES,
  RESPONSE_NAMES,
  stainLossText,
  untoldText,
} from '@wedgebook/notebook';

export const compared = {
  title: 'What these trials cannot tell',
  nothing: 'Without trials nothing is told: every figure is built in.',
  families: RESPONSE_NAMES,
  laws: LAW_NAMES,
  table: 'Laws and families compared',
  kind: 'kind',
  name: 'name',
  law: 'gain law',
  family: 'gain against dose',
  parameters: 'parameters',
  difference: 'Δ criterion',
  weight: 'weight',
  hint: 'Laws are compared by AICc, families by chi-square + 2 for each parameter: a difference under 2 means nothing. What is not told apart is carried along and widens every error.',
  says: untoldText,
  fog: ({ baseFogChange }: TreatmentModel) => fogChangeText(baseFogChange),
  stainLoss: stainLossText,
};

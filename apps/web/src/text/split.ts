/** Words of the split exposure. */
import { formatNumber, formatSigned } from '@wedgebook/charts';
import type { LeftOutError, SplitForPrint } from '@wedgebook/core';
import { printing } from './printing.ts';

export const split = {
  title: 'Split exposure on variable-contrast paper',
  own: 'From your own strips of soft and hard light.',
  builtIn:
    'From built-in layers, not from your paper. Strips under soft and under hard light alone replace them: name them at the paper, under Match.',
  softAlone: 'Soft light alone prints the highlight right in',
  hardAlone: 'Hard light alone prints it right in',
  aloneHelp:
    'One test strip through each filter gives these two times; the seconds of the split follow from them.',
  seconds: 's',
  table: 'Soft and hard light before and after the bath',
  negative: 'negative',
  soft: 'soft, s',
  hard: 'hard, s',
  ratio: 'hard against soft, stops',
  scale: 'scale of the mixture, R',
  before: 'before the bath',
  after: 'after the bath',
  take: 'Take this split',
  taken: 'in use',
  drop: 'One exposure instead',
  noTimes: 'times not tried',
  reason: (one: SplitForPrint, when: string): string => {
    switch (one.status) {
      case 'ok':
        return '';
      case 'not-fitted':
        return 'The strips could not be fitted.';
      case 'not-reachable':
        return one.reason === 'softer-than-soft'
          ? `${when}: softer than soft light alone. At best the shadow prints as ${formatNumber(one.nearestShadowDensity, 2)}.`
          : `${when}: harder than hard light alone. At best the shadow prints as ${formatNumber(one.nearestShadowDensity, 2)}.`;
      case 'refused':
        return printing.refused(one);
    }
  },
  perStopTitle: 'What one stop more of each light does',
  perStopTable: 'Change of print density for one stop more of each light',
  tone: 'tone',
  prints: 'prints as',
  softStop: 'soft +1 stop',
  hardStop: 'hard +1 stop',
  highlight: 'highlight',
  middle: 'middle of the negative',
  shadow: 'shadow',
  governs: (softShareHighlight: number, softShareShadow: number): string =>
    `Soft light makes ${formatNumber(100 * softShareHighlight, 0)} % of the slope in the highlight and ${formatNumber(100 * softShareShadow, 0)} % in the shadow: set the highlight with soft light first, then the shadow with hard.`,
  testTitle: 'Test strips',
  testSays:
    'First a strip in soft light: choose the patch whose highlight is right. Then a new strip, all of it given that soft time, and hard light on top: choose the shadow.',
  testTable: 'Seconds of the patches in equal stops, and what each adds to the one before',
  step: 'Step',
  patches: 'patch',
  softStrip: 'soft strip, s',
  hardStrip: (seconds: string) => `hard strip, s (on ${seconds} s soft)`,
  leftOut: (errors: readonly LeftOutError[]): string =>
    `Each strip foretold by the others alone: ${errors
      .map(({ name, rootMeanSquare }) =>
        rootMeanSquare === null
          ? `${name} cannot be foretold without it`
          : `${name} within ±${formatNumber(rootMeanSquare, 3)}`,
      )
      .join(', ')} (density, root mean square).`,
  signed: (value: number) => formatSigned(value, 2),
};

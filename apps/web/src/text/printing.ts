/** Words of the printing station. It is fetched with the station, not with the first load. */
import { formatNumber, formatSigned } from '@wedgebook/charts';
import type { PaperMap, SameGrade, ToneMatch } from '@wedgebook/core';
import type { PrintRow } from '../state/derive-printing.ts';

const density = (value: number): string => formatNumber(value, 2);

const kindOf = ({ kind }: PaperMap): string => (kind === 'published' ? 'grade' : 'setting');

/** A number alone says too little: `grade 3`, `setting 2½`; names stand for themselves. */
const settingOn = (map: PaperMap, name: string): string =>
  /^[\d.½]+$/.test(name) ? `${kindOf(map)}\u00a0${name}` : name;

export const printing = {
  title: 'Print',
  says: (rows: readonly PrintRow[]): string => {
    const after = rows.find(({ treated, calledFor }) => treated && !calledFor);
    const change = after?.stops ?? null;
    if (change === null) return 'exposures before and after the bath';
    return `on the same paper the bath asks for ${formatSigned(change.value, 2)} stops`;
  },
  missing: {
    negative:
      'Name the shadow and the highlight of a negative under Match, and the prints are reckoned here.',
    paper: 'The paper has no exposure scale yet: give it one under Match.',
  },
  exposure: 'Exposure and setting',
  setting: 'Setting in use',
  middleSetting: 'the middle one',
  base: 'Exposure found right',
  baseUnit: 's',
  baseHelp:
    'The time in which the untreated negative prints its highlight right on the paper in use, from a test strip. The other prints are counted from it.',
  wantedHighlight: 'Highlight prints as',
  wantedShadow: 'Shadow prints as',
  reflection: 'density',
  flare: 'Stray light of the enlarger',
  flareUnit: '% of the light through clear film',
  usual: (highlight: number, shadow: number) =>
    `Left empty, the highlight prints just darker than white (${density(highlight)}) and the shadow at 90 % of the black (${density(shadow)}): the ends of the paper’s scale by ISO 6846.`,
  table: 'Four prints of the negative',
  print: 'print',
  on: 'on',
  exposureHead: 'exposure, stops',
  seconds: 'seconds',
  highlightHead: 'highlight, density',
  shadowHead: 'shadow, density',
  lightnessOf: (value: number) => `L* ${formatNumber(value, 0)}`,
  rowName: ({ treated, calledFor }: PrintRow): string =>
    `${treated ? 'after the bath' : 'before the bath'}, ${calledFor ? 'as called for' : 'paper in use'}`,
  settingOf: ({ setting, calledFor }: PrintRow, map: PaperMap): string =>
    calledFor ? settingOn(map, setting) : setting,
  noSpeed: 'speed not known',
  generatedPaper:
    'No strip of this paper was read: its curve is a generated one of the same scale, and what one grade needs against another is not known. Print a wedge on it to know.',
  match: (when: 'before' | 'after', match: ToneMatch, map: PaperMap): string => {
    const place = (name: string): string => settingOn(map, name);
    const state = when === 'before' ? 'As it is' : 'After the bath';
    switch (match.status) {
      case 'ok': {
        const { value, interval } = match.position;
        const between =
          interval === null
            ? ''
            : ` (95 %: ${formatNumber(interval[0], 1)} to ${formatNumber(interval[1], 1)})`;
        return `${state} the negative calls for ${kindOf(map)} ${formatNumber(value, 1)}${between}; the nearest is ${place(match.nearest.setting)}.`;
      }
      case 'not-reachable':
        return match.reason === 'softer-than-softest'
          ? `${state} the negative is too long for the softest there is; on ${place(match.nearest.setting)} the shadow prints as ${density(match.nearest.shadowPrintDensity)}.`
          : `${state} the negative is too short for the hardest there is; on ${place(match.nearest.setting)} the shadow prints as ${density(match.nearest.shadowPrintDensity)}.`;
      case 'refused':
        return printing.refused(match);
    }
  },
  refused: (match: Extract<ToneMatch, { status: 'refused' }>): string => {
    switch (match.reason) {
      case 'highlight-thinner-than-shadow':
        return 'The highlight is thinner on the negative than the shadow. On a negative the highlight is the denser spot: exchange the two under Match.';
      case 'highlight-darker-than-shadow':
        return 'The highlight is to print darker than the shadow. Exchange the two densities.';
      case 'highlight-outside-paper':
      case 'shadow-outside-paper': {
        const [low, high] = match.nearest;
        const which = match.reason === 'shadow-outside-paper' ? 'shadow' : 'highlight';
        return `The ${which} is to print at a density that this paper does not hold. It reaches from ${density(low)} to ${density(high)}.`;
      }
    }
  },
  sameTitle: 'On the same paper, what the bath changes',
  same: (same: SameGrade): string => {
    if (same.status === 'outside-paper') {
      const [low, high] = same.reachable;
      return `The highlight cannot be held at that density; this paper holds ${density(low)} to ${density(high)}.`;
    }
    const gains = same.gains
      .map(([from, to]) => `${density(from)} to ${density(to)}`)
      .join(' and from ');
    return gains === ''
      ? 'With the highlight held, no tone gains separation.'
      : `With the highlight held, tones of the negative from ${gains} part more than before.`;
  },
  sameTable: 'Print before and after, the highlight held',
  negative: 'negative, density',
  before: 'before',
  after: 'after',
  separation: 'separation, L* per 0.1 of density',
};

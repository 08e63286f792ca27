/** Stand-in until the data package brings the demonstration notebook. */
import { emptyDocument, type NotebookDocument, type Strip } from '@wedgebook/notebook';
import { nominalTablet } from '@wedgebook/core';

const soft = (z: number) => Math.log1p(Math.exp(z));
const tablet = nominalTablet({ steps: 21, increment: 0.15 });
const strip = (id: string, name: string, minutes: number, gamma: number): Strip => ({
  id,
  name,
  material: 'film',
  filmId: null,
  channel: 'visual',
  tabletId: 'nominal-21',
  exposure: { kind: 'absolute', sourceLogExposure: 0.4 },
  rows: tablet.map((density, i) => {
    const x = 0.4 - density;
    const value = 0.14 + gamma * 0.22 * soft((x + 2) / 0.22) - gamma * 0.3 * soft((x - 0.3) / 0.3);
    const read = Math.round((value + 0.008 * Math.sin(i * 12.9898 + gamma * 78)) * 100) / 100;
    return {
      step: i + 1,
      logExposure: null,
      densities: [read, Math.round((read + 0.01 * (i % 3) - 0.01) * 100) / 100],
    };
  }),
  unexposedDensities: [0.14, 0.15],
  development: { minutes, celsius: 20 },
  treatment: null,
  note: '',
});

export const demoDocument: NotebookDocument = {
  ...emptyDocument('Ferry landing in river fog'),
  invented: true,
  strips: [
    strip('a', '6 min', 6, 0.45),
    strip('b', '8 min', 8, 0.55),
    strip('c', '11 min', 11, 0.66),
  ],
  negatives: [
    {
      id: 'n',
      name: 'Landing stage at first light',
      filmId: null,
      stripId: 'b',
      baseFog: null,
      spots: [
        { id: 's', name: 'hull under the bow', density: 0.34, role: 'shadow' },
        { id: 'h', name: 'fog over the water', density: 1.08, role: 'highlight' },
      ],
      note: '',
    },
  ],
  plan: { ...emptyDocument().plan, negativeId: 'n' },
};

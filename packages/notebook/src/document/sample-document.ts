/** A small invented notebook for tests of the document. */
import type { NotebookDocument, Strip } from './document.ts';
import { emptyDocument } from './empty-document.ts';

const strip: Strip = {
  id: 's1',
  name: 'strip 1',
  material: 'film',
  filmId: 'f1',
  channel: 'visual',
  tabletId: 't1',
  exposure: { kind: 'absolute', sourceLogExposure: 0.5 },
  rows: [
    { step: 1, logExposure: null, densities: [1.5, 1.52] },
    { step: 2, logExposure: null, densities: [1.1, null] },
    { step: 3, logExposure: null, densities: [] },
  ],
  unexposedDensities: [0.2],
  development: { minutes: 8, celsius: 20 },
  processedOn: '2026-11-18',
  control: true,
  treatment: null,
  note: '',
};

const paper = { dryDownPercent: null, safelightMinutes: null, note: '' };

export const SAMPLE: NotebookDocument = {
  ...emptyDocument('Sample'),
  invented: true,
  tablets: [
    { id: 't1', name: 'my tablet', densities: [0.05, 0.2, 0.35], kind: 'calibrated', note: '' },
  ],
  developers: [{ id: 'd1', name: 'metol, 1+1', note: '' }],
  films: [{ id: 'f1', name: 'sheet film', developerId: 'd1', note: '' }],
  strips: [
    strip,
    {
      ...strip,
      id: 's2',
      name: 'strip 2, toned',
      treatment: {
        process: 'selenium',
        partsWater: 1,
        minutes: 6.5,
        celsius: 20,
        untreatedStripId: 's1',
      },
    },
    { ...strip, id: 's3', name: 'paper strip', material: 'paper', filmId: null },
    {
      ...strip,
      id: 's4',
      name: 'strip 4, bleached',
      processedOn: null,
      control: false,
      treatment: {
        process: 'a bleach of my own',
        partsWater: null,
        minutes: null,
        celsius: 21,
        untreatedStripId: 's1',
      },
    },
  ],
  papers: [
    { ...paper, id: 'p1', name: 'graded paper', source: { kind: 'strip', stripId: 's3' } },
    {
      ...paper,
      id: 'p2',
      name: 'other paper',
      source: { kind: 'iso-range', isoRange: 105 },
      dryDownPercent: 8,
      safelightMinutes: 4.5,
    },
    {
      ...paper,
      id: 'p3',
      name: 'variable-contrast paper',
      source: {
        kind: 'strips',
        strips: [
          { stripId: 's3', setting: 'soft', softSeconds: null, hardSeconds: null },
          { stripId: null, setting: '', softSeconds: 6, hardSeconds: 3.5 },
        ],
      },
    },
  ],
  negatives: [
    {
      id: 'n1',
      name: 'ferry',
      filmId: 'f1',
      stripId: 's1',
      baseFog: 0.2,
      spots: [
        { id: 'a', name: 'hull', density: 0.45, role: 'shadow' },
        { id: 'b', name: 'fog', density: 1.2, role: 'highlight' },
      ],
      note: '',
    },
  ],
  baths: [
    {
      id: 'b1',
      name: 'tray of November',
      process: 'selenium',
      mixedOn: '2026-11-20',
      volumeMillilitres: 1000,
      partsWater: 3,
      seleniumGramsPerLitre: 40,
      films: [
        {
          id: 'x',
          name: 'six sheets',
          day: '2026-11-21',
          areaSquareCentimetres: 774,
          meanNetDensity: 0.6,
        },
      ],
      note: '',
    },
  ],
  prints: [
    {
      id: 'q1',
      name: 'first print',
      day: '2026-11-22',
      negativeId: 'n1',
      paperId: 'p1',
      setting: null,
      seconds: 12.5,
      softSeconds: null,
      hardSeconds: null,
      magnification: 2,
      note: 'the hull is blocked up',
    },
  ],
  notes: [{ id: 'm1', day: '2026-11-22', text: 'fresh developer' }],
  plan: { ...emptyDocument().plan, negativeId: 'n1', paperId: 'p1' },
  developmentPlan: { ...emptyDocument().developmentPlan, filmId: 'f1', target: 0.62 },
  printing: { ...emptyDocument().printing, baseSeconds: 12.5, highlightPrintDensity: 0.08 },
};

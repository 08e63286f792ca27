/** Any command to the sample notebook, for property tests. */
import fc from 'fast-check';
import type { Command } from '../packages/notebook/src/document/command.ts';
import { SAMPLE } from '../packages/notebook/src/document/sample-document.ts';

const [filmStrip] = SAMPLE.strips;
const anyId = fc.constantFrom(
  'f1',
  'd1',
  's1',
  's2',
  's3',
  't1',
  'p1',
  'p2',
  'p3',
  'n1',
  'a',
  'q1',
  'm1',
  'new',
  'none',
);
const index = fc.integer({ min: -1, max: 6 });
const cell = fc.option(fc.double({ min: -0.5, max: 6, noNaN: true }));
const cells = fc.array(cell, { maxLength: 4 });
const column = fc.oneof(
  fc.constant({ kind: 'step' } as const),
  fc.constant({ kind: 'log-exposure' } as const),
  fc.record({ kind: fc.constant('density' as const), replicate: fc.integer({ min: -1, max: 60 }) }),
);
const kind = fc.constantFrom(
  'tablet',
  'developer',
  'film',
  'strip',
  'paper',
  'negative',
  'bath',
  'print',
);

/** Commands to the sample notebook, many of which name what is not there. */
export const anyCommand = fc.oneof(
  fc.record({
    type: fc.constant('film/add' as const),
    entry: anyId.map((id) => ({ id, name: id, developerId: null, note: '' })),
    index,
  }),
  fc.record({
    type: fc.constant('strip/add' as const),
    entry: anyId.map((id) => ({ ...filmStrip!, id, filmId: null, tabletId: 'nominal-21' })),
  }),
  fc.record({
    type: fc.constant('paper/add' as const),
    entry: anyId.map((id) => ({
      id,
      name: id,
      source: { kind: 'iso-range' as const, isoRange: 90 },
      dryDownPercent: null,
      safelightMinutes: null,
      note: '',
    })),
  }),
  fc
    .record({ type: kind, id: anyId, changes: fc.record({ name: fc.string(), note: fc.string() }) })
    .map(({ type, ...rest }) => ({ type: `${type}/change`, ...rest })),
  fc.record({ type: kind, id: anyId }).map(({ type, id }) => ({ type: `${type}/remove`, id })),
  fc
    .record({ type: kind, id: anyId, index })
    .map(({ type, ...rest }) => ({ type: `${type}/move`, ...rest })),
  fc.record({
    type: fc.constant('rows/set-cell' as const),
    stripId: anyId,
    row: index,
    column,
    value: cell,
  }),
  fc.record({
    type: fc.constant('rows/set-replicates' as const),
    stripId: anyId,
    row: index,
    densities: cells,
  }),
  fc.record({
    type: fc.constant('rows/paste' as const),
    stripId: anyId,
    row: index,
    column,
    block: fc.array(cells, { maxLength: 3 }),
  }),
  fc.record({
    type: fc.constant('rows/remove' as const),
    stripId: anyId,
    row: index,
    count: index,
  }),
  fc.record({ type: fc.constant('rows/reverse-readings' as const), stripId: anyId }),
  fc.record({ type: fc.constant('spot/remove' as const), negativeId: anyId, id: anyId }),
  fc.record({
    type: fc.constant('plan/set' as const),
    changes: fc.record({ partsWater: fc.nat(20), minutes: fc.nat(30) }),
  }),
  fc.record({
    type: fc.constant('film/change' as const),
    id: anyId,
    changes: fc.record({ developerId: fc.constant(null) }),
  }),
  fc.record({
    type: fc.constant('developmentPlan/set' as const),
    changes: fc.record({ target: cell, chosenMinutes: cell }),
  }),
  fc.record({
    type: fc.constant('printing/set' as const),
    changes: fc.record({ baseSeconds: cell, setting: fc.option(fc.string()) }),
  }),
  fc.record({
    type: fc.constant('note/add' as const),
    entry: anyId.map((id) => ({ id, day: null, text: id })),
    index,
  }),
  fc.record({ type: fc.constant('note/remove' as const), id: anyId }),
) as fc.Arbitrary<Command>;

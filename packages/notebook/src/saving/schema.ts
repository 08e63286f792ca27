/**
 * The form of a notebook, checked field by field. Objects are loose: a field that this version
 * does not know is kept, so that a newer notebook loses nothing by passing through. Numbers need
 * only be finite: a notebook with a senseless figure must still open, so that it can be put
 * right.
 */
import { CURVE_FAMILIES } from '@wedgebook/core';
import * as v from 'valibot';
import { MODELLED_PROCESS, TARGET_KINDS } from '../document/document.ts';

const finite = v.pipe(v.number(), v.finite());
const text = v.string();
const id = v.pipe(v.string(), v.minLength(1));
const reference = v.nullable(id);
const orUnknown = v.nullable(finite);
const day = v.nullable(text);
const list = <T extends v.GenericSchema>(item: T) => v.pipe(v.array(item), v.maxLength(100_000));

const tablet = v.looseObject({
  id,
  name: text,
  densities: list(finite),
  kind: v.picklist(['nominal', 'calibrated']),
  note: text,
});

const developer = v.looseObject({ id, name: text, note: text });

const film = v.looseObject({ id, name: text, developerId: reference, note: text });

const development = v.looseObject({ minutes: finite, celsius: finite });

const row = v.looseObject({ step: finite, logExposure: orUnknown, densities: list(orUnknown) });

const strip = v.looseObject({
  id,
  name: text,
  material: v.picklist(['film', 'paper']),
  filmId: reference,
  channel: v.picklist(['visual', 'blue', 'green', 'red', 'ultraviolet']),
  tabletId: reference,
  exposure: v.variant('kind', [
    v.looseObject({ kind: v.literal('relative') }),
    v.looseObject({ kind: v.literal('absolute'), sourceLogExposure: orUnknown }),
  ]),
  rows: list(row),
  unexposedDensities: list(finite),
  development: v.nullable(development),
  processedOn: day,
  control: v.boolean(),
  treatment: v.nullable(
    v.looseObject({
      process: text,
      partsWater: orUnknown,
      minutes: orUnknown,
      celsius: finite,
      untreatedStripId: reference,
    }),
  ),
  note: text,
});

const paper = v.looseObject({
  id,
  name: text,
  source: v.variant('kind', [
    v.looseObject({ kind: v.literal('strip'), stripId: reference }),
    v.looseObject({
      kind: v.literal('strips'),
      strips: list(
        v.looseObject({
          stripId: reference,
          setting: text,
          softSeconds: orUnknown,
          hardSeconds: orUnknown,
        }),
      ),
    }),
    v.looseObject({ kind: v.literal('iso-range'), isoRange: finite }),
    v.looseObject({ kind: v.literal('grade-table'), tableId: id, band: finite }),
  ]),
  dryDownPercent: orUnknown,
  safelightMinutes: orUnknown,
  note: text,
});

const negative = v.looseObject({
  id,
  name: text,
  filmId: reference,
  stripId: reference,
  baseFog: orUnknown,
  densityRange: v.optional(orUnknown),
  development: v.optional(v.nullable(development)),
  spots: list(
    v.looseObject({
      id,
      name: text,
      density: finite,
      role: v.picklist(['shadow', 'highlight', 'other']),
    }),
  ),
  note: text,
});

const bath = v.looseObject({
  id,
  name: text,
  process: text,
  mixedOn: day,
  volumeMillilitres: finite,
  partsWater: finite,
  seleniumGramsPerLitre: orUnknown,
  films: list(
    v.looseObject({
      id,
      name: text,
      day,
      areaSquareCentimetres: finite,
      meanNetDensity: finite,
    }),
  ),
  note: text,
});

const plan = v.looseObject({
  negativeId: reference,
  paperId: reference,
  gradeTableId: id,
  targetKind: v.picklist(TARGET_KINDS),
  targetGrade: finite,
  targetRange: orUnknown,
  curveFamily: v.picklist(CURVE_FAMILIES),
  callierFactor: finite,
  callierFactorError: v.optional(orUnknown),
  process: v.literal(MODELLED_PROCESS),
  partsWater: finite,
  minutes: finite,
  celsius: finite,
  stain: finite,
  stainKept: finite,
  clearBaseDensity: orUnknown,
  held: v.looseObject({
    maximumGain: orUnknown,
    halfDose: orUnknown,
    concentrationExponent: orUnknown,
    temperatureCoefficient: orUnknown,
  }),
});

/** Names of measures; end points that cannot be still open, so that they can be put right. */
const MEASURE = /^(contrast-index|gamma|gradient-.+)$/;

const developmentPlan = v.looseObject({
  filmId: reference,
  measure: v.pipe(text, v.regex(MEASURE)),
  target: orUnknown,
  celsius: finite,
  subjectRangeStops: finite,
  flareFactor: finite,
  speedNetDensity: finite,
  temperatureCoefficient: orUnknown,
  limitStrips: finite,
  chosenMinutes: orUnknown,
});

const printing = v.looseObject({
  setting: v.nullable(text),
  magnification: finite,
  baseSeconds: orUnknown,
  softSeconds: orUnknown,
  hardSeconds: orUnknown,
  softAloneSeconds: orUnknown,
  hardAloneSeconds: orUnknown,
  areas: list(
    v.looseObject({
      id,
      name: text,
      density: orUnknown,
      light: v.picklist(['whole', 'soft', 'hard']),
      stops: finite,
    }),
  ),
  shadowPrintDensity: orUnknown,
  highlightPrintDensity: orUnknown,
  cameraFlareFactor: orUnknown,
  enlargerFlare: finite,
});

const print = v.looseObject({
  id,
  name: text,
  day,
  negativeId: reference,
  paperId: reference,
  setting: v.nullable(text),
  seconds: orUnknown,
  softSeconds: orUnknown,
  hardSeconds: orUnknown,
  magnification: orUnknown,
  note: text,
});

const note = v.looseObject({ id, day, text });

/** The document of schema version 3. */
export const documentSchema = v.looseObject({
  title: text,
  note: text,
  invented: v.boolean(),
  tablets: list(tablet),
  developers: list(developer),
  films: list(film),
  strips: list(strip),
  papers: list(paper),
  negatives: list(negative),
  baths: list(bath),
  prints: list(print),
  notes: list(note),
  plan,
  developmentPlan,
  printing,
  asTyped: v.optional(v.record(text, text)),
});

/** The parts by name: what is checked by itself, and a definition each of the published schema. */
export const PARTS = {
  tablet,
  developer,
  film,
  strip,
  paper,
  negative,
  bath,
  print,
  note,
  plan,
  developmentPlan,
  printing,
};

const checked = { ...PARTS, row, document: documentSchema };

/** The parts of a notebook that can be checked by themselves. */
export type CheckedPart = keyof typeof checked;

/** The first fault of a document or of a part of it, in words, or null where it is sound. */
export function firstFault(
  value: unknown,
  part: CheckedPart = 'document',
): { path: string; fault: string } | null {
  const result = v.safeParse(checked[part], value, { abortEarly: true });
  if (result.success) return null;
  const [issue] = result.issues;
  return { path: v.getDotPath(issue) ?? part, fault: faultText(issue) };
}

function faultText(issue: v.BaseIssue<unknown>): string {
  const expected = issue.expected ?? 'something else';
  return `${expected} is expected here, ${issue.received} was found`;
}

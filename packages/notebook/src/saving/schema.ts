/**
 * The form of a notebook, checked field by field. Objects are loose: a field that this version
 * does not know is kept, so that a newer notebook loses nothing by passing through. Numbers need
 * only be finite: a notebook with a senseless finite must still open, so that it can be put
 * right.
 */
import * as v from 'valibot';

const finite = v.pipe(v.number(), v.finite());
const text = v.string();
const id = v.pipe(v.string(), v.minLength(1));
const reference = v.nullable(id);
const list = <T extends v.GenericSchema>(item: T) => v.pipe(v.array(item), v.maxLength(100_000));

const tablet = v.looseObject({
  id,
  name: text,
  densities: list(finite),
  kind: v.picklist(['nominal', 'calibrated']),
  note: text,
});

const film = v.looseObject({ id, name: text, developer: text, note: text });

const strip = v.looseObject({
  id,
  name: text,
  material: v.picklist(['film', 'paper']),
  filmId: reference,
  channel: v.picklist(['visual', 'blue', 'green', 'red', 'ultraviolet']),
  tabletId: reference,
  exposure: v.variant('kind', [
    v.looseObject({ kind: v.literal('relative') }),
    v.looseObject({ kind: v.literal('absolute'), sourceLogExposure: v.nullable(finite) }),
  ]),
  rows: list(
    v.looseObject({
      step: finite,
      logExposure: v.nullable(finite),
      densities: list(v.nullable(finite)),
    }),
  ),
  unexposedDensities: list(finite),
  development: v.nullable(v.looseObject({ minutes: finite, celsius: finite })),
  treatment: v.nullable(
    v.looseObject({
      process: v.picklist(['selenium']),
      partsWater: finite,
      minutes: finite,
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
    v.looseObject({ kind: v.literal('iso-range'), isoRange: finite }),
    v.looseObject({ kind: v.literal('grade-table'), tableId: id, band: finite }),
  ]),
  note: text,
});

const negative = v.looseObject({
  id,
  name: text,
  filmId: reference,
  stripId: reference,
  baseFog: v.nullable(finite),
  densityRange: v.optional(v.nullable(finite)),
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
  process: v.picklist(['selenium']),
  mixedOn: v.nullable(text),
  volumeMillilitres: finite,
  partsWater: finite,
  seleniumGramsPerLitre: v.nullable(finite),
  films: list(
    v.looseObject({
      id,
      name: text,
      day: v.nullable(text),
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
  callierFactor: finite,
  process: v.picklist(['selenium']),
  partsWater: finite,
  minutes: finite,
  celsius: finite,
  stain: finite,
  stainKept: finite,
});

/** The document of schema version 2. */
export const documentSchema = v.looseObject({
  title: text,
  note: text,
  invented: v.boolean(),
  tablets: list(tablet),
  films: list(film),
  strips: list(strip),
  papers: list(paper),
  negatives: list(negative),
  baths: list(bath),
  plan,
});

const parts = { tablet, film, strip, paper, negative, bath, plan, document: documentSchema };

/** The parts of a notebook that can be checked by themselves. */
export type CheckedPart = keyof typeof parts;

/** The first fault of a document or of a part of it, in words, or null where it is sound. */
export function firstFault(
  value: unknown,
  part: CheckedPart = 'document',
): { path: string; fault: string } | null {
  const checked = v.safeParse(parts[part], value, { abortEarly: true });
  if (checked.success) return null;
  const [issue] = checked.issues;
  return { path: v.getDotPath(issue) ?? part, fault: faultText(issue) };
}

function faultText(issue: v.BaseIssue<unknown>): string {
  const expected = issue.expected ?? 'something else';
  return `${expected} is expected here, ${issue.received} was found`;
}

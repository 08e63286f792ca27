/**
 * From version 2 to 3: developers become entries of their own, and the plans of development and
 * printing, the prints and the diary begin. The values given to what version 2 did not know are
 * written out here, so that a later change of the defaults does not change what old files become.
 */

type Plain = Readonly<Record<string, unknown>>;

const PLAN = {
  targetKind: 'grade',
  targetGrade: 2,
  targetRange: null,
  curveFamily: 'toe-shoulder',
  clearBaseDensity: null,
  held: {
    maximumGain: null,
    halfDose: null,
    concentrationExponent: null,
    temperatureCoefficient: null,
  },
};
const DEVELOPMENT_PLAN = {
  filmId: null,
  measure: 'contrast-index',
  target: null,
  celsius: 20,
  subjectRangeStops: 7,
  flareFactor: 2,
  speedNetDensity: 0.1,
  temperatureCoefficient: null,
  limitStrips: 5,
  chosenMinutes: null,
};
const PRINTING = {
  setting: null,
  magnification: 2,
  baseSeconds: null,
  softSeconds: null,
  hardSeconds: null,
  softAloneSeconds: null,
  hardAloneSeconds: null,
  areas: [],
  shadowPrintDensity: null,
  highlightPrintDensity: null,
  cameraFlareFactor: null,
  enlargerFlare: 0,
};

/** @param document - plain data of version 2, of unknown soundness: what is not as it should be is left */
export function toVersion3(document: unknown): unknown {
  if (!isPlain(document)) return document;
  const developers = new Map<string, { id: string; name: string; note: string }>();
  const films = eachOf(document['films'], ({ developer, ...film }) => ({
    ...film,
    developerId: developerId(developer, developers),
  }));
  return {
    ...document,
    films,
    developers: [...developers.values()],
    strips: eachOf(document['strips'], (strip) => ({
      ...strip,
      processedOn: null,
      control: false,
    })),
    papers: eachOf(document['papers'], (paper) => ({
      ...paper,
      dryDownPercent: null,
      safelightMinutes: null,
    })),
    prints: [],
    notes: [],
    plan: isPlain(document['plan']) ? { ...document['plan'], ...PLAN } : document['plan'],
    developmentPlan: DEVELOPMENT_PLAN,
    printing: PRINTING,
  };
}

/** One entry for each text that is not blank; films with the same text share it. */
function developerId(
  text: unknown,
  developers: Map<string, { id: string; name: string; note: string }>,
): string | null {
  if (typeof text !== 'string' || text.trim() === '') return null;
  const name = text.trim();
  const id = developers.get(name)?.id ?? `developer-${developers.size + 1}`;
  developers.set(name, { id, name, note: '' });
  return id;
}

function eachOf(list: unknown, change: (entry: Plain) => Plain): unknown {
  if (!Array.isArray(list)) return list;
  return list.map((entry: unknown) => (isPlain(entry) ? change(entry) : entry));
}

function isPlain(value: unknown): value is Plain {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

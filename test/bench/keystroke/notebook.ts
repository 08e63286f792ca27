/** The notebook that is typed into: as many strips and steps as a year of work. */

export const STRIPS = 12;
export const STEPS = 31;

const softplus = (z: number): number => Math.log1p(Math.exp(z));

/** A notebook like a year's work: strips of many shapes, three of them toned. */
export function benchNotebook(): string {
  const strips = Array.from({ length: STRIPS }, (_, strip) => ({
    id: `s${strip}`,
    name: `strip ${strip + 1}`,
    material: 'film',
    filmId: null,
    channel: 'visual',
    tabletId: 'nominal-31',
    exposure: { kind: 'absolute', sourceLogExposure: 0.3 },
    rows: Array.from({ length: STEPS }, (_row, step) => {
      const x = 0.25 - 0.1 * step;
      const slope = 0.4 + 0.03 * strip;
      const net = slope * (0.22 * softplus((x + 2.1) / 0.22) - 0.3 * softplus((x + 0.1) / 0.3));
      const noise = 0.006 * Math.sin(12.9898 * step + 78.233 * strip);
      const gain = strip > 8 ? 1.05 + 0.04 * (strip - 8) : 1;
      const density = Math.round((0.14 + gain * net + noise) * 1000) / 1000;
      return { step: step + 1, logExposure: null, densities: [density, density + 0.004] };
    }),
    unexposedDensities: [0.14, 0.15],
    development: { minutes: 4 + strip, celsius: 20 },
    treatment:
      strip > 8
        ? {
            process: 'selenium',
            partsWater: 1,
            minutes: strip - 7,
            celsius: 20,
            untreatedStripId: `s${strip - 3}`,
          }
        : null,
    note: '',
  }));
  const negative = {
    id: 'n',
    name: 'test negative',
    filmId: null,
    stripId: 's4',
    baseFog: null,
    spots: [
      { id: 'a', name: 'shadow', density: 0.35, role: 'shadow' },
      { id: 'b', name: 'highlight', density: 1.1, role: 'highlight' },
    ],
    note: '',
  };
  const plan = {
    negativeId: 'n',
    paperId: null,
    gradeTableId: 'ansi-1966',
    callierFactor: 1,
    process: 'selenium',
    partsWater: 1,
    minutes: 6.5,
    celsius: 20,
    stain: 0,
    stainKept: 1,
  };
  const document = {
    title: 'Bench',
    note: '',
    invented: true,
    tablets: [],
    films: [],
    strips,
    papers: [],
    negatives: [negative],
    plan,
  };
  return JSON.stringify({ format: 'wedgebook-notebook', schemaVersion: 1, document });
}

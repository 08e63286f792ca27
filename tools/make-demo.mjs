/**
 * Makes the demonstration data: every reading in it is invented, and the files say so.
 *
 *   node tools/make-demo.mjs            writes data/demo
 *   node tools/make-demo.mjs --check    tells whether data/demo is what it would write
 *
 * The truth behind the readings, and the noise added to it, are stated here, so that anyone can see
 * how well the fits find it. None of this serves as a check of the program. The same seed gives the
 * same files to the byte.
 *
 *   film       D = b + g wt ln(1 + exp((x - xt)/wt)) - g ws ln(1 + exp((x - xs)/ws))
 *   layers     D = 0.06 + 2.04 / 3 sum_i 1 / (1 + exp(-9.5 log10 E_i)), E_i of soft and hard light
 *   contrast   g(t) = 1.10 (1 - exp(-0.095 (t - 0.6))), t in minutes at 20 degrees
 *   control    the film at 8 min in a developer of activity 1 at first, 0.86 in the end
 *   paper      D = 0.06 + 2.02 / (1 + exp(-5.6 (x + 1.35)))
 *   selenium   k = 1 + 0.215 (1 - 2^(-E / 0.62)), E = t / (1 + n) 2^((T - 20)/10), v = k u
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { format } from 'prettier';

const FOLDER = new URL('../data/demo/', import.meta.url);
const INVENTED =
  'Invented readings for demonstration: a small ferry and its wooden landing stage in river fog, on sheet film. No measurement of any real material.';

/** Seeded uniform numbers (a 32-bit mix of a counter). */
let counter = 20260501;
function uniform() {
  counter = (counter + 0x6d2b79f5) | 0;
  let t = Math.imul(counter ^ (counter >>> 15), 1 | counter);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
}
const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
const round = (value, decimals) => Number(value.toFixed(decimals));
/** A densitometer of standard deviation 0.008 that shows two decimals. */
const reading = (density) => round(density + 0.008 * normal(), 2);

const softplus = (z) => Math.log1p(Math.exp(z));
const contrast = (minutes) => 1.1 * (1 - Math.exp(-0.095 * (minutes - 0.6)));
const fog = (minutes) => 0.1 + 0.004 * minutes;
const netFilm = (x, minutes) => {
  const g = contrast(minutes);
  const toe = -2.02 - 0.015 * (minutes - 8);
  return g * 0.24 * softplus((x - toe) / 0.24) - g * 0.3 * softplus((x - 0.45) / 0.3);
};
const paperDensity = (x) => 0.06 + 2.02 / (1 + Math.exp(-5.6 * (x + 1.35)));
const gain = ({ partsWater, minutes, celsius }) => {
  const dose = (minutes / (1 + partsWater)) * 2 ** ((celsius - 20) / 10);
  return 1 + 0.215 * (1 - 2 ** (-dose / 0.62));
};

/** The user's own tablet: 21 steps near 0.15, as a certificate would give them. */
const tablet = Array.from({ length: 21 }, (_, n) =>
  round(0.05 + 0.15 * n + 0.006 * Math.sin(1.7 * n) + 0.0006 * n, 3),
);
/** log10 of the lux-seconds that fall on the tablet. */
const SOURCE = 0.4;

const filmRows = (minutes, factor, replicates, unreadSteps = []) =>
  tablet.map((density, index) => ({
    step: index + 1,
    logExposure: null,
    densities: Array.from({ length: replicates }, () =>
      unreadSteps.includes(index + 1)
        ? null
        : reading(fog(minutes) + factor * netFilm(SOURCE - density, minutes)),
    ),
  }));
const unexposed = (minutes) => [reading(fog(minutes)), reading(fog(minutes))];

const filmStrip = (id, name, minutes, more = {}) => ({
  id,
  name,
  material: 'film',
  filmId: 'film-1',
  channel: 'visual',
  tabletId: 'tablet-1',
  exposure: { kind: 'absolute', sourceLogExposure: SOURCE },
  rows: filmRows(minutes, more.factor ?? 1, more.replicates ?? 1, more.unread),
  unexposedDensities: unexposed(minutes),
  development: { minutes, celsius: 20 },
  processedOn: more.day ?? '2026-11-10',
  control: false,
  treatment: more.treatment ?? null,
  note: more.note ?? '',
});

const TIMES = [4, 6, 8, 11, 15];
const family = TIMES.map((minutes) =>
  filmStrip(`strip-${minutes}`, `${minutes} min`, minutes, {
    replicates: minutes === 8 ? 2 : 1,
    unread: minutes === 11 ? [21] : [],
    note: minutes === 11 ? 'Step 21 has a scratch and was not read.' : '',
  }),
);

const UNTREATED = filmStrip('toning-0', 'test', 8, {
  replicates: 2,
  note: 'Cut from the sheet that gave the toned pieces.',
});
const BATHS = [
  ['toning-1', 'test 1+9', { partsWater: 9, minutes: 6, celsius: 20 }],
  ['toning-2', 'test 1+3 short', { partsWater: 3, minutes: 2, celsius: 20 }],
  ['toning-3', 'test 1+3', { partsWater: 3, minutes: 6, celsius: 20 }],
  ['toning-4', 'test 1+3 warm', { partsWater: 3, minutes: 4, celsius: 25 }],
  ['toning-5', 'test 1+1 short', { partsWater: 1, minutes: 2, celsius: 20 }],
  ['toning-6', 'test 1+1', { partsWater: 1, minutes: 6.5, celsius: 20 }],
];
const toned = BATHS.map(([id, name, bath]) =>
  filmStrip(id, name, 8, {
    factor: gain(bath),
    day: '2026-11-14',
    treatment: { process: 'selenium', ...bath, untreatedStripId: UNTREATED.id },
  }),
);

/** The same wedge, 8 min, over the months: the developer is near its end in the last three. */
const CONTROL_DAYS = [
  ['2026-02-14', 1],
  ['2026-03-07', 1.01],
  ['2026-04-02', 0.99],
  ['2026-05-09', 1.005],
  ['2026-06-13', 0.995],
  ['2026-07-18', 1],
  ['2026-09-05', 0.96],
  ['2026-10-03', 0.91],
  ['2026-10-31', 0.86],
];
const ownSeed = counter;
counter = 20260214;
const control = CONTROL_DAYS.map(([day, activity], index) => ({
  ...filmStrip(`control-${index + 1}`, `control ${index + 1}`, 8 * activity, { day }),
  development: { minutes: 8, celsius: 20 },
  control: true,
})).map((strip) => ({ ...strip, rows: strip.rows.filter((_, index) => index % 2 === 0) }));
counter = ownSeed;

const paperStrip = {
  id: 'paper-strip',
  name: 'paper strip',
  material: 'paper',
  filmId: null,
  channel: 'visual',
  tabletId: 'tablet-1',
  exposure: { kind: 'relative' },
  rows: tablet.map((density, index) => ({
    step: index + 1,
    logExposure: null,
    densities: [reading(paperDensity(-density))],
  })),
  unexposedDensities: [reading(0.06), reading(0.06)],
  development: { minutes: 2, celsius: 20 },
  processedOn: '2026-11-12',
  control: false,
  treatment: null,
  note: 'Contact print of the tablet, dried before reading.',
};

const negative = (id, name, spots, note) => ({
  id,
  name,
  filmId: 'film-1',
  stripId: 'strip-8',
  baseFog: 0.13,
  spots: spots.map(([spot, density, role], index) => ({
    id: `${id}-${index + 1}`,
    name: spot,
    density,
    role,
  })),
  note,
});

const document = {
  title: 'Ferry and landing stage in river fog',
  note: INVENTED,
  invented: true,
  tablets: [
    {
      id: 'tablet-1',
      name: '21 steps, calibrated',
      densities: tablet,
      kind: 'calibrated',
      note: 'Invented calibration.',
    },
  ],
  developers: [
    {
      id: 'developer-1',
      name: 'Metol-hydroquinone, 1+1, tray',
      note: 'Fresh for every sheet; rocked all the time.',
    },
  ],
  films: [
    {
      id: 'film-1',
      name: 'Sheet film, 9 x 12 cm',
      developerId: 'developer-1',
      note: 'Invented material.',
    },
  ],
  strips: [...family, UNTREATED, ...toned, paperStrip, ...control],
  papers: [
    {
      id: 'paper-own',
      name: 'Graded paper, own strip',
      source: { kind: 'strip', stripId: paperStrip.id },
      dryDownPercent: 8,
      safelightMinutes: 5,
      note: '',
    },
    {
      id: 'paper-hard',
      name: 'The same, one grade harder',
      source: { kind: 'iso-range', isoRange: 90 },
      dryDownPercent: null,
      safelightMinutes: null,
      note: 'From the box: R 90.',
    },
    {
      id: 'paper-table',
      name: 'Any paper of grade 3',
      source: { kind: 'grade-table', tableId: 'ansi-1966', band: 3 },
      dryDownPercent: null,
      safelightMinutes: null,
      note: '',
    },
  ],
  negatives: [
    negative(
      'negative-1',
      'Ferry coming in, first light',
      [
        ['tarred hull', 0.38, 'shadow'],
        ['wheelhouse wall', 0.71, 'other'],
        ['fog over the water', 1.12, 'highlight'],
      ],
      'Flat: it asks for grade 4.',
    ),
    negative(
      'negative-2',
      'Landing stage, bare piles',
      [
        ['underside of the planks', 0.33, 'shadow'],
        ['wet handrail', 0.9, 'other'],
        ['bright fog behind', 1.37, 'highlight'],
      ],
      'A negative for grade 2 as it is.',
    ),
    negative(
      'negative-3',
      'Gangway with lamp',
      [
        ['coil of rope', 0.3, 'shadow'],
        ['planks by the lamp', 1.18, 'other'],
        ['lamp in the fog', 1.78, 'highlight'],
      ],
      'Harsh: a bath would make it harsher.',
    ),
  ],
  baths: [
    {
      id: 'bath-1',
      name: 'Tray of the test wedges',
      process: 'selenium',
      mixedOn: '2026-11-14',
      volumeMillilitres: 1000,
      partsWater: 1,
      seleniumGramsPerLitre: 40,
      films: [
        {
          id: 'bath-1-wedges',
          name: 'Six test wedges',
          day: '2026-11-14',
          areaSquareCentimetres: 120,
          meanNetDensity: 0.7,
        },
        {
          id: 'bath-1-sheets',
          name: 'Four sheets, 4 × 5 in',
          day: '2026-11-15',
          areaSquareCentimetres: 516,
          meanNetDensity: 0.5,
        },
      ],
      note: 'Invented, the strength of the concentrate too: take yours from its safety data sheet.',
    },
  ],
  prints: [
    {
      id: 'print-1',
      name: 'Ferry coming in, first proof',
      day: '2026-11-13',
      negativeId: 'negative-1',
      paperId: 'paper-own',
      setting: null,
      seconds: 14,
      softSeconds: null,
      hardSeconds: null,
      magnification: 2,
      note: 'Flat: the fog is grey and the hull is not black.',
    },
  ],
  notes: [
    {
      id: 'note-1',
      day: '2026-11-14',
      text: 'Six test wedges toned at three dilutions, all from one sheet.',
    },
  ],
  plan: {
    negativeId: 'negative-1',
    paperId: 'paper-hard',
    gradeTableId: 'ansi-1966',
    targetKind: 'grade',
    targetGrade: 3,
    targetRange: null,
    curveFamily: 'toe-shoulder',
    callierFactor: 1,
    process: 'selenium',
    partsWater: 1,
    minutes: 6.5,
    celsius: 20,
    stain: 0,
    stainKept: 1,
    clearBaseDensity: null,
    held: {
      maximumGain: null,
      halfDose: null,
      concentrationExponent: null,
      temperatureCoefficient: null,
    },
  },
  developmentPlan: {
    filmId: 'film-1',
    measure: 'contrast-index',
    target: null,
    celsius: 20,
    subjectRangeStops: 7,
    flareFactor: 2,
    speedNetDensity: 0.1,
    temperatureCoefficient: null,
    limitStrips: 5,
    chosenMinutes: null,
  },
  printing: {
    setting: null,
    magnification: 2,
    baseSeconds: 14,
    softSeconds: null,
    hardSeconds: null,
    softAloneSeconds: null,
    hardAloneSeconds: null,
    areas: [],
    shadowPrintDensity: null,
    highlightPrintDensity: null,
    cameraFlareFactor: null,
    enlargerFlare: 0,
  },
};

const csv = (columns, rows, delimiter = ',') =>
  [`# ${INVENTED}`, columns.join(delimiter), ...rows.map((row) => row.join(delimiter))]
    .map((line) => `${line}\n`)
    .join('');
const empty = (value) => value ?? '';
const spread = (strip, cells) => [
  ...strip.rows.flatMap((row) => row.densities.map((density) => cells(row, empty(density)))),
  ...strip.unexposedDensities.map((density) => cells(null, density)),
];

const filmCsv = csv(
  ['strip', 'material', 'step', 'log_exposure', 'density', 'minutes', 'celsius'],
  family.flatMap((strip) =>
    spread(strip, (row, density) => [
      strip.name,
      'film',
      row === null ? '' : row.step,
      row === null ? '' : round(SOURCE - tablet[row.step - 1], 3),
      density,
      strip.development.minutes,
      strip.development.celsius,
    ]),
  ),
);
const treatmentCsv = csv(
  [
    'strip',
    'step',
    'tablet_density',
    'density',
    'treatment',
    'parts_water',
    'bath_minutes',
    'bath_celsius',
  ],
  [UNTREATED, ...toned].flatMap((strip) =>
    spread(strip, (row, density) => [
      strip.name,
      row === null ? '' : row.step,
      row === null ? '' : tablet[row.step - 1],
      density,
      strip.treatment?.process ?? 'none',
      empty(strip.treatment?.partsWater),
      empty(strip.treatment?.minutes),
      empty(strip.treatment?.celsius),
    ]),
  ),
);
const decimalComma = (value) => String(value).replace('.', ',');
const paperCsv = csv(
  ['strip', 'material', 'step', 'tablet_density', 'density'],
  spread(paperStrip, (row, density) => [
    paperStrip.name,
    'paper',
    row === null ? '' : row.step,
    row === null ? '' : decimalComma(tablet[row.step - 1]),
    decimalComma(density),
  ]),
  ';',
);
const doses = [0.25, 0.5, 0.75, 1, 1.5, 2, 3, 4];
const gainCsv = csv(
  ['dose', 'gain_less_one'],
  doses.map((dose) => [dose, round(0.215 * (1 - 2 ** (-dose / 0.62)) + 0.004 * normal(), 3)]),
);

/** A variable-contrast paper at three filter settings: made last, so that no reading before changes. */
const SOFT_SPEEDS = [-0.13, -0.62, -1.11];
const HARD_SPEED = -0.2;
const layersDensity = (density, soft, hard) =>
  0.06 +
  SOFT_SPEEDS.reduce((sum, speed) => {
    const light = (soft * 10 ** speed + hard * 10 ** HARD_SPEED) * 10 ** -density;
    return sum + 2.04 / 3 / (1 + Math.exp(-9.5 * Math.log10(light)));
  }, 0);
const settings = [
  ['00', 100, null],
  ['2', 45, 18],
  ['5', null, 60],
];
const settingStrips = settings.map(([setting, soft, hard]) => ({
  ...paperStrip,
  id: `paper-setting-${setting}`,
  name: `variable-contrast paper, setting ${setting}`,
  rows: tablet.map((density, index) => ({
    step: index + 1,
    logExposure: null,
    densities: [reading(layersDensity(density, soft ?? 0, hard ?? 0))],
  })),
  unexposedDensities: [reading(0.06), reading(0.06)],
  processedOn: '2026-11-20',
}));
document.strips.push(...settingStrips);
document.papers.push({
  id: 'paper-variable',
  name: 'Variable-contrast paper',
  source: {
    kind: 'strips',
    strips: settings.map(([setting, softSeconds, hardSeconds]) => ({
      stripId: `paper-setting-${setting}`,
      setting,
      softSeconds,
      hardSeconds,
    })),
  },
  dryDownPercent: 9,
  safelightMinutes: 5,
  note: 'Strips through the soft and the hard filter, and through both.',
});

const files = {
  'notebook.json': await format(
    JSON.stringify({ format: 'wedgebook-notebook', schemaVersion: 3, document }),
    { parser: 'json', printWidth: 100 },
  ),
  'film-strips.csv': filmCsv,
  'treatment.csv': treatmentCsv,
  'paper.csv': paperCsv,
  'gain-by-dose.csv': gainCsv,
};
const checking = process.argv.includes('--check');
mkdirSync(FOLDER, { recursive: true });
for (const [name, text] of Object.entries(files)) {
  const file = new URL(name, FOLDER);
  if (!checking) {
    writeFileSync(file, text);
    console.log(`data/demo/${name}: ${text.length} characters`);
  } else if (readFileSync(file, 'utf8') !== text) {
    console.error(`data/demo/${name} is not what this script makes`);
    process.exitCode = 1;
  }
}

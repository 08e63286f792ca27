/**
 * Generated files for tests: curves with a stated truth, so that what comes out can be compared
 * with what went in. Log exposures are spelled out, densities rounded to four decimals.
 */
const softplus = (z: number): number => Math.log1p(Math.exp(z));

const rows = (header: string, lines: readonly string[]): string =>
  `${header}\n${lines.join('\n')}\n`;
const steps = Array.from({ length: 21 }, (_, index) => index);

/** The soft-toed curve "B": D = 0.15 + 0.70 x 0.25 ln(1 + exp((x + 2.00)/0.25)), -3.00 to 0.00. */
export const SOFT_TOE = rows(
  'strip,step,log_exposure,density',
  steps.map((index) => {
    const x = -3 + 0.15 * index;
    const density = 0.15 + 0.7 * 0.25 * softplus((x + 2) / 0.25);
    return `B,${index + 1},${x.toFixed(2)},${density.toFixed(4)}`;
  }),
);

/** The logistic paper of ISO range 105: Dn 2.00, k 5.79909, centre 1, threshold to 90 %. */
export const PAPER_105 = rows(
  'strip,material,step,log_exposure,density',
  Array.from({ length: 31 }, (_, index) => {
    const x = 0.0 + 0.07 * index;
    const density = 2 / (1 + Math.exp(-5.79909 * (x - 1)));
    return `P,paper,${index + 1},${x.toFixed(2)},${density.toFixed(4)}`;
  }).concat('P,paper,,,0.0000'),
);

/** Untreated strip, and the same raised by a gain of 1 + 0.2 (1 - exp(-dose / 0.9)). */
export const TREATED = rows(
  'strip,step,tablet_density,density,treatment,parts_water,bath_minutes,bath_celsius',
  [
    ['test', 'none', '', '', '', 1],
    ...[
      [3, 2],
      [3, 5],
      [3, 10],
      [1, 6.5],
      [9, 10],
    ].map(([water = 0, minutes = 0]) => [
      `test 1+${water} ${minutes} min`,
      'selenium',
      water,
      minutes,
      20,
      1 + 0.2 * (1 - Math.exp(-minutes / (1 + water) / 0.9)),
    ]),
  ].flatMap(([name, treatment, water, minutes, celsius, gain]) =>
    steps
      .map((index) => {
        const tablet = 0.05 + 0.15 * index;
        const net = 0.65 * 0.25 * softplus((2.2 - tablet) / 0.25);
        const density = 0.12 + Number(gain) * net;
        return `${name},${index + 1},${tablet.toFixed(2)},${density.toFixed(4)},${treatment},${water},${minutes},${celsius}`;
      })
      .concat(`${name},,,0.1200,${treatment},${water},${minutes},${celsius}`),
  ),
);

import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { ran } from '../memory-io.ts';

/** A film of gamma 0.70 whose straight part starts at log exposure -2.0, read to 0.0001. */
const film = [
  'strip,material,log_exposure,density',
  ...['A', 'B'].flatMap((name) =>
    Array.from({ length: 25 }, (_, i) => -3.2 + 0.15 * i)
      .map((x) => {
        const density = 0.12 + 0.14 * Math.log1p(Math.exp((x + 2) / 0.2));
        return `${name},film,${x.toFixed(2)},${density.toFixed(4)}`;
      })
      .concat(`${name},film,,0.12`),
  ),
].join('\n');
const paper = [
  'strip,material,tablet_density,density,setting',
  ...[
    ['1', 1.3],
    ['2', 1.1],
    ['3', 0.9],
  ].flatMap(([setting, scale]) => {
    const foot = Math.log(0.04 / 1.96);
    const k = (Math.log(9) - foot) / Number(scale);
    return Array.from({ length: 23 }, (_, i) => 0.05 + 0.1 * i)
      .map((tablet) => {
        const density = 0.06 + 2 / (1 + Math.exp(-(k * (1.8 - tablet) + foot)));
        return `s${setting},paper,${tablet.toFixed(2)},${density.toFixed(4)},${setting}`;
      })
      .concat(`s${setting},paper,,0.06,${setting}`);
  }),
].join('\n');
const FILES = { 'f.csv': film, 'p.csv': paper };
const SPOTS = ['--shadow', '0.4', '--highlight', '1.3'];
const FILM = ['print', '--film', 'f.csv', '--film-strip', 'A', ...SPOTS];

interface Estimate {
  readonly value: number;
  readonly standardError: number | null;
}
interface Zone {
  readonly zone: string;
  readonly logLuminance: number;
  readonly logExposure: number;
  readonly negativeDensity: Estimate;
  readonly treatedDensity: number;
  readonly printingDensity: number;
  readonly printDensity: Estimate;
  readonly lightness: Estimate;
  readonly gradients: Readonly<Record<string, number>>;
  readonly toneGradient: number;
}
interface Answer {
  readonly toneChain: {
    readonly paper: { readonly label: string; readonly exposureScale: number };
    readonly baseFog: number;
    readonly prints: readonly { readonly treated: boolean; readonly zones: readonly Zone[] }[];
    readonly cautions?: readonly unknown[];
  };
  readonly setting?: { readonly setting: string } | null;
  readonly warnings: readonly unknown[];
}

async function json(...words: string[]): Promise<Answer> {
  const { exitCode, stdout, stderr } = await ran([...words, '--json'], FILES);
  expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: '' });
  return JSON.parse(stdout) as Answer;
}
const zoneOf = (zones: readonly Zone[] | undefined, name: string): Zone => {
  const found = zones?.find(({ zone }) => zone === name);
  if (found === undefined) throw new Error(`no zone ${name}`);
  return found;
};

describe('print --film', () => {
  it('follows every zone: exposures a stop apart, the shadow on its zone, L* of CIE', async () => {
    const { toneChain } = await json(...FILM, '--paper-scale', '1.1');
    expect(toneChain.paper.label).toBe('scale 1.1 log10');
    const [print] = toneChain.prints;
    expect(toneChain.prints).toHaveLength(1);
    const zones = print?.zones ?? [];
    expect(zones.map(({ zone }) => zone).join(' ')).toBe('0 I II III IV V VI VII VIII IX X');
    // Without flare a zone is a stop on the film: log10 2.
    for (let i = 1; i < zones.length; i++) {
      expectWithin(zones[i]!.logExposure - zones[i - 1]!.logExposure, Math.log10(2), 1e-9);
    }
    expectWithin(zoneOf(zones, 'III').negativeDensity.value, 0.4, 1e-6);
    for (const { printDensity, lightness } of zones) {
      // [CIE15] 116 (Y/Yn)^(1/3) - 16 above (6/29)³, else (29/3)³ Y/Yn
      const y = 10 ** -printDensity.value;
      const expected = y > (6 / 29) ** 3 ? 116 * Math.cbrt(y) - 16 : (29 / 3) ** 3 * y;
      expectWithin(lightness.value, expected, 1e-9);
    }
    for (const { gradients, toneGradient } of zones) {
      const { cameraFlare, film: onFilm, treatment, light, enlargerFlare, paper: on } = gradients;
      const product = cameraFlare! * onFilm! * treatment! * light! * enlargerFlare! * on!;
      expectWithin(toneGradient, product, 1e-12);
    }
  });

  it('prints the logistic paper where arithmetic puts it, and states errors', async () => {
    const { toneChain } = await json(...FILM, '--paper-scale', '1.1');
    const five = zoneOf(toneChain.prints[0]?.zones, 'V');
    // The highlight of 1.3 prints net 0.04; zone V gets 10^(1.3 - D) times its exposure.
    const foot = Math.log(0.04 / 1.96);
    const k = (Math.log(9) - foot) / 1.1;
    const above = 1.3 - five.negativeDensity.value;
    expectWithin(five.printDensity.value, 0.06 + 2 / (1 + Math.exp(-(k * above + foot))), 1e-6);
    expect(five.negativeDensity.standardError).toBeGreaterThan(0);
    expect(five.printDensity.standardError).toBeGreaterThan(0);
    expectWithin(zoneOf(toneChain.prints[0]?.zones, 'III').negativeDensity.standardError!, 0, 1e-9);
  });

  it('takes the setting of the paper and shows the negative after a bath, with its cautions', async () => {
    const answer = await json(
      ...FILM,
      ...['--paper', 'p.csv', '--minutes', '6', '--dilution', '1+3', '--print-shadow', '1.7'],
    );
    const { toneChain, setting } = answer;
    expect(toneChain.paper.label).toBe(setting?.setting);
    expect(toneChain.prints.map(({ treated }) => treated)).toEqual([false, true]);
    const [before, after] = toneChain.prints.map(({ zones }) => zoneOf(zones, 'VII'));
    expect(after!.treatedDensity).toBeGreaterThan(before!.treatedDensity);
    expect(toneChain.cautions?.length).toBeGreaterThan(0);
    const text = await ran([...FILM, '--grade', '3', '--minutes', '6', '--dilution', '1+3'], FILES);
    expect(text.stdout).toMatch(/after the bath[^]*VIII[^]*selenium/i);
  });

  it('leaves the stain in the bath unless a share is named, as treat does', async () => {
    const bath = ['--stain', '0.375', '--minutes', '6.5', '--dilution', '1+1'];
    const rangeOf = (answer: Answer, print: number) => {
      const zones = answer.toneChain.prints[print]?.zones;
      const of = (zone: string) => zoneOf(zones, zone).treatedDensity;
      return of('VIII') - of('III');
    };
    const planned = await ran(['treat', '--range', '0.9', ...bath, '--json'], FILES);
    const { plan } = JSON.parse(planned.stdout) as {
      plan: { gain: Estimate; after: { printingRange: Estimate } };
    };
    const answer = await json(...FILM, ...bath);
    const gain = rangeOf(answer, 1) / rangeOf(answer, 0);
    // (k + s) / (1 + s), silver alone being intensified (derived).
    expectWithin(gain, (plan.gain.value + 0.375) / 1.375, 1e-9);
    expectWithin(gain, plan.after.printingRange.value / 0.9, 1e-9);
    expect(answer.warnings).toContainEqual(expect.objectContaining({ code: 'stain-may-be-lost' }));
    const lost = await json(...FILM, ...bath, '--stain-kept', '0');
    expectWithin(rangeOf(lost, 1) / rangeOf(lost, 0), plan.gain.value / 1.375, 1e-9);
  });

  it('lowers shadow contrast by flare, most where the subject is darkest', async () => {
    const plain = await json(...FILM);
    const flared = await json(...FILM, '--camera-flare', '4', '--enlarger-flare', '1');
    const gradient = (answer: Answer, zone: string, name: string) =>
      zoneOf(answer.toneChain.prints[0]?.zones, zone).gradients[name]!;
    expect(gradient(plain, 'I', 'cameraFlare')).toBe(1);
    expect(gradient(flared, 'I', 'cameraFlare')).toBeLessThan(gradient(flared, 'V', 'cameraFlare'));
    expect(gradient(flared, 'VIII', 'enlargerFlare')).toBeLessThan(1);
  });

  it.each([
    [['print', '--film', 'f.csv', ...SPOTS], 2, 'several strips'],
    [['print', '--film', 'f.csv', '--film-strip', 'C', ...SPOTS], 2, 'is not there'],
    [['print', '--film', 'f.csv', '--film-strip', 'A'], 2, '--shadow D and --highlight D'],
    [[...FILM, '--grade', '9'], 2, 'is outside the table'],
    [[...FILM, '--grade', '2', '--paper-scale', '1'], 2, 'one of --paper'],
    [[...FILM, '--dilution', '1+3'], 2, 'needs --minutes'],
    [[...FILM, '--stain', '0.3', '--dilution', '1+3'], 2, 'needs --minutes'],
    [
      [...FILM, '--minutes', '6', '--dilution', '1+3', '--stain-kept', '0'],
      2,
      '--stain; give both',
    ],
    [[...FILM, '--stain-kept', '0'], 2, '--stain; give both'],
    [[...FILM, '--camera-flare', '16', '--subject-range', '3'], 2, 'leaves fewer'],
    [['print', '--seconds', '10', '--shadow-zone', '3'], 2, 'needs --film'],
    [[...FILM.slice(0, 5), '--shadow', '1.3', '--highlight', '0.4'], 1, 'thinner than the shadow'],
    [[...FILM.slice(0, 5), '--shadow', '0.02', '--highlight', '1.3'], 1, 'does not reach'],
    [[...FILM, '--print-highlight', '2.5'], 1, 'lies outside this paper'],
  ])('says what is wrong: %j', async (words, code, fault) => {
    const { exitCode, stdout, stderr } = await ran(words, FILES);
    expect({ exitCode, stdout }).toEqual({ exitCode: code, stdout: '' });
    expect(stderr).toContain(fault);
    expect(stderr.trimEnd()).not.toContain('\n');
  });
});

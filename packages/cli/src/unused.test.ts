import { describe, expect, it } from 'vitest';
import { ran } from './memory-io.ts';
import { PAPER_105, SOFT_TOE, TREATED } from './verbs/sample-files.ts';
import { strips } from './verbs/times-strips.ts';

const FILES = {
  'f.csv': SOFT_TOE,
  't.csv': TREATED,
  'p.csv': PAPER_105,
  'm.csv': strips([3, 5, 8, 12]),
};
const SPOTS = ['--shadow', '0.3', '--highlight', '0.9'];
const FILM = ['print', '--film', 'f.csv', ...SPOTS];

/** The sentences about options in JSON. */
async function unused(words: readonly string[]): Promise<readonly string[]> {
  const { exitCode, stdout, stderr } = await ran([...words, '--json'], FILES);
  expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: '' });
  const { warnings } = JSON.parse(stdout) as { warnings: { code: string; message: string }[] };
  return warnings.filter(({ code }) => code === 'option-unused').map(({ message }) => message);
}

describe('options that nothing is made of', () => {
  it.each<[readonly string[], RegExp]>([
    [['times', 'm.csv', '--dilution', '1+3'], /^--dilution was not used.* Give --bath/],
    [['times', 'm.csv', '--bath-gain', '1.2', '--bath-celsius', '24'], /^--bath-celsius was not/],
    [['times', 'm.csv', '--callier', '1.2'], /^--callier was not used, for no paper is named/],
    [['match', '--range', '1', '--density-basis', 'gross'], /^--density-basis was .* --paper FILE/],
    [['match', '--range', '1', '--model', 'logistic-4'], /^--model was not used/],
    [
      ['treat', '--range', '0.7', '--minutes', '5', '--dilution', '1+1', '--tablet', 'nominal-21'],
      /^--tablet was not used, for no file of strips is read/,
    ],
    [['print', '--seconds', '12', '--step', '1/2'], /^--step was not used.* Give --test-strip N/],
    [['print', '--seconds', '12', '--timer', '1'], /^--timer was .* --paper FILE or --film FILE/],
    [['print', '--seconds', '12', '--range', '1'], /^--range was .*: print takes .* --shadow D/],
    [[...FILM, '--seconds', '12', '--burn', '1'], /^--seconds, --burn were not used beside strips/],
    [[...FILM, '--timer', '1'], /^--timer was not used, for no paper is read/],
    [[...FILM, '--law', 'power'], /^--law was not used.* Give --treated FILE/],
    [['convert', 'f.csv', '--to', 'cgats', '--separator', 'tab'], /^--separator was .* --to csv/],
    [['convert', 'f.csv', '--to', 'csv', '--title', 'A'], /^--title was .* --to json/],
  ])('are named: %j', async (words, sentence) => {
    const told = await unused(words);
    expect(told).toHaveLength(1);
    expect(told[0]).toMatch(sentence);
  });

  it.each<[readonly string[]]>([
    [['times', 'm.csv', '--bath', '--dilution', '1+3', '--scale', '1', '--callier', '1.2']],
    [['match', '--range', '1', '--paper', 'p.csv', '--density-basis', 'gross']],
    [['print', '--seconds', '12', '--test-strip', '5', '--step', '1/2', '--burn', '1']],
    [[...FILM, '--callier', '1.2', '--base-fog', '0.15', '--model', 'toe-shoulder']],
    [['convert', 'f.csv', '--to', 'csv', '--separator', 'tab']],
    [['convert', 'f.csv', '--to', 'json', '--title', 'A']],
  ])('are not named where they are used: %j', async (words) => {
    expect(await unused(words)).toEqual([]);
  });

  it('are told in tables too', async () => {
    const { stdout } = await ran(['print', '--seconds', '12', '--step', '1/2'], FILES);
    expect(stdout).toMatch(/time now +12\.00 s *\n +! --step was not used/);
    const timed = await ran(['times', 'm.csv', '--dilution', '1+3'], FILES);
    expect(timed.stdout).toMatch(/^! --dilution was not used/m);
  });
});

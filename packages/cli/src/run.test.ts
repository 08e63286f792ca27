import { describe, expect, it } from 'vitest';
import { ran } from './memory-io.ts';
import { VERBS, type VerbName } from './run.ts';
import { HELP } from './help-text.ts';

const names = Object.keys(VERBS) as VerbName[];

describe('the command', () => {
  it('tells its version and its verbs', async () => {
    expect(await ran(['--version'])).toMatchObject({ exitCode: 0, stdout: 'wedgebook 0.1.0\n' });
    for (const words of [['--help'], ['-h'], ['help']]) {
      const { exitCode, stdout, stderr } = await ran(words);
      expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: '' });
      for (const verb of ['film', 'paper', 'match', 'treat', 'fit', 'plot']) {
        expect(stdout).toContain(`wedgebook ${verb}`);
      }
    }
  });

  it.each(names)('%s --help names every option of the verb', async (name) => {
    const { exitCode, stdout } = await ran([name, '--help']);
    expect(exitCode).toBe(0);
    expect(stdout).toBe(HELP[name]);
    for (const option of Object.keys(VERBS[name].options)) {
      const spelling = option === 'output' ? '-o' : `--${option}`;
      expect(stdout.replaceAll('--x, --y', '--x --y'), option).toContain(spelling);
    }
  });

  it.each<[string, string[], RegExp]>([
    ['no verb', [], /no verb was given/],
    ['an unknown verb', ['develop'], /"develop" is no verb/],
    ['help for an unknown verb', ['help', 'develop'], /"develop" is no verb/],
    ['a verb of every object', ['toString'], /"toString" is no verb/],
    ['no file', ['paper'], /one FILE is needed/],
    ['two files', ['paper', 'a', 'b'], /one FILE is needed/],
    ['an unknown option', ['film', 'a', '--colour'], /there is no option --colour here/],
    [
      'a slip in an option',
      ['film', 'a', '--modle', 'x'],
      /option --modle here; --model was probably meant\./,
    ],
    ['capitals', ['film', 'a', '--Json'], /--json was probably meant/],
    ['an option before the verb', ['--json', 'film'], /the verb comes first, --json after it/],
    ['an empty name', ['film', ''], /a FILE has an empty name/],
    ['an empty value', ['plot', 'a', '-o', ''], /-o needs a value/],
    ['a comma', ['match', '--range', '0,87'], /not "0,87"; write 0\.87, with a decimal point/],
    [
      'Fahrenheit',
      ['times', 'a', '--celsius', '68'],
      /68 is outside 0 to 60; if that is °F, write 20/,
    ],
    ['an ISO range', ['match', '--range', '87'], /if that is an ISO range R, write 0\.87/],
    [
      'a clock',
      ['treat', '--range', '1', '--minutes', '6:30', '--dilution', '1+1'],
      /write 6\.5 for/,
    ],
    ['an option without its value', ['film', 'a', '--model'], /: --model needs a value\. See/],
    [
      'an option with another option for its value',
      ['print', '--seconds', '--json'],
      /: --seconds needs a value\. See/,
    ],
    ['a short option without its value', ['plot', 'a', '-o'], /: -o, --output needs a value/],
    ['a flag with a value', ['film', 'a', '--json=yes'], /--json' does not take an argument/],
    ['an option twice', ['match', '--range', '1', '--range', '1.2'], /--range is given twice/],
    ['an unknown model', ['film', 'a', '--model', 'cubic'], /--model cubic is not known/],
    ['an unknown tablet', ['film', 'a', '--tablet', 'x'], /--tablet x is not known/],
    ['text for a number', ['match', '--range', '0,74'], /--range takes a number/],
    ['nothing for a number', ['match', '--range', ''], /--range needs a value/],
    ['infinity for a number', ['match', '--range', 'Infinity'], /--range takes a number/],
    ['a range below nothing', ['match', '--range', '-1'], /--range -1 is outside/],
    ['no negative', ['match'], /the negative is needed/],
    ['half a negative', ['match', '--shadow', '0.3'], /either --range DR, or both/],
    ['a negative twice', ['match', '--range', '1', '--shadow', '0.3'], /either --range DR/],
    ['two equal spots', ['match', '--shadow', '1', '--highlight', '1'], /same density/],
    [
      'a file for match',
      ['match', 'a', '--range', '1'],
      /"a" stands alone: this verb takes no FILE; strips are given by --paper FILE/,
    ],
    [
      'an error without its factor',
      ['match', '--range', '1', '--callier-error', '0.1'],
      /give both/,
    ],
    ['a Callier factor of 3', ['match', '--range', '1', '--callier', '3'], /outside 1 to 2/],
    ['nothing to treat', ['treat'], /give FILE with treated strips/],
    ['no target', ['treat', '--range', '1', '--dilution', '1+1'], /what is wanted/],
    ['no dilution', ['treat', '--range', '1', '--to-grade', '3'], /--dilution is needed/],
    ['no negative to treat', ['treat', '--to-grade', '3'], /the negative is needed/],
    [
      'an unclear dilution',
      ['treat', '--range', '1', '--to-grade', '3', '--dilution', '1:3'],
      /--dilution 1:3 is not clear/,
    ],
    [
      'two targets',
      ['treat', '--range', '1', '--to-grade', '3', '--minutes', '5', '--dilution', '1+3'],
      /only one of/,
    ],
    [
      'a grade that the table does not have',
      ['treat', '--range', '1', '--to-grade', '7', '--dilution', '1+3'],
      /grades 0, 1, 2, 3, 4, 5/,
    ],
    ['no model', ['fit', 'a', '--x', 'x', '--y', 'y'], /--model is needed: straight-line/],
    ['no columns', ['fit', 'a', '--model', 'straight-line'], /--x COLUMN and --y COLUMN/],
    [
      'a start of another length',
      ['fit', 'a', '--model', 'straight-line', '--x', 'x', '--y', 'y', '--start', '1'],
      /--start has 1 values, the model needs 2: intercept, slope/,
    ],
    ['no output', ['plot', 'a'], /-o chart.svg is needed/],
    ['the input as output', ['plot', 'a', '-o', 'a'], /the output cannot be the input/],
    ['nothing to print', ['print'], /--seconds is needed/],
    [
      'half a pair',
      ['print', '--seconds', '9', '--to-density', '1'],
      /both --from-density and --to/,
    ],
    ['half a strip', ['print', '--seconds', '9', '--test-strip', '2.5'], /takes a whole number/],
    ['a flash without a scale', ['print', '--flash', '0.5'], /both --flash F and --scale S/],
    [
      'a fraction of nothing',
      ['print', '--seconds', '9', '--stops', '1/0'],
      /--stops takes a number/,
    ],
  ])('refuses %s as wrong usage', async (_what, words, message) => {
    const { exitCode, stdout, stderr, written } = await ran(words);
    expect(stderr).toMatch(message);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect({ exitCode, stdout, written }).toEqual({ exitCode: 2, stdout: '', written: {} });
  });

  it.each([
    [['film', 'no\nsuch\u001b[2J.csv'], /no such \[2J\.csv: the file cannot be read/],
    [['fi\nlm'], /"fi lm" is no verb/],
    [['film', 'a', '--model', 'x\ry'], /--model x y is not known/],
  ])('says in one line what is wrong with %j', async (words, message) => {
    const { stderr } = await ran(words);
    expect(stderr).toMatch(message);
    expect(stderr).toMatch(/^[^\p{Cc}]+\n$/u);
  });

  it('takes a negative number after an option', async () => {
    const { exitCode, stderr } = await ran(['match', '--shadow', '-0.02', '--highlight', '1.0']);
    expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: '' });
  });
});

import { describe, expect, it } from 'vitest';
import { InputError } from '../notebook-error.ts';
import { guessRoles, readMatched, rolesFault, type RawTable } from './match-columns.ts';

const wide: RawTable = {
  heads: ['Step', '5 min', '7 min', 'Remark'],
  rows: [
    ['1', '1,20', '1,45', ''],
    ['2', '1,08', '', 'scratched'],
    ['3', '0,95', '1,13', ''],
  ],
};

describe('guessRoles', () => {
  it('knows names, in any order and spelling', () => {
    const heads = ['Sample', 'No.', 'Dens', 'Log H', 'Temp', 'Dev. time', 'Filter', 'Whatever'];
    expect(guessRoles({ heads, rows: [] })).toEqual([
      'strip',
      'step',
      'density',
      'log_exposure',
      'celsius',
      'minutes',
      'channel',
      'ignored',
    ]);
  });
  it('takes several columns of numbers without a known name for a strip each', () => {
    expect(guessRoles(wide)).toEqual(['step', 'strip_density', 'strip_density', 'ignored']);
  });
  it('takes a counting column for the steps where there are no names, begun anew or not', () => {
    const rows = ['1', '2', '3', '1', '2', '3'].map((step) => [step, '0.5']);
    expect(guessRoles({ heads: [], rows })).toEqual(['step', 'density']);
  });
  it('takes each role but density once', () => {
    expect(guessRoles({ heads: ['step', 'step', 'd 1', 'd 2'], rows: [] })).toEqual([
      'step',
      'ignored',
      'density',
      'density',
    ]);
  });
});

describe('rolesFault', () => {
  it('names what is missing or doubled', () => {
    expect(rolesFault(['step', 'density'])).toBeNull();
    expect(rolesFault(['step'])).toBe('no-density');
    expect(rolesFault(['strip', 'density'])).toBe('no-exposure');
    expect(rolesFault(['step', 'step', 'density'])).toBe('twice');
    expect(rolesFault(['step', 'density', 'strip_density'])).toBe('both-densities');
  });
});

describe('readMatched', () => {
  it('makes a strip of each column, named by it, with unread steps left unread', () => {
    const { strips } = readMatched(wide, guessRoles(wide));
    expect(strips.map(({ name }) => name)).toEqual(['5 min', '7 min']);
    expect(strips.map(({ readings }) => readings.map(({ density }) => density))).toEqual([
      [1.2, 1.08, 0.95],
      [1.45, null, 1.13],
    ]);
  });
  it('makes replicates of several densities', () => {
    const table = { heads: [], rows: [['1', '0.50', '0,51']] };
    const { strips } = readMatched(table, ['step', 'density', 'density']);
    expect(strips).toHaveLength(1);
    expect(strips[0]?.readings.map(({ step, density }) => [step, density])).toEqual([
      [1, 0.5],
      [1, 0.51],
    ]);
  });
  it('joins the name of a row with the name of its column', () => {
    const table = { heads: ['film', 'step', 'a', 'b'], rows: [['roll 2', '1', '0.5', '0.6']] };
    const { strips } = readMatched(table, ['strip', 'step', 'strip_density', 'strip_density']);
    expect(strips.map(({ name }) => name)).toEqual(['roll 2 a', 'roll 2 b']);
  });
  it('names the row of the table where a cell cannot be read', () => {
    const rows = [
      ['1', '0.5', '0.6'],
      ['2', '0.4', 'smudge "x"'],
    ];
    const read = () =>
      readMatched({ heads: ['s', 'a', 'b'], rows }, ['step', 'density', 'density']);
    expect(read).toThrow(InputError);
    expect(read).toThrow(/^row 3, column "density": .*smudge "x"/);
  });
});

import { describe, expect, it } from 'vitest';
import { clockText, elapsedSeconds, signalsBetween, signalsOf } from './timer-plan.ts';

describe('signals of a timer', () => {
  it('remind every half minute, warn 15 seconds before the end, and end', () => {
    expect(signalsOf(120, 30)).toEqual([
      { at: 30, kind: 'agitate' },
      { at: 60, kind: 'agitate' },
      { at: 90, kind: 'agitate' },
      { at: 105, kind: 'soon' },
      { at: 120, kind: 'end' },
    ]);
  });

  it('do without a warning in a bath of half a minute, and without reminders where none are asked', () => {
    expect(signalsOf(20, 0)).toEqual([{ at: 20, kind: 'end' }]);
    expect(signalsOf(60, 0).map(({ kind }) => kind)).toEqual(['soon', 'end']);
    expect(signalsOf(0, 30)).toEqual([]);
    expect(signalsOf(NaN, 30)).toEqual([]);
  });

  it('put no reminder on the warning', () => {
    expect(signalsOf(45, 30).map(({ at }) => at)).toEqual([30, 45]);
    for (const { kind } of signalsOf(45, 30).slice(0, 1)) expect(kind).toBe('soon');
  });

  it('none is lost when the clock is looked at late, as in a tab in the background', () => {
    const state = { totalSeconds: 390, agitationSeconds: 30, startedAt: 0, elapsedBefore: 0 };
    const looks = [0, 0.3, 59.9, 60, 200, 389, 390];
    const heard = looks.slice(1).flatMap((to, i) => signalsBetween(state, looks[i] ?? 0, to));
    expect(heard).toEqual(signalsOf(390, 30));
  });
});

describe('the clock', () => {
  const state = { totalSeconds: 390, agitationSeconds: 30, startedAt: 10_000, elapsedBefore: 60 };

  it('goes by the time of day, however seldom it is looked at', () => {
    expect(elapsedSeconds(state, 10_000)).toBe(60);
    expect(elapsedSeconds(state, 130_000)).toBe(180);
    expect(elapsedSeconds(state, 1e9)).toBe(390);
    expect(elapsedSeconds(state, 0)).toBe(60);
    expect(elapsedSeconds({ ...state, startedAt: null }, 1e9)).toBe(60);
  });

  it('shows minutes and seconds, rounding up', () => {
    expect(clockText(390)).toBe('6:30');
    expect(clockText(59.2)).toBe('1:00');
    expect(clockText(0)).toBe('0:00');
    expect(clockText(-3)).toBe('0:00');
  });
});

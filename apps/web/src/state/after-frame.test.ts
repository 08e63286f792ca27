import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type * as AfterFrame from './after-frame.ts';

let keydown: () => void;
let waiting: typeof AfterFrame;

beforeEach(async () => {
  vi.resetModules();
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] });
  vi.stubGlobal('requestAnimationFrame', (act: () => void) => setTimeout(act, 16));
  vi.stubGlobal('addEventListener', (type: string, act: () => void) => {
    if (type === 'keydown') keydown = act;
  });
  waiting = await import('./after-frame.ts');
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe('work after the frame', () => {
  it('is done once, after the frame, whatever the user types', async () => {
    const job = vi.fn();
    keydown();
    waiting.afterFrame(job);
    waiting.afterFrame(job);
    expect(job).not.toHaveBeenCalled();
    await vi.advanceTimersByTimeAsync(30);
    expect(job).toHaveBeenCalledOnce();
  });

  it('goes on where a job fails', async () => {
    const reported = vi.fn();
    vi.stubGlobal('reportError', reported);
    const job = vi.fn();
    waiting.afterFrame(() => {
      throw new Error('broken');
    });
    waiting.afterFrame(job);
    await vi.advanceTimersByTimeAsync(100);
    expect(reported).toHaveBeenCalledOnce();
    expect(job).toHaveBeenCalledOnce();
  });
});

describe('work after a pause', () => {
  it('waits while keys follow one another, and is done when they stop', async () => {
    const job = vi.fn();
    for (let key = 0; key < 6; key++) {
      keydown();
      waiting.afterPause(job);
      await vi.advanceTimersByTimeAsync(90);
    }
    expect(job).not.toHaveBeenCalled();
    await vi.advanceTimersByTimeAsync(250);
    expect(job).toHaveBeenCalledOnce();
  });

  it('waits a second and little more where the keys do not stop', async () => {
    const job = vi.fn();
    for (let key = 0; key < 12; key++) {
      keydown();
      waiting.afterPause(job);
      await vi.advanceTimersByTimeAsync(90);
    }
    expect(job).toHaveBeenCalledOnce();
  });

  it('holds up nothing that belongs to the frame', async () => {
    const [patient, prompt] = [vi.fn(), vi.fn()];
    keydown();
    waiting.afterPause(patient);
    await vi.advanceTimersByTimeAsync(10);
    waiting.afterFrame(prompt);
    await vi.advanceTimersByTimeAsync(40);
    expect(prompt).toHaveBeenCalledOnce();
    expect(patient).not.toHaveBeenCalled();
  });

  it('can be taken back', async () => {
    const job = vi.fn();
    waiting.afterPause(job);
    waiting.forget(job);
    await vi.advanceTimersByTimeAsync(2000);
    expect(job).not.toHaveBeenCalled();
  });
});

describe('work at rest', () => {
  it('waits as long as the keys follow one another, and is done once when they have stopped', async () => {
    const job = vi.fn();
    for (let key = 0; key < 30; key++) {
      keydown();
      waiting.afterRest(job);
      await vi.advanceTimersByTimeAsync(250);
    }
    expect(job).not.toHaveBeenCalled();
    await vi.advanceTimersByTimeAsync(700);
    expect(job).toHaveBeenCalledOnce();
  });

  it('can be taken back', async () => {
    const job = vi.fn();
    waiting.afterRest(job);
    waiting.forget(job);
    await vi.advanceTimersByTimeAsync(2000);
    expect(job).not.toHaveBeenCalled();
  });
});

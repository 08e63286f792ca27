import { beforeEach, expect, it, vi } from 'vitest';
import { SteadyAxis } from './steady-axis.ts';

const waiting = vi.hoisted(() => new Set<() => unknown>());
vi.mock('../state/after-frame.ts', () => ({
  afterRest: (job: () => unknown) => waiting.add(job),
  forget: (job: () => unknown) => waiting.delete(job),
}));
const rest = () => {
  const jobs = [...waiting];
  waiting.clear();
  for (const job of jobs) job();
};
beforeEach(() => {
  waiting.clear();
});

it('grows at once and shrinks at rest', () => {
  const drawAnew = vi.fn();
  const axis = new SteadyAxis(drawAnew);
  expect(axis.hold('strip 1', [0, 1.6])).toEqual([0, 1.6]);
  expect(waiting.size).toBe(0);
  expect(axis.hold('strip 1', [-0.2, 1.8])).toEqual([-0.2, 1.8]);
  expect(axis.hold('strip 1', [0, 1.4])).toEqual([-0.2, 1.8]);
  expect(drawAnew).not.toHaveBeenCalled();
  rest();
  expect(drawAnew).toHaveBeenCalledOnce();
  expect(axis.hold('strip 1', [0, 1.4])).toEqual([0, 1.4]);
});

it('gives the same pair as long as it stays, so that nothing is laid out anew', () => {
  const axis = new SteadyAxis(vi.fn());
  const first = axis.hold('strip 1', [0, 1.6]);
  expect(axis.hold('strip 1', [0, 1.4])).toBe(first);
  expect(axis.hold('strip 1', [0, 1.6])).toBe(first);
});

it('starts anew with another drawing, and when it is taken away', () => {
  const axis = new SteadyAxis(vi.fn());
  axis.hold('strip 1', [0, 3]);
  expect(axis.hold('strip 2', [0, 1])).toEqual([0, 1]);
  axis.hold('strip 2', [0, 0.8]);
  expect(waiting.size).toBe(1);
  axis.release();
  expect(waiting.size).toBe(0);
  expect(axis.hold('strip 2', [0, 0.8])).toEqual([0, 0.8]);
});

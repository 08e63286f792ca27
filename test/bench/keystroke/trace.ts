/**
 * What each keystroke cost, read from Chromium's own trace of the page's main thread.
 */
import type { Browser } from 'playwright-core';

/** Of one keystroke, in milliseconds. */
export interface Keystroke {
  /** Processor time of the main thread: the key's task, and the frame's task with its commit. */
  readonly work: number;
  /** Parts of the work: style and layout; paint, layers and commit; events and script. */
  readonly layout: number;
  readonly paint: number;
  readonly script: number;
  /** From the key event's time stamp until the frame stands on the (virtual) screen. */
  readonly presented: number;
}

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** Begin and length in microseconds; `tdur` counts only while the thread has the processor. */
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
  readonly args: { readonly data?: { readonly type?: string; readonly duration?: number } };
}

const CATEGORIES = ['devtools.timeline', 'disabled-by-default-devtools.timeline'];
const LAYOUT = new Set(['UpdateLayoutTree', 'Layout']);
const PAINT = new Set(['PrePaint', 'Paint', 'Layerize', 'Commit']);

/** Traces the browser while `act` runs, and reads the keystrokes from the trace. */
export async function tracing(browser: Browser, act: () => Promise<void>): Promise<Keystroke[]> {
  const session = await browser.newBrowserCDPSession();
  const events: TraceEvent[] = [];
  session.on('Tracing.dataCollected', ({ value }) => {
    events.push(...(value as unknown as TraceEvent[]));
  });
  const complete = new Promise((resolve) => {
    session.once('Tracing.tracingComplete', resolve);
  });
  await session.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: { includedCategories: CATEGORIES, excludedCategories: ['*'] },
  });
  await act();
  await session.send('Tracing.end');
  await complete;
  await session.detach();
  return keystrokesOf(events);
}

function keystrokesOf(events: readonly TraceEvent[]): Keystroke[] {
  const inputs = events.filter(isInput).toSorted(byTime);
  const [first] = inputs;
  if (first === undefined) return [];
  const main = events
    .filter(({ ph, pid, tid }) => ph === 'X' && pid === first.pid && tid === first.tid)
    .toSorted(byTime);
  const tasks = main.filter(({ name }) => name === 'RunTask');
  const commits = main.filter(({ name }) => name === 'Commit');
  const timings = events
    .filter((each) => each.name === 'EventTiming' && each.args.data?.type === 'keypress')
    .toSorted(byTime);
  return inputs.flatMap((input): Keystroke[] => {
    const commit = commits.find(({ ts }) => ts > input.ts);
    const task = tasks.findLast(({ ts }) => ts <= input.ts);
    const frame = tasks.findLast(({ ts }) => ts <= (commit?.ts ?? 0));
    // The event is stamped before it is dispatched; the newest stamp is this key's.
    const timing = timings.findLast(({ ts }) => ts <= input.ts);
    const presented = timing?.args.data?.duration;
    if (!task || !frame || presented === undefined) return [];
    const busy = task === frame ? [task] : [task, frame];
    const inside = main.filter((each) => busy.some((outer) => within(each, outer)));
    const part = (names: ReadonlySet<string>) =>
      total(outermost(inside.filter(({ name }) => names.has(name))));
    const [work, layout, paint] = [total(busy), part(LAYOUT), part(PAINT)];
    return [{ work, layout, paint, script: work - layout - paint, presented }];
  });
}

const isInput = ({ name, args }: TraceEvent) =>
  name === 'EventDispatch' && args.data?.type === 'input';
const byTime = (a: TraceEvent, b: TraceEvent) => a.ts - b.ts || end(b) - end(a);
const end = ({ ts, dur = 0 }: TraceEvent) => ts + dur;
const within = (inner: TraceEvent, outer: TraceEvent) =>
  inner !== outer && inner.ts >= outer.ts && end(inner) <= end(outer);

/** Leaves out what lies inside another of the list, so that nothing is counted twice. */
function outermost(events: readonly TraceEvent[]): readonly TraceEvent[] {
  return events.filter((each) => !events.some((other) => within(each, other)));
}

const total = (events: readonly TraceEvent[]): number =>
  events.reduce((sum, { dur = 0, tdur = dur }) => sum + tdur, 0) / 1000;

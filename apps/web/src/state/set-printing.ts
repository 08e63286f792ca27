/** Changes of the print being considered. */
import type { Printing } from '@wedgebook/notebook';
import type { App } from './app.ts';

/** @param gesture - changes of one gesture are undone together; '' for each alone */
export function setPrinting({ store }: App, changes: Partial<Printing>, gesture = ''): void {
  store.dispatch({
    type: 'printing/set',
    changes,
    ...(gesture === '' ? {} : { mergeKey: `printing ${gesture}` }),
  });
}

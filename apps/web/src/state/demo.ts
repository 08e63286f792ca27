/** The demonstration notebook: invented readings of our own scenario. */
import { demoNotebook } from '@wedgebook/data';
import { openNotebook, type NotebookDocument } from '@wedgebook/notebook';

/** Opened like any saved notebook, so that a fault in it cannot pass unseen. */
export const demoDocument: NotebookDocument = openNotebook(demoNotebook).document;

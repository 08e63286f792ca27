/** Puts a dialog element on the page for as long as it is open. */
import type { LitElement } from 'lit';

/** A dialog of the page: tells with `wb-closed` that it is done. */
export type DialogElement = LitElement & { readonly dialog: HTMLDialogElement | null };

/** @param root - where the dialog stands; inside the app, so that it sees the notebook */
export async function openDialog(root: ParentNode, element: DialogElement): Promise<void> {
  element.addEventListener('wb-closed', () => {
    element.remove();
  });
  root.append(element);
  await element.updateComplete;
  element.dialog?.showModal();
}

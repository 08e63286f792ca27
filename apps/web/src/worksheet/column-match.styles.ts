/** Styles of saying what the columns of a table are. */
import { css } from 'lit';

export const columnMatchStyles = css`
  dialog {
    color: var(--text);
    background: var(--ground);
    border: 2px solid var(--frame);
    border-radius: 0.5rem;
    padding: 1.25rem;
    max-width: min(64rem, calc(100vw - 1.5rem));
    max-height: calc(100vh - 1.5rem);
  }
  dialog::backdrop {
    background: rgb(0 0 0 / 0.6);
  }
  table {
    width: auto;
    margin: 0.75rem 0;
  }
  th,
  td {
    padding-inline-end: 1rem;
    white-space: nowrap;
    max-width: 16rem;
    overflow: hidden;
    text-overflow: ellipsis;
  }
  thead th {
    padding: 0.25rem 1rem 0.4rem 0;
    overflow: visible;
  }
  select {
    min-width: 9rem;
  }
  .out {
    color: var(--quiet);
  }
  .choices {
    display: flex;
    flex-wrap: wrap;
    gap: 0.75rem;
    margin-top: 0.75rem;
  }
`;

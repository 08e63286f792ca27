/** Styles of saying what the columns of a table are. */
import { css } from 'lit';

export const columnMatchStyles = css`
  /* Room for the ring of the focus. */
  .scroll {
    padding: 0.3rem;
  }
  table {
    width: auto;
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
`;

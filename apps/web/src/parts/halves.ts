/** Two parts of a station side by side on a wide page; the station's host is a size container. */
import { css } from 'lit';

export const halves = css`
  /* Drawing and figures side by side, where half the page still holds the widest table. */
  .halves > * {
    min-width: 0;
  }
  @container (min-width: 80rem) {
    .halves {
      display: grid;
      grid-template-columns: repeat(2, minmax(0, 1fr));
      gap: 0 clamp(1.5rem, 3cqw, 3rem);
    }
    .halves > * > :is(h3, h4, table, .sink, .scroll, .cautions, dl):first-child {
      margin-top: 0.4rem;
    }
  }
`;

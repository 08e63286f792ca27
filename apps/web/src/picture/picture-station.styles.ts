/** Styles of the picture station. */
import { css } from 'lit';
import { halves } from '../parts/halves.ts';

export const pictureStyles = css`
  ${halves}
  :host {
    container-type: inline-size;
  }
  .source {
    display: flex;
    flex-wrap: wrap;
    gap: 0.6rem 1rem;
    align-items: end;
    margin-bottom: 0.4rem;
  }
  .sliders {
    display: grid;
    gap: 0.6rem 2rem;
    grid-template-columns: minmax(0, 1fr);
    margin: 0.8rem 0;
  }
  @container (min-width: 40rem) {
    .sliders {
      grid-template-columns: repeat(2, minmax(0, 1fr));
    }
  }
  .notice {
    border-inline-start: 4px solid var(--text);
    padding: 0.15rem 0 0.15rem 0.75rem;
    margin: 0.75rem 0;
  }
  .notice p {
    margin: 0.2rem 0;
  }
  .compare {
    display: flex;
    flex-wrap: wrap;
    gap: 0.6rem 1rem;
    align-items: end;
    margin: 1rem 0 0.5rem;
  }
  .compare label.check {
    display: inline-flex;
    align-items: center;
    gap: 0.5rem;
    min-height: 2.75rem;
    margin: 0;
  }
  td.number,
  th.number {
    padding-inline-end: 1rem;
  }
`;

/** What axe-core finds wrong, by the rules of WCAG 2.2 A and AA and its own best practice. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults, RunOptions } from 'axe-core';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const OPTIONS: RunOptions = {
  runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
};

/**
 * @param within - selector of a part inside the app's own shadow tree; the whole page unless given
 * @returns one line for each rule that is broken, with up to three places
 */
export async function axeFindings(page: Page, within: string | null = null): Promise<string[]> {
  // Evaluated, not added as a script: the policy of the page allows no inline script.
  await page.evaluate(AXE);
  const { violations } = await page.evaluate(
    ({ options, part }) => {
      const { axe } = globalThis as unknown as {
        axe: { run: (where: object, o: RunOptions) => Promise<AxeResults> };
      };
      const where = part === null ? document : { fromShadowDom: ['wb-app', part] };
      return axe.run(where, options);
    },
    { options: OPTIONS, part: within },
  );
  return violations.map(
    ({ id, nodes }) =>
      `${id}: ${nodes
        .map(({ target }) => target.join(' '))
        .slice(0, 3)
        .join('; ')}`,
  );
}

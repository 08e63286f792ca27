/**
 * A repeatable stream of normal random numbers, so that a bootstrap of the same readings gives the
 * same interval each time.
 *
 * Sources: [SLF2014] the splitmix generator, in a 32-bit form; [BM1958] normal numbers in pairs.
 * Deviations: none.
 */

/**
 * A function that gives the next standard normal number.
 *
 * @param seed - any whole number; the same seed gives the same stream
 */
export function randomNormal(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return ((z ^ (z >>> 15)) >>> 0) / 0x100000000;
  };
  let spare: number | null = null;
  return () => {
    if (spare !== null) {
      const value = spare;
      spare = null;
      return value;
    }
    // 1 - uniform lies in (0, 1], so that its logarithm is finite.
    const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
    const angle = 2 * Math.PI * uniform();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
}

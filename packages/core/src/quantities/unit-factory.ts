/**
 * The unit part of mathjs alone, in an instance of our own. Its unit parser knows names, prefixes
 * and powers; the expression parser, which could run code, is not loaded.
 */
import { create, createUnitDependencies, unitDependencies, type Unit } from 'mathjs';

const math = create({ ...unitDependencies, ...createUnitDependencies }, {});

// mathjs has the candela but not the lux: 1 lx = 1 cd sr / m², the steradian being a pure number.
math.createUnit('lux', { definition: '1 cd/m^2', aliases: ['lx'] });

/**
 * A quantity in units that mathjs knows, or null where it does not know the unit.
 *
 * @param value - number of units
 * @param unit - unit in mathjs' notation: letters, digits, spaces, `^`, `*`, `/`
 */
export function quantityOf(value: number, unit: string): Unit | null {
  try {
    return math.unit(value, unit);
  } catch {
    // mathjs throws a plain Error for a unit that it does not know.
    return null;
  }
}

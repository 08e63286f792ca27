/**
 * What becomes of strips while their file is read. A fault in one of them, such as too few steps, may
 * come from its going on further down: the rest of the file is read to see, and a fault in the
 * reading is told in its place.
 */
import { InputError, type ReadingsStrip } from '@wedgebook/notebook';

/**
 * @param strips - as they are read
 * @param made - what becomes of one
 * @throws {InputError} from the reading, or else the first from `made`
 */
export async function* eachAsRead<T>(
  strips: AsyncIterable<ReadingsStrip> | Iterable<ReadingsStrip>,
  made: (strip: ReadingsStrip) => T,
): AsyncGenerator<T> {
  let fault: InputError | null = null;
  for await (const strip of strips) {
    if (fault !== null) continue;
    let one: T;
    try {
      one = made(strip);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      fault = error;
      continue;
    }
    yield one;
  }
  if (fault !== null) throw fault;
}

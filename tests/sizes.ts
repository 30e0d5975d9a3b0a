/**
 * How much a test does: the usual size shows the same as the full one and takes a fraction of its time. `SPANLIFE_SIZES=full npm run unit`
 * takes the full ones; benchmarks measure at full size.
 */
const full = process.env['SPANLIFE_SIZES'] === 'full';

/** Cases of a property test that has thousands of them. */
export function cases(all: number): number {
  return full ? all : Math.ceil(all / 4);
}

/** Rows, characters or samples of a test in which their number is the point. */
export function size(usual: number, all: number): number {
  return full ? all : usual;
}

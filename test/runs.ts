/** How often a property is tried: `usual` times, and 2000 times at least in the long run (`npm run test:long`). */
export function runs(usual: number): number {
  return process.env.LONG ? Math.max(usual, 2000) : usual;
}

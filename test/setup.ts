import fc from 'fast-check';

/**
 * Everyday runs try the same cases each time, so that a failure is the change's own and not the dice's; the long run throws
 * the dice anew. Either way the seed is printed and can be given: `SEED=123 npm test`.
 */
const seed = process.env.SEED ? Number(process.env.SEED) : process.env.LONG ? Date.now() % 0x7fffffff : 20261124;
fc.configureGlobal({ seed });
// Once per thread; the setup runs before every file.
const told = globalThis as { toldSeed?: boolean };
if (!told.toldSeed) console.info(`properties: seed ${seed}`);
told.toldSeed = true;

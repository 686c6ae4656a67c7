import { describe, expect, it } from 'vitest';
import { fetchedCode, missingText, tellMissing } from '../../src/state/missing.ts';
import { createApp } from '../../src/state/store.ts';

/** Words of two browsers about a module that did not come. */
const SAID = [
  'Failed to fetch dynamically imported module: http://localhost:1/assets/Box-a1.js',
  'error loading dynamically imported module: http://localhost:1/assets/Box-a1.js',
];
const failing = (text: string) => () => Promise.reject(new TypeError(text));

describe('code that does not come', () => {
  it('is fetched once more under another address, each time a new one', async () => {
    const asked: string[] = [];
    const from = (address: string) => {
      asked.push(address);
      return Promise.resolve('here');
    };
    for (const text of SAID) expect(await fetchedCode(failing(text), from)).toBe('here');
    expect(asked.map((a) => a.split('?')[0])).toEqual(['http://localhost:1/assets/Box-a1.js', 'http://localhost:1/assets/Box-a1.js']);
    expect(new Set(asked).size).toBe(2);
    expect(await fetchedCode(() => Promise.resolve('at once'), from)).toBe('at once');
    expect(asked).toHaveLength(2);
  });

  it('is given up where no address is known, or where it fails again', async () => {
    await expect(fetchedCode(failing('Importing a module script failed.'))).rejects.toThrow('Importing');
    await expect(fetchedCode(failing(SAID[0] as string), () => Promise.reject(new Error('again')))).rejects.toThrow('again');
  });

  it('is told with another try', () => {
    const app = createApp();
    let tries = 0;
    tellMissing(app, 'What writes a plan file', () => {
      tries += 1;
    });
    const { notice } = app.getState();
    expect(notice).toMatchObject({ kind: 'problem', text: missingText('What writes a plan file'), action: { label: 'Try again' } });
    expect(notice?.text).toMatch(/^What writes a plan file could not be fetched\..*Your plan is as it was\.$/);
    notice?.action?.run();
    expect(tries).toBe(1);
  });
});

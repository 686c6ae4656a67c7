import { expect, it, vi } from 'vitest';
import { fetchedNow, later } from '../../src/faces/useLater.ts';
import { app } from '../../src/state/store.ts';

it('code that was asked for and does not come is told with another try; once it is there it is not fetched again', async () => {
  const load = vi.fn<() => Promise<string>>().mockRejectedValueOnce(new Error('no network')).mockResolvedValue('here');
  const code = later('What mends a whole plan', load);
  const again = vi.fn();
  expect(await fetchedNow(code, again)).toBeNull();
  const { notice } = app.getState();
  expect(notice?.text).toContain('What mends a whole plan could not be fetched');
  notice?.action?.run();
  expect(again).toHaveBeenCalledOnce();
  app.getState().setNotice(null);

  expect(await fetchedNow(code, again)).toBe('here');
  expect(await fetchedNow(code, again)).toBe('here');
  expect(load).toHaveBeenCalledTimes(2);
  expect(app.getState().notice).toBeNull();
});

import type { App } from './store.ts';
import type { AppState } from './types.ts';

const KEY = 'dashloom.view';
type Prefs = Pick<AppState, 'theme' | 'units' | 'showFigures'>;

/** Reads how the person likes to see things, and keeps it up to date. Without storage the choice lasts for this visit. */
export function attachPrefs(app: App, store: Pick<Storage, 'getItem' | 'setItem'> | null): () => void {
  app.setState(read(store));
  return app.subscribe(({ theme, units, showFigures }, before) => {
    if (theme === before.theme && units === before.units && showFigures === before.showFigures) return;
    try {
      store?.setItem(KEY, JSON.stringify({ theme, units, showFigures }));
    } catch {
      // Full or blocked: a lost preference is not worth a message.
    }
  });
}

function read(store: Pick<Storage, 'getItem'> | null): Partial<Prefs> {
  try {
    const raw: unknown = JSON.parse(store?.getItem(KEY) ?? '{}');
    if (typeof raw !== 'object' || raw === null) return {};
    const { theme, units, showFigures } = raw as { theme?: unknown; units?: unknown; showFigures?: unknown };
    const { area, length } = (typeof units === 'object' && units !== null ? units : {}) as { area?: unknown; length?: unknown };
    return {
      ...(theme === 'light' || theme === 'dark' || theme === 'contrast' ? { theme } : {}),
      ...(typeof showFigures === 'boolean' ? { showFigures } : {}),
      units: { area: area === 'awg' ? 'awg' : 'mm2', length: length === 'ft' ? 'ft' : 'm' },
    };
  } catch {
    return {};
  }
}

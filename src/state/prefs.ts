import type { App } from './store.ts';
import type { AppState } from './types.ts';

const KEY = 'dashloom.view';
type Theme = AppState['theme'];
type Prefs = Pick<AppState, 'theme' | 'units' | 'showFigures'>;

/** What this device prefers, and word when that changes. */
export interface DeviceLook {
  theme(): Theme;
  onChange(told: () => void): void;
}

/**
 * Reads how the person likes to see things, and keeps it up to date. Without storage the choice lasts for this visit.
 * Until a person has chosen a theme it follows the device, also when the device changes its mind at dusk.
 */
export function attachPrefs(app: App, store: Pick<Storage, 'getItem' | 'setItem'> | null, device: DeviceLook | null = null): () => void {
  const kept = read(store);
  let chosen = kept.theme;
  let following = false;
  const follow = (): void => {
    if (chosen !== undefined || !device) return;
    following = true;
    app.setState({ theme: device.theme() });
    following = false;
  };
  app.setState(kept);
  follow();
  device?.onChange(follow);
  return app.subscribe(({ theme, units, showFigures }, before) => {
    if (following || (theme === before.theme && units === before.units && showFigures === before.showFigures)) return;
    if (theme !== before.theme) chosen = theme;
    try {
      store?.setItem(KEY, JSON.stringify({ ...(chosen === undefined ? {} : { theme: chosen }), units, showFigures }));
    } catch {
      // Full or blocked: a lost preference is not worth a message.
    }
  });
}

/** The look this browser reports: light or dark, and with more contrast where that is asked for. */
export function deviceLook(query: (text: string) => MediaQueryList): DeviceLook {
  const contrast = query('(prefers-contrast: more), (forced-colors: active)');
  const dark = query('(prefers-color-scheme: dark)');
  return {
    theme: () => (contrast.matches ? (dark.matches ? 'contrast-dark' : 'contrast') : dark.matches ? 'dark' : 'light'),
    onChange(told) {
      contrast.addEventListener('change', told);
      dark.addEventListener('change', told);
    },
  };
}

function read(store: Pick<Storage, 'getItem'> | null): Partial<Prefs> {
  try {
    const raw: unknown = JSON.parse(store?.getItem(KEY) ?? '{}');
    if (typeof raw !== 'object' || raw === null) return {};
    const { theme, units, showFigures } = raw as { theme?: unknown; units?: unknown; showFigures?: unknown };
    const { area, length } = (typeof units === 'object' && units !== null ? units : {}) as { area?: unknown; length?: unknown };
    return {
      ...(isTheme(theme) ? { theme } : {}),
      ...(typeof showFigures === 'boolean' ? { showFigures } : {}),
      units: { area: area === 'awg' ? 'awg' : 'mm2', length: length === 'ft' ? 'ft' : 'm' },
    };
  } catch {
    return {};
  }
}

const THEMES: readonly Theme[] = ['light', 'dark', 'contrast', 'contrast-dark'];
function isTheme(text: unknown): text is Theme {
  return THEMES.some((t) => t === text);
}

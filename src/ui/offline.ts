/**
 * Once the page stands, a worker fetches the rest of it, so that it opens without network the next time. Where the
 * browser has none (a private window, an address without https) the page works as long as it is open.
 */
export function keepPageAtHand(): void {
  if (!('serviceWorker' in navigator)) return;
  const register = (): void => void navigator.serviceWorker.register('./offline.js').catch(() => undefined);
  if (document.readyState === 'complete') register();
  else window.addEventListener('load', register, { once: true });
}

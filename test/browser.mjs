/**
 * Finds a Chromium for the browser tests, in this order: the CHROMIUM_PATH variable, a Chromium on PATH, the one that
 * Playwright keeps, a fresh download by Playwright, and last (only when asked, or on a build machine) the system's
 * package manager.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'chrome', 'microsoft-edge'];

/**
 * @param {boolean} bring May install a browser when none is found.
 * @returns {{ path: string, from: string } | { path: null, advice: string }}
 */
export function findBrowser(bring = false) {
  const named = process.env.CHROMIUM_PATH;
  if (named) {
    return existsSync(named) ? { path: named, from: 'CHROMIUM_PATH' } : { path: null, advice: `CHROMIUM_PATH names "${named}", and there is no such file.` };
  }
  const present = onPath() ?? playwrightsOwn();
  if (present || !bring) return present ?? { path: null, advice: ADVICE };
  return download() ?? systemPackage() ?? { path: null, advice: ADVICE };
}

const ADVICE =
  'No Chromium found. Install one (Debian, Ubuntu: apt-get install -y chromium; elsewhere: npx playwright install chromium) or set CHROMIUM_PATH to its program file.';

function onPath() {
  for (const folder of (process.env.PATH ?? '').split(delimiter)) {
    for (const name of NAMES) {
      const path = join(folder, name);
      if (existsSync(path)) return { path, from: 'PATH' };
    }
  }
  return null;
}

/** Asked in a process of its own, so that a browser downloaded a moment ago is seen too. */
function playwrightsOwn() {
  const asked = spawnSync(process.execPath, ['-e', "process.stdout.write(require('@playwright/test').chromium.executablePath())"], { encoding: 'utf8' });
  const path = asked.status === 0 ? asked.stdout.trim() : '';
  return path && existsSync(path) ? { path, from: 'Playwright' } : null;
}

function download() {
  console.log('No Chromium here: asking Playwright for one.');
  const got = spawnSync('npx', ['playwright', 'install', 'chromium'], { stdio: 'inherit', timeout: 300_000 });
  return got.status === 0 ? playwrightsOwn() : null;
}

function systemPackage() {
  if (process.getuid?.() !== 0 || spawnSync('apt-get', ['--version']).status !== 0) return null;
  console.log('Asking the system package manager for Chromium.');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  if (spawnSync('apt-get', ['update'], { stdio: 'inherit', env }).status !== 0) return null;
  const got = spawnSync('apt-get', ['install', '-y', '--no-install-recommends', 'chromium', 'fonts-dejavu-core'], { stdio: 'inherit', env });
  return got.status === 0 ? onPath() : null;
}

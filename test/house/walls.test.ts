/** The house has one direction: a room imports only from rooms named for it here, each with its reason. */
import { describe, expect, it } from 'vitest';
import { bare, importsOf, resolve, type SourceFile, sourceFiles } from './source.ts';

interface Room {
  readonly name: string;
  /** Rooms it may import from, each with the reason; all of them stand above it in this list. */
  readonly from: Readonly<Record<string, string>>;
  /** Packages it may import. */
  readonly packages: readonly string[];
}

const FACTS = 'figures and words of the trade';
const PRIMITIVES = 'drawing primitives';
const DOCUMENT = 'the plan it works on';
const KINDS = 'terminals, settings and facts of the part kinds';
const READINGS = 'readings and their types';
const RULES = 'findings and the list of rules';
const ADVICE = 'repairs, automatic settings and their reasons';
const SCENE = 'the laid-out drawing';
const SHEET = 'the wiring sheet and exports';
const CODEC = 'reading and writing plans';
const STORES = 'the stores it shows and changes';
const FACES = 'small shared faces: terms, marks, fields';
const NETWORK = 'elements and results of the circuit engine';
const FACE_PACKAGES = ['react', 'react-dom'];
const BELOW_STATE = {
  trade: FACTS,
  circuit: NETWORK,
  drawing: PRIMITIVES,
  plan: DOCUMENT,
  parts: KINDS,
  codec: CODEC,
  scene: SCENE,
  analysis: READINGS,
  rules: RULES,
  advise: ADVICE,
  sheet: SHEET,
};
const FACE = { ...BELOW_STATE, state: STORES, faces: FACES };

/** From the ground up. */
const ROOMS: readonly Room[] = [
  { name: 'trade', from: {}, packages: [] },
  { name: 'circuit', from: {}, packages: [] },
  { name: 'drawing', from: {}, packages: [] },
  { name: 'plan', from: { trade: FACTS }, packages: [] },
  { name: 'parts', from: { trade: FACTS, circuit: NETWORK, drawing: PRIMITIVES, plan: DOCUMENT }, packages: [] },
  { name: 'codec', from: { trade: FACTS, plan: DOCUMENT, parts: KINDS }, packages: ['zod'] },
  { name: 'scene', from: { trade: FACTS, drawing: PRIMITIVES, plan: DOCUMENT, parts: KINDS }, packages: [] },
  { name: 'analysis', from: { trade: FACTS, circuit: NETWORK, drawing: PRIMITIVES, plan: DOCUMENT, parts: KINDS }, packages: [] },
  {
    name: 'rules',
    from: { trade: FACTS, circuit: NETWORK, drawing: PRIMITIVES, plan: DOCUMENT, parts: KINDS, analysis: READINGS },
    packages: [],
  },
  {
    name: 'advise',
    from: { trade: FACTS, circuit: NETWORK, drawing: PRIMITIVES, plan: DOCUMENT, parts: KINDS, analysis: READINGS, rules: RULES },
    packages: [],
  },
  {
    name: 'sheet',
    from: {
      trade: FACTS,
      circuit: NETWORK,
      drawing: PRIMITIVES,
      plan: DOCUMENT,
      parts: KINDS,
      codec: CODEC,
      scene: SCENE,
      analysis: READINGS,
      rules: RULES,
      advise: ADVICE,
    },
    packages: [],
  },
  {
    name: 'report',
    from: {
      trade: FACTS,
      plan: DOCUMENT,
      parts: KINDS,
      codec: CODEC,
      analysis: READINGS,
      rules: RULES,
      advise: ADVICE,
      sheet: 'words and figures as the sheet prints them',
    },
    packages: [],
  },
  { name: 'state', from: BELOW_STATE, packages: ['zustand', 'idb-keyval', 'react'] },
  { name: 'faces', from: { ...BELOW_STATE, state: STORES }, packages: FACE_PACKAGES },
  { name: 'canvas', from: FACE, packages: [...FACE_PACKAGES, 'konva', 'react-konva'] },
  { name: 'ledger', from: FACE, packages: FACE_PACKAGES },
  { name: 'shelf', from: FACE, packages: FACE_PACKAGES },
  { name: 'keycycle', from: FACE, packages: FACE_PACKAGES },
  {
    name: 'ui',
    from: { ...FACE, canvas: 'puts the faces side by side', ledger: 'same', shelf: 'same', keycycle: 'same' },
    packages: FACE_PACKAGES,
  },
];

/** Files that stand at the door of src/ and start everything; the worker may not carry the codec's package. */
const ENTRIES: Readonly<Record<string, string>> = {
  'main.tsx': 'the page',
  'worker.ts': 'the worker',
  'report.ts': 'the headless command',
};

/** Single arrows that break the table on purpose. The list only shrinks. */
const EXCEPTIONS: Readonly<Record<string, string>> = {
  'state/workerClient.ts worker.ts': 'starts the worker by its address; no code crosses',
};

const roomOf = (path: string): string | null => (path.includes('/') ? path.slice(0, path.indexOf('/')) : null);
const byName = new Map(ROOMS.map((r) => [r.name, r]));
const packageOf = (target: string): string =>
  target
    .split('/')
    .slice(0, target.startsWith('@') ? 2 : 1)
    .join('/');
const isStyle = (target: string): boolean => /\.css(\?.*)?$/.test(target);

/** The page's own names in use: a member of one, a bare call of a page function, or a question whether it is there. */
const DOM =
  /(?<![.\w$])(?:(?:document|window|navigator|localStorage|sessionStorage|indexedDB)\s*[.[?!]|(?:requestAnimationFrame|alert|matchMedia)\s*\()|\btypeof\s+(?:document|window)\b|\bglobalThis\s*\.\s*(?:document|window)\b/;
const belowState = new Set([...Object.keys(BELOW_STATE), 'report']);

/** What is wrong with one file, one line each. */
function offences(file: SourceFile): readonly string[] {
  const room = roomOf(file.path);
  if (room === null) return file.path in ENTRIES || file.path.endsWith('.d.ts') ? [] : [`${file.path}: no room and no entry`];
  const rules = byName.get(room);
  if (!rules) return [`${file.path}: room "${room}" is not in the table`];
  const found = importsOf(file.text).flatMap((target) => {
    const path = resolve(file.path, target);
    if (path === null) return rules.packages.includes(packageOf(target)) ? [] : [`${file.path}: package "${target}" has no business in ${room}`];
    if (isStyle(target) && belowState.has(room)) return [`${file.path}: style sheet below state`];
    if (`${file.path} ${path}` in EXCEPTIONS) return [];
    const other = roomOf(path);
    if (other === room) return [];
    return other !== null && other in rules.from ? [] : [`${file.path}: ${room} may not import from ${other ?? path}`];
  });
  if (belowState.has(room) && DOM.test(bare(file.text, false))) found.push(`${file.path}: touches the page below state`);
  return found;
}

describe('walls', () => {
  it('every arrow of the table points to a room further down, and has its reason', () => {
    ROOMS.forEach((room, i) => {
      for (const [other, reason] of Object.entries(room.from)) {
        const at = ROOMS.findIndex((r) => r.name === other);
        expect(at, `${room.name} to ${other}`).toBeGreaterThanOrEqual(0);
        expect(at, `${room.name} to ${other}`).toBeLessThan(i);
        expect(reason.length).toBeGreaterThan(3);
      }
    });
  });

  it('no file breaks through', () => {
    expect(sourceFiles().flatMap(offences)).toEqual([]);
  });

  it('every room of the table that exists is looked at', () => {
    const seen = new Set(sourceFiles().map((f) => roomOf(f.path)));
    for (const name of [...Object.keys(BELOW_STATE), 'state', 'ui']) {
      expect(seen, name).toContain(name);
    }
  });

  it('every exception is still needed', () => {
    for (const key of Object.keys(EXCEPTIONS)) {
      const [from, to] = key.split(' ') as [string, string];
      const file = sourceFiles().find((f) => f.path === from);
      expect(file && importsOf(file.text).map((target) => resolve(from, target)), key).toContain(to);
    }
  });

  it('nothing that the worker loads carries zod', () => {
    const files = new Map(sourceFiles().map((f) => [f.path, f]));
    const reached = new Set<string>();
    const way: string[] = ['worker.ts'];
    const packages = new Set<string>();
    while (way.length > 0) {
      const path = way.pop()!;
      const file = files.get(path);
      if (reached.has(path) || !file) continue;
      reached.add(path);
      for (const target of importsOf(file.text)) {
        const next = resolve(path, target);
        if (next === null) packages.add(packageOf(target));
        else if (next.includes('*')) way.push(...[...files.keys()].filter((p) => matches(p, next)));
        else way.push(next);
      }
    }
    expect(reached.size, 'files behind worker.ts').toBeGreaterThan(20);
    expect(packages).not.toContain('zod');
    expect(packages).not.toContain('react');
  });
});

/** A path against a pattern with `*` for one step and `**` for any. */
function matches(path: string, pattern: string): boolean {
  const escaped = pattern.replace(/[.+^${}()|[\]\\]/g, '\\$&').replace(/\*\*\/?|\*/g, (star) => (star.startsWith('**') ? '.*' : '[^/]*'));
  return new RegExp(`^${escaped}$`).test(path);
}

describe('the walls can fail', () => {
  const wrong: readonly (readonly [string, string, string])[] = [
    ['upwards', 'trade/planted.ts', "import { partKind } from '../parts/index.ts';"],
    ['sideways', 'circuit/planted.ts', "import type { Line } from '../trade/words.ts';"],
    ['a type only', 'plan/planted.ts', "import type { PartKind } from '../parts/types.ts';"],
    ['passed on', 'drawing/planted.ts', "export * from '../plan/types.ts';"],
    ['over several lines', 'analysis/planted.ts', "import {\n  a,\n  b,\n} from '../rules/index.ts';"],
    ['on demand', 'parts/planted.ts', "const later = () => import('../codec/index.ts');"],
    ['by pattern', 'parts/planted.ts', "const all = import.meta.glob('../rules/*.ts', { eager: true });"],
    ['a face from a face', 'ledger/planted.tsx', "import { Shelf } from '../shelf/Shelf.tsx';"],
    ['an entry', 'state/planted.ts', "import '../main.tsx';"],
    ['react below state', 'rules/planted.ts', "import { useState } from 'react';"],
    ['konva below state', 'scene/planted.ts', "import Konva from 'konva/lib/Core';"],
    ['zustand below state', 'advise/planted.ts', "import { createStore } from 'zustand/vanilla';"],
    ['zod outside the codec', 'plan/planted.ts', "import { z } from 'zod';"],
    ['the page below state', 'sheet/planted.ts', 'export const title = () => document.title;'],
    ['the window below state', 'analysis/planted.ts', "if (typeof window !== 'undefined') run();"],
    ['a page function below state', 'scene/planted.ts', 'requestAnimationFrame(step);'],
    ['a new room', 'cellar/planted.ts', 'export const x = 1;'],
    ['a stray file', 'planted.ts', 'export const x = 1;'],
  ];
  it.each(wrong)('%s', (_what, path, text) => {
    expect(offences({ path, text })).toHaveLength(1);
  });

  const right: readonly (readonly [string, string, string])[] = [
    ['down the house', 'rules/planted.ts', "import { planningLimit } from '../trade/ampacity.ts';\nimport { defineRule } from './defineRule.ts';"],
    ['deeper folder', 'parts/kinds/planted.ts', "import { HEADER } from '../../trade/header.ts';\nimport { definePart } from '../definePart.ts';"],
    ['words in comments and strings', 'trade/planted.ts', "// import x from '../parts/index.ts'; window.open()\nexport const about = 'the document. window.';"],
    ['a field of that name', 'analysis/planted.ts', 'export const w = (load: { window: [number, number] }) => load.window[0];'],
    ['a function of that name', 'parts/planted.ts', 'const [a, b] = window(s);\nfunction window(s: S) { return [1, 2]; }'],
    ['a face that uses the page', 'ui/planted.tsx', "import { useState } from 'react';\nexport const w = () => window.innerWidth;"],
  ];
  it.each(right)('and let pass: %s', (_what, path, text) => {
    expect(offences({ path, text })).toEqual([]);
  });
});

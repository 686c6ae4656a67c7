import { describe, expect, it } from 'vitest';
import { planJsonSchema } from '../../src/codec/index.ts';
import { settingsOf } from '../../src/parts/definePart.ts';
import { partKinds } from '../../src/parts/index.ts';

interface Node {
  readonly properties?: Readonly<Record<string, Node>>;
  readonly additionalProperties?: Node | false;
  readonly oneOf?: readonly Node[];
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly default?: unknown;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly description?: string;
  readonly 'x-unit'?: string;
  readonly 'x-terminals'?: readonly { readonly id: string }[];
}

const schema = planJsonSchema() as Node;
const parts = schema.properties?.parts?.additionalProperties as Node;
const byKind = new Map((parts.oneOf ?? [parts]).map((p) => [p.properties?.kind?.const, p]));

describe('the JSON Schema', () => {
  it('names every part kind with its terminals', () => {
    expect([...byKind.keys()].sort()).toStrictEqual([...partKinds.keys()].sort());
    for (const kind of partKinds.values()) {
      expect(byKind.get(kind.kind)?.['x-terminals']?.map((t) => t.id)).toStrictEqual(kind.terminals(settingsOf(kind, {})).map((t) => t.id));
    }
  });

  it('carries unit, limits, default and basis of every setting', () => {
    for (const kind of partKinds.values()) {
      const settings = byKind.get(kind.kind)?.properties?.settings;
      expect(settings?.additionalProperties, kind.kind).toBe(false);
      for (const setting of kind.settings) {
        const found = settings?.properties?.[setting.key];
        expect(found?.default, `${kind.kind}.${setting.key}`).toBe(setting.default);
        expect(found?.description).toContain(setting.basis);
        if (setting.type === 'number') {
          expect([found?.minimum, found?.maximum, found?.['x-unit'] ?? '']).toStrictEqual([setting.min, setting.max, setting.unit]);
        }
        if (setting.type === 'choice') expect(found?.enum).toStrictEqual(setting.options.map((o) => o.value));
      }
    }
  });

  it('is plain JSON', () => {
    expect(JSON.parse(JSON.stringify(schema))).toStrictEqual(schema);
  });
});

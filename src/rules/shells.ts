import type { PartView } from '../analysis/factsTypes.ts';
import { called } from './defineRule.ts';
import { typing } from './fixes.ts';
import type { Repair } from './types.ts';

/** The setting by which a part says that its metal touches the body. */
const FLAGS: Readonly<Record<string, string>> = { computer: 'caseBonded', camera: 'shellBonded' };

/** The setting that joins a part's 0 V to the body over its case or shell, where it is on; null otherwise. */
export function shellFlag(view: PartView): string | null {
  const flag = FLAGS[view.kind.kind];
  return flag !== undefined && view.s.flag(flag) ? flag : null;
}

/** Cases and shells can be mounted so that they touch nothing. Empty for what has none on the body. */
export function insulated(view: PartView, safe: boolean): Repair[] {
  const flag = shellFlag(view);
  return flag === null ? [] : [typing(view.part.id, { [flag]: false }, `Mount ${called(view)} insulated`, safe)];
}

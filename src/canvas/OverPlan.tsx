import { useState } from 'react';
import { leavePanel, openPanel, type Panel } from '../state/panels.ts';
import { Box, SearchField } from './Box.tsx';
import { commit } from './commands.ts';
import type { Engine } from './engine.ts';
import { FindList } from './FindList.tsx';
import { type Command, GROUPS, type Hand } from './hands/command.ts';
import { commands } from './hands/registry.ts';
import { JoinList } from './JoinList.tsx';
import { ReplaceList } from './ReplaceList.tsx';
import './overPlan.css';

/** What lies over the drawing: menu of what is chosen, list of all commands, find, another kind. */
export default function OverPlan({ engine, panel }: { readonly engine: Engine; readonly panel: Panel }) {
  const hand: Hand = { engine, app: engine.app, open: openPanel };
  switch (panel.kind) {
    case 'menu':
      return <Menu key={`${panel.x},${panel.y}`} hand={hand} panel={panel} />;
    case 'commands':
      return <CommandList hand={hand} />;
    case 'find':
      return <FindList engine={engine} />;
    case 'join':
      return <JoinList app={engine.app} />;
    case 'replace':
      return <ReplaceList app={engine.app} part={panel.part} onTake={(edit) => commit(engine.app, edit)} />;
  }
}

/** Closes what is open, then does it: a command may open the next panel. */
function runNow(command: Command, hand: Hand): void {
  leavePanel();
  command.run(hand);
}

const MENU_NAMES = { parts: 'What to do with the chosen parts', wires: 'What to do with the chosen wire', ground: 'What to do here' } as const;

function Menu({ hand, panel }: { readonly hand: Hand; readonly panel: Panel & { readonly kind: 'menu' } }) {
  const shown = commands.filter((c) => c.where?.includes(panel.of) && c.can(hand));
  return (
    <Box label={MENU_NAMES[panel.of]} at={panel}>
      <Rows commands={shown} hand={hand} />
    </Box>
  );
}

function CommandList({ hand }: { readonly hand: Hand }) {
  const [typed, setTyped] = useState('');
  const wanted = typed.toLowerCase().split(/\s+/);
  const fits = (c: Command): boolean => wanted.every((w) => `${c.title} ${c.words ?? ''} ${c.group}`.toLowerCase().includes(w));
  const shown = commands.filter(fits);
  return (
    <Box label="All commands">
      <SearchField
        label="Search the commands"
        hint="What do you want to do?"
        value={typed}
        onType={setTyped}
        onEnter={() => {
          const first = shown.find((c) => c.can(hand));
          if (first) runNow(first, hand);
        }}
      />
      {shown.length === 0 ? <p className="note">No command is called so.</p> : null}
      {GROUPS.map((group) => {
        const inside = shown.filter((c) => c.group === group);
        return inside.length === 0 ? null : (
          <section key={group} aria-label={group}>
            <h3 className="over">{group}</h3>
            <Rows commands={inside} hand={hand} />
          </section>
        );
      })}
      <p className="note">Arrow keys move chosen parts, with Shift further. Escape puts down what is in the hand. Dimmed: nothing suitable is chosen.</p>
    </Box>
  );
}

function Rows({ commands, hand }: { readonly commands: readonly Command[]; readonly hand: Hand }) {
  return (
    <ul>
      {commands.map((c) => (
        <li key={c.id}>
          <button type="button" disabled={!c.can(hand)} onClick={() => runNow(c, hand)}>
            <span>{c.title}</span> {c.keys?.[0] ? <kbd>{c.keys[0].replaceAll('+', ' ').trim() || '+'}</kbd> : null}
          </button>
        </li>
      ))}
    </ul>
  );
}

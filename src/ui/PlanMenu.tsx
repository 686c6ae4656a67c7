import { useRef } from 'react';
import { Popover } from '../faces/Popover.tsx';
import { openFile, openPlan, saveFile, tryAnother } from '../state/page.ts';
import { app, useApp } from '../state/store.ts';
import { lastCopy } from './lastCopy.ts';
import { Mark } from './Mark.tsx';
import { planName } from './planName.ts';

/** New, open, save as a file, close, and the other plans kept here. */
export function PlanMenu({ onNew }: { onNew(): void }) {
  const plans = useApp((s) => s.plans);
  const openId = useApp((s) => s.plan?.id);
  const copied = useApp((s) => s.copied);
  const file = useRef<HTMLInputElement>(null);
  const others = plans.filter((p) => p.id !== openId).slice(0, 6);
  return (
    <>
      <Popover name="Plans and files" className="btn quiet icon" face={<Mark />}>
        {(close) => {
          const doing = (work: () => unknown) => () => {
            close();
            work();
          };
          return (
            <>
              <button type="button" className="panel-item" onClick={doing(onNew)}>
                New plan …
              </button>
              <button type="button" className="panel-item" onClick={doing(() => file.current?.click())}>
                Open a file …
              </button>
              <button type="button" className="panel-item" onClick={doing(saveFile)}>
                <span>
                  Save as a file
                  <span className="note item-note">{lastCopy(copied)}</span>
                </span>
                <kbd>Ctrl S</kbd>
              </button>
              <button type="button" className="panel-item" onClick={doing(tryAnother)}>
                Try another wiring
              </button>
              <button type="button" className="panel-item" onClick={doing(() => app.getState().setBook(''))}>
                Rule book …
              </button>
              <button type="button" className="panel-item" onClick={doing(() => app.getState().close())}>
                Close this plan
              </button>
              {others.length > 0 ? <p className="over panel-head">Kept in this browser</p> : null}
              {others.map((p) => (
                <button key={p.id} type="button" className="panel-item" onClick={doing(() => openPlan(p.id))}>
                  {planName(p)}
                </button>
              ))}
            </>
          );
        }}
      </Popover>
      <FileInput ref={file} />
    </>
  );
}

export function FileInput({ ref }: { readonly ref: React.Ref<HTMLInputElement> }) {
  return (
    <input
      ref={ref}
      type="file"
      accept=".json,application/json"
      hidden
      aria-label="Plan file"
      onChange={(e) => {
        const chosen = e.currentTarget.files?.[0];
        e.currentTarget.value = '';
        if (chosen) void openFile(chosen);
      }}
    />
  );
}

import { type Analysis, KEY_POSITIONS, type KeyPosition, type PinRow } from '../analysis/types.ts';
import { volts } from '../faces/format.ts';
import type { Id, Part } from '../plan/types.ts';
import { isMomentary, shownAnalysis } from '../state/shown.ts';
import { useApp } from '../state/store.ts';
import { devicesOf, readingOf } from './lookup.ts';

/** Presses a push button and says what each pin it works on reads, in words and volts. */
export function PressButton({ part }: { readonly part: Part }) {
  const down = useApp((s) => s.pressed.includes(part.id));
  const known = useApp((s) => !s.pressed.includes(part.id) || isMomentary(s));
  const analysis = useApp(shownAnalysis);
  const plain = useApp((s) => s.results?.analysis ?? null);
  const key = useApp((s) => s.keyPosition);
  const press = useApp((s) => s.press);
  if (part.kind !== 'push-button' || !analysis || !plain) return null;
  const rows = pinsOf(plain, analysis, part.id);
  return (
    <div className="press">
      <div className="row">
        <button type="button" className={down ? 'btn on' : 'btn'} aria-pressed={down} onClick={() => press(part.id)}>
          {down ? 'Let the button go' : 'Press the button'}
        </button>
        <span className={down ? 'note for-keys' : 'note'}>{down ? 'Esc lets it go too.' : 'It stays down until you let it go.'}</span>
      </div>
      <div role="status">
        {!known ? (
          <p className="note">Pressed: being worked out …</p>
        ) : rows.length === 0 ? (
          <p className="note">No pin of the computer is joined to this button.</p>
        ) : (
          rows.map((row) => (
            <p key={`${row.part}:${row.pin}`} className="press-says">
              {pinSentence(row, key, isPowered(analysis, row.part, key))} <span className="note">({down ? 'pressed' : 'not pressed'})</span>
            </p>
          ))
        )}
      </div>
    </div>
  );
}

/** Pins joined to the button, and any other pin that the press has changed. */
function pinsOf(plain: Analysis, shown: Analysis, button: Id): readonly PinRow[] {
  return shown.pins.filter((row) => {
    if (row.gpio === null) return false;
    if (row.joined === button) return true;
    const before = plain.pins.find((p) => p.part === row.part && p.pin === row.pin);
    return shown !== plain && before !== undefined && row.level.some((level, k) => level !== before.level[k]);
  });
}

function isPowered(analysis: Analysis, computer: Id, key: KeyPosition): boolean {
  const state = KEY_POSITIONS.find((k) => k.key === key)?.state ?? 'RUN_CHARGING';
  return devicesOf(analysis, readingOf(analysis, state, 'typical'), computer).find((d) => d.name === 'powered')?.on ?? true;
}

/** Always in volts: what pulls a pin low is to be compared with 3.30 V. */
function pinVolts(v: number): string {
  return Math.abs(v) < 0.0995 ? `${Math.abs(v).toFixed(2)}\u00a0V` : volts(v);
}

/** "GPIO 5 reads low: 0.07 V". */
export function pinSentence(row: PinRow, key: KeyPosition, powered: boolean): string {
  const at = KEY_POSITIONS.findIndex((k) => k.key === key);
  const pin = `GPIO ${row.gpio}`;
  const level = row.level[at] ?? 'floating';
  const v = pinVolts(row.volts[at] ?? Number.NaN);
  if (!powered) return `${pin} is not read in ${key}: the computer has no power.`;
  if (level === 'floating') return `${pin} floats: nothing holds it at a voltage.`;
  if (level === 'between') return `${pin} reads neither low nor high: ${v}`;
  return `${pin} reads ${level}: ${v}`;
}

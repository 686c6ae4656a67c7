/** HTML text that may go out as it is; everything else is escaped on its way in. */
export interface Html {
  readonly html: string;
}

type Piece = string | number | Html | readonly Html[];

/** Template tag: values are escaped unless they are HTML already. */
export function h(strings: TemplateStringsArray, ...values: readonly Piece[]): Html {
  return { html: strings.reduce((out, text, i) => out + text + (i < values.length ? render(values[i] as Piece) : ''), '') };
}

function render(piece: Piece): string {
  if (typeof piece === 'string') return escapeText(breakable(piece));
  if (typeof piece === 'number') return String(piece);
  return 'html' in piece ? piece.html : piece.map((p) => p.html).join('');
}

/** A word so long may be broken, at so many letters: one that is wider than its column would shrink the whole print. */
const LONG_WORD = /[^\s\u00a0]{25,}/g;
const BREAK_AT = 12;

function breakable(text: string): string {
  return text.replace(LONG_WORD, (word) => [...word].map((letter, i) => (i > 0 && i % BREAK_AT === 0 ? `\u200b${letter}` : letter)).join(''));
}

export function raw(html: string): Html {
  return { html };
}

/** Escapes text for element content and attributes, of HTML and of SVG. */
export function escapeText(text: string): string {
  return text.replace(/[&<>"']/g, (c) => `&#${c.charCodeAt(0)};`);
}

/** A text as a CSS string: every character that is not plain is written by its number. */
export function cssString(text: string): string {
  return `"${[...text].map((c) => (/[A-Za-z0-9 .,-]/.test(c) ? c : `\\${(c.codePointAt(0) as number).toString(16)} `)).join('')}"`;
}

/** A square to tick, large enough for a gloved hand. */
export const TICK = h`<span class="tick"></span>`;

/** The same, crossed: done before this was printed. */
export const TICKED = h`<span class="tick" role="img" aria-label="done">×</span>`;

export interface Column {
  readonly title: string;
  /** `n` figures, `c` centred, `up` centred under a title that stands upright, `keep` unbroken, `blank` room to write; default text. */
  readonly kind?: 'n' | 'c' | 'up' | 'keep' | 'blank';
  /** mm; default as its content asks. */
  readonly widthMm?: number;
}

type Row = readonly (string | Html)[];

/** A table of so few rows stands on one page. */
const MOST_WHOLE = 8;

/** A table whose head is repeated on every page. */
export function table(name: string, columns: readonly Column[], rows: readonly Row[]): Html {
  return h`<table aria-label="${name}"${rows.length <= MOST_WHOLE ? raw(' class="whole"') : raw('')}>
<thead><tr>${columns.map((c) => h`<th scope="col"${attributes(c.kind, c.widthMm)}>${c.kind === 'up' ? h`<span>${c.title}</span>` : c.title}</th>`)}</tr></thead>
<tbody>
${rows.map((row) => tableRow(columns, row))}</tbody>
</table>`;
}

/** A table that needs no head: what its columns are is said in words above it. */
export function bareTable(name: string, columns: readonly Column[], rows: readonly Row[]): Html {
  return h`<table aria-label="${name}"><tbody>
${rows.map((row) => tableRow(columns, row))}</tbody></table>`;
}

function tableRow(columns: readonly Column[], row: Row): Html {
  return h`<tr>${row.map((cell, i) => h`<td${attributes(columns[i]?.kind === 'up' ? 'c' : columns[i]?.kind)}>${cell}</td>`)}</tr>\n`;
}

function attributes(kind: string | undefined, widthMm?: number): Html {
  return h`${kind ? h` class="${kind === 'up' ? 'c up' : kind}"` : raw('')}${widthMm ? h` style="width:${widthMm}mm"` : raw('')}`;
}

export function section(title: string, body: Html, kind = ''): Html {
  // What scrolls sideways on a screen can be reached by the keyboard.
  const reach = kind.includes('wide') ? h` tabindex="0" aria-label="${title}"` : raw('');
  return h`<section${kind ? h` class="${kind}"` : raw('')}${reach}>
<h2>${title}</h2>
${body}
</section>
`;
}

export function list(items: readonly (string | Html)[]): Html {
  return h`<ul>${items.map((i) => h`<li>${i}</li>`)}</ul>`;
}

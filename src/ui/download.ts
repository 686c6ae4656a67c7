/** Hands a text to the person as a file. */
export function download(name: string, text: string, type: string): void {
  // A spreadsheet takes a CSV without this mark for an older encoding and spoils "mm²".
  const mark = type === 'text/csv' ? '\ufeff' : '';
  const url = URL.createObjectURL(new Blob([mark, text], { type: `${type};charset=utf-8` }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser needs the address until it has begun to read it.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** "Mobile library van" as part of a file name: "mobile-library-van". */
export function slug(title: string): string {
  const plain = title
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);
  return plain === '' ? 'plan' : plain;
}

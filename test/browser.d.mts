export function findBrowser(bring?: boolean): { path: string; from: string } | { path: null; advice: string };

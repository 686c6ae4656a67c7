export const TERMS: Record<string, string> = {};

/** Today by the clock of this device, as 2026-05-31. */
export function today(): string {
  return dayOf(new Date());
}

/** Day of a moment by the clock of this device, as 2026-05-31. */
export function dayOf(date: Date): string {
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}

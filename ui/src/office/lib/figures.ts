// Figures typed by hand at the office: dollars and days. What cannot be read is told at once, before anything is sent.

/** Whole cents of dollars as people type them; null for what is none. Nothing typed is nothing. */
export function centsOf(text: string): number | null {
  const bare = text.trim().replace(/^\$\s*/, '').replace(/(\d),(?=\d{3}(\D|$))/g, '$1');
  if (bare === '') return 0;
  return /^\d{1,9}(\.\d{1,2})?$/.test(bare) ? Math.round(Number(bare) * 100) : null;
}

/** Tenths of days: "2", "1.5", "1 1/2", "1/4"; null for what is none. Quarters round to the nearer tenth above. */
export function tenthsOf(text: string): number | null {
  const bare = text.trim().replace(',', '.');
  if (bare === '') return 0;
  if (/^\d{1,4}(\.\d{1,2})?$/.test(bare)) return Math.round(Number(bare) * 10);
  const [, whole, over, under] = /^(?:(\d{1,4})\s+)?(\d{1,2})\/(\d{1,2})$/.exec(bare) ?? [];
  if (!over || !under || Number(under) === 0) return null;
  return Math.round((Number(whole ?? 0) + Number(over) / Number(under)) * 10);
}

/** Days as they are typed again. */
export function daysTyped(tenths: number): string {
  return tenths === 0 ? '' : String(tenths / 10);
}

/** Dollars as they are typed again. */
export function dollarsTyped(cents: number): string {
  if (cents === 0) return '';
  return cents % 100 === 0 ? String(cents / 100) : (cents / 100).toFixed(2);
}

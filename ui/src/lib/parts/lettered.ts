// Splits a text at its inch fractions, so that they can be lettered as fractions, and sets inch and foot marks as
// primes. Reads nothing into them. (No look-behind in the patterns: older web views refuse the whole page for one.)
export type Piece = { text: string } | { over: string; under: string };

export function pieces(plain: string): Piece[] {
  const text = plain.replace(/(\d)"/g, '$1″').replace(/(\d)'(?![A-Za-z])/g, '$1′');
  const found: Piece[] = [];
  let from = 0;
  // A fraction stands alone or after a whole number: 3/8, 19 3/8, 19-3/8; not in a date or a path such as 3/8/26.
  for (const match of text.matchAll(/(^|[^\d/.])(\d{1,2})\/(\d{1,3})(?![\d/.])/g)) {
    const [whole, lead, over, under] = match as unknown as [string, string, string, string];
    const before = (text.slice(from, match.index) + lead).replace(/(\d)[ -]$/, '$1\u2009');
    if (before) found.push({ text: before });
    found.push({ over, under });
    from = match.index + whole.length;
  }
  if (from < text.length) found.push({ text: text.slice(from) });
  return found;
}

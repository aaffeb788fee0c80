// Finding something in a list by some of its words, whatever their case and accents.
const plain = (text: string) => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();

/** Those in which every word that was typed stands somewhere, in their order. */
export function matching<T>(all: readonly T[], typed: string, words: (one: T) => string): T[] {
  const wanted = plain(typed).split(/\s+/).filter((word) => word !== '');
  return all.filter((one) => {
    const there = plain(words(one));
    return wanted.every((word) => there.includes(word));
  });
}

// The made-up language qps: English letters with marks, each text between brackets, so that what is still in plain
// letters on a screen never went through the messages. The same rule as in crates/words/src/pseudo.rs.
const PLAIN = 'abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ';
const MARKED = [...'áβçđéƒĝĥíĵķĺшñóþǫŕšţúνŵχýžÁßÇĐÉΦĜĤÍĴĶĹШÑÓÞǪŔŠŢÚΛŴЖÝŽ'];

export function pseudo(text: string): string {
  if (!/[A-Za-z]/.test(text)) return text;
  return `[${text.replace(/[A-Za-z]/g, (letter) => MARKED[PLAIN.indexOf(letter)]!)}]`;
}

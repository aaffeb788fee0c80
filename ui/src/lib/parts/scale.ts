// A drawn scale from 0: a round end beyond the greatest value and the values to letter.
export interface Scale {
  end: number;
  letters: number[];
}

export function scale(greatest: number): Scale {
  if (!(greatest > 0)) return { end: 1, letters: [0, 1] };
  const ten = 10 ** Math.floor(Math.log10(greatest));
  const step = [0.2, 0.5, 1, 2].map((part) => part * ten).find((size) => greatest / size <= 5) ?? 2 * ten;
  // The small part more keeps a value that lies on a step from being taken for one just below it.
  const count = Math.floor(greatest / step + 1e-9) + 1;
  // Rounded to the step's own last place, so that 0.2 three times is lettered 0.6.
  const places = Math.max(0, 1 - Math.floor(Math.log10(step)));
  const letters = Array.from({ length: count + 1 }, (_, i) => Number((i * step).toFixed(places)));
  return { end: letters[count] ?? 1, letters };
}

// Which drawing shows what a length is of, and where in it the dimension lies: from and to in the drawing, and on
// which side its value is lettered. An item that a firm adds has none and is measured without a drawing.
export type View = 'sink' | 'floor' | 'wall' | 'ceiling' | 'run';

export interface Dimension {
  view: View;
  from: readonly [number, number];
  to: readonly [number, number];
  letter: 'right' | 'left' | 'above' | 'below';
}

const sink = (from: Dimension['from'], to: Dimension['to'], letter: Dimension['letter']): Dimension => ({ view: 'sink', from, to, letter });

export const DIMENSIONS: Record<string, Dimension> = {
  'bowl-depth': sink([206, 26], [206, 94], 'right'),
  'counter-height': sink([96, 26], [96, 272], 'left'),
  'counter-thick': sink([452, 26], [452, 36], 'right'),
  'disposer-drop': sink([300, 94], [300, 132], 'right'),
  'floor-buildup': sink([452, 262], [452, 272], 'right'),
  'stub-height': sink([452, 142], [452, 272], 'right'),
  'cabinet-toe-kick': sink([452, 246], [452, 272], 'right'),
  'cabinet-floor-thick': sink([452, 239], [452, 246], 'right'),
  'arm-length': sink([262, 166], [372, 166], 'below'),
  'trap-run': sink([262, 166], [372, 166], 'below'),
  'bulkhead-drop': { view: 'ceiling', from: [330, 60], to: [330, 128], letter: 'right' },
  'ceiling-joists': { view: 'ceiling', from: [452, 18], to: [452, 54], letter: 'right' },
  'wall-thick': { view: 'wall', from: [190, 214], to: [206, 214], letter: 'below' },
  'wall-plumb': { view: 'wall', from: [206, 34], to: [236, 34], letter: 'right' },
  'plane-gap': { view: 'floor', from: [300, 116], to: [300, 140], letter: 'right' },
  'floor-fall': { view: 'floor', from: [410, 76], to: [410, 140], letter: 'left' },
  'floor-thick': { view: 'floor', from: [136, 116], to: [136, 148], letter: 'right' },
  'gas-run-length': { view: 'run', from: [70, 196], to: [408, 196], letter: 'above' },
};

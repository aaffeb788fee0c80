// The ticks of a card that takes several options, until they are answered.
import type { CardView, OptionView } from '../bindings/views';

export class Ticks {
  ticked = $state<string[]>([]);
  readonly #alone: Set<string>;

  constructor(card: CardView) {
    this.ticked = card.options.filter((one) => one.chosen).map((one) => one.id);
    this.#alone = new Set(card.options.filter((one) => one.alone).map((one) => one.id));
  }

  has(id: string): boolean {
    return this.ticked.includes(id);
  }

  /** Ticks or unticks; an option that stands alone takes the others' place. True when it is a whole answer by itself. */
  toggle({ id, alone }: OptionView): boolean {
    if (alone) {
      this.ticked = [id];
      return true;
    }
    const others = this.ticked.filter((one) => one !== id && !this.#alone.has(one));
    this.ticked = this.has(id) ? others : [...others, id];
    return false;
  }
}

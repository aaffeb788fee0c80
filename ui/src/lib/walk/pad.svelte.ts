// The keypad of a measurement: digits, feet, an inch fraction by halves that add up, a nudge. It writes what was keyed
// as text; the program reads the text, so that nothing is parsed or reckoned here but the keys themselves.
export const HALVES = [8, 4, 2, 1] as const;
export const TOLERANCES = ['1/16', '1/8', '1/4', '1'] as const;
export const METRIC_TOLERANCES = ['2', '3', '6', '25'] as const;

const MOST_DIGITS = 5;

export class Pad {
  /** Whole inches, feet before the feet key, or millimeters: as keyed. */
  digits = $state('');
  /** Feet, once the feet key was pressed. */
  feet = $state<string | null>(null);
  /** Of an inch. */
  sixteenths = $state(0);
  /** Below the plane it is measured from. */
  minus = $state(false);
  metric = $state(false);
  /** Words typed instead of keys. */
  typed = $state<string | null>(null);
  /** Which of the tolerances. */
  tolerance = $state(1);

  constructor(readonly unit: string) {}

  /** Starts from the unit and tolerance of the last measurement in the house. */
  like(metric: boolean, tolerance: string | null): this {
    this.metric = metric;
    const kept = TOLERANCES.findIndex((one) => `${one}"` === tolerance);
    // A run of many feet is not read to an eighth of an inch.
    this.tolerance = this.unit === 'ft' ? TOLERANCES.length - 1 : kept >= 0 ? kept : this.tolerance;
    return this;
  }

  /** True where the digits being keyed are feet. */
  get inFeet(): boolean {
    return this.unit === 'ft' && this.feet === null && !this.metric;
  }

  get empty(): boolean {
    return this.text === '';
  }

  /** What was keyed, as one would write it. */
  get text(): string {
    if (this.typed !== null) return this.typed.trim();
    if (this.digits === '' && this.feet === null && this.sixteenths === 0) return '';
    const sign = this.minus ? '-' : '';
    if (this.metric) return `${sign}${this.digits || '0'} mm`;
    const [over, under] = reduced(this.sixteenths);
    const part = over === 0 ? '' : `${over}/${under}`;
    if (this.inFeet) return `${sign}${this.digits || '0'}'${part && ` ${part}"`}`;
    const inches = [this.digits.replace(/^0+(?=\d)/, ''), part].filter((piece) => piece !== '').join(' ') || '0';
    return this.feet === null ? `${sign}${inches}"` : `${sign}${this.feet}' ${inches}"`;
  }

  get toleranceText(): string {
    return this.metric ? `${METRIC_TOLERANCES[this.tolerance]} mm` : `${TOLERANCES[this.tolerance]} in`;
  }

  digit(key: string) {
    this.typed = null;
    if (this.digits.length < MOST_DIGITS) this.digits += key;
  }

  /** What was keyed so far is feet; inches follow. */
  toInches() {
    if (this.metric || this.feet !== null || this.digits === '') return;
    this.typed = null;
    this.feet = this.digits;
    this.digits = '';
  }

  half(sixteenths: number) {
    this.typed = null;
    this.sixteenths ^= sixteenths;
  }

  /** One sixteenth or one millimeter more or less, carried over. */
  nudge(by: 1 | -1) {
    this.typed = null;
    if (this.metric) {
      this.digits = String(Math.max(0, Number(this.digits || '0') + by));
      return;
    }
    const feet = this.inFeet ? this.digits : this.feet;
    const inches = this.inFeet ? '0' : this.digits;
    const total = Math.max(0, (Number(feet ?? '0') * 12 + Number(inches || '0')) * 16 + this.sixteenths + by);
    this.sixteenths = total % 16;
    const whole = Math.floor(total / 16);
    if (feet === null) this.digits = String(whole);
    else {
      this.feet = String(Math.floor(whole / 12));
      this.digits = String(whole % 12);
    }
  }

  rubOut() {
    if (this.typed !== null) this.typed = null;
    else if (this.sixteenths !== 0) this.sixteenths = 0;
    else if (this.digits !== '') this.digits = this.digits.slice(0, -1);
    else if (this.feet !== null) {
      this.digits = this.feet;
      this.feet = null;
    } else this.minus = false;
  }

  /** The other system, from the beginning: a reading is never changed by changing its unit. */
  use(metric: boolean) {
    if (metric === this.metric) return;
    this.metric = metric;
    this.digits = '';
    this.feet = null;
    this.sixteenths = 0;
    this.typed = null;
  }
}

/** Sixteenths with the fraction reduced. */
export function reduced(sixteenths: number): [number, number] {
  let [over, under] = [sixteenths, 16];
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2];
  return [over, under];
}

/** The keypad of a number: digits, a point, a sign. */
export class Figures {
  digits = $state('');
  minus = $state(false);

  get text(): string {
    return this.digits === '' ? '' : `${this.minus ? '-' : ''}${this.digits}`;
  }

  digit(key: string) {
    if (key === '.' && (this.digits === '' || this.digits.includes('.'))) return;
    if (this.digits.length <= MOST_DIGITS) this.digits += key;
  }

  rubOut() {
    if (this.digits !== '') this.digits = this.digits.slice(0, -1);
    else this.minus = false;
  }
}

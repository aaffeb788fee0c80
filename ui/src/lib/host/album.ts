// Photographs held in memory, for tests and for looking at the screens in a browser. Never part of the program.
import type { CardView, MarkView, MeasuredOnPhotoView, PhotoAboutView, PhotoMarkedView, PhotoPlaceView, PhotosView, PhotoTakenView } from '../bindings/views';
import { HostError, type NewMark, type NewPhoto, type OnSheet } from './host';

/** A photograph in memory. */
export interface Held {
  digest: string;
  name: string;
  /** What it shows. */
  key: string | null;
  width: number;
  height: number;
  picture: Blob | null;
  marks: MarkView[];
}

const by = 'Rosa Lind';

export class Album {
  /** What the program itself would say, in the language shown. */
  said = (text: string) => text;
  /** What is pointed out of a file of this name. */
  readonly points = new Map<string, string[]>();
  held: Held[] = [];
  /** What any length comes to. */
  measures: MeasuredOnPhotoView = {
    inches: '19-3/8"', metric: '492 mm', tolerance: '3/8"', distanceFeet: 4, distanceInches: 2, focalAssumed: true, recorded: null, complaints: [],
  };
  #made = 0;

  take({ name, key, bytes }: NewPhoto): PhotoTakenView {
    if (!/\.(jpe?g|png|webp|heic|svg)$/i.test(name)) throw new HostError('input', `${name} is no photograph.`, 'Choose a JPEG.');
    const known = this.held.find((one) => one.name === name);
    const digest = known?.digest ?? `f0${(this.#made += 1).toString(16).padStart(10, '0')}`;
    if (!known) this.held.push({ digest, name, key: key ?? null, width: 1600, height: 1200, picture: bytes, marks: [] });
    return { digest, known: known !== undefined, complaints: [], notes: this.points.get(name) ?? [] };
  }

  picture(digest: string): Blob {
    const { picture } = this.#find(digest);
    if (!picture) throw new HostError('damaged', this.said('It cannot be shown.'));
    return picture;
  }

  list(survey: string, label: string, cards: CardView[], key?: string): PhotosView {
    const shown = this.held.filter((one) => key === undefined || one.key === key);
    const places: PhotoPlaceView[] = [];
    for (const one of shown) {
      const card = cards.find((card) => card.key === one.key);
      const place = card?.placeLabel ?? null;
      let there = places.find((it) => it.place === place);
      if (!there) places.push((there = { place, photos: [] }));
      there.photos.push({ digest: one.digest, name: one.name, at: '2026-03-03T10:31:00-05:00', by, shows: card ? [card.question] : [], width: one.width, height: one.height, marks: one.marks });
    }
    const card = cards.find((one) => one.key === key);
    const missing = cards.filter((one) => one.photo === 'needed' && !this.held.some((photo) => photo.key === one.key));
    return { survey, label, photos: this.held.length, about: card ? about(card) : null, places, wanted: key === undefined ? missing.map(about) : [] };
  }

  marked(digest: string, cards: CardView[]): PhotoMarkedView {
    const { key, width, height, marks } = this.#find(digest);
    const card = cards.find((one) => one.key === key);
    const near = cards.filter((one) => one.kind === 'length' && (!card || one.place === card.place));
    const lengths = [...near.filter((one) => one.key === key), ...near.filter((one) => one.key !== key)].map(about);
    return { digest, place: card?.placeLabel ?? null, shows: card ? [card.question] : [], width, height, marks, lengths };
  }

  mark(digest: string, mark: NewMark) {
    const one = this.#find(digest);
    if (mark.kind === 'dimension' && !/\d/.test(mark.length)) throw new HostError('input', `“${mark.length}” is no length`, 'write 19 3/8');
    const text = mark.kind === 'words' ? mark.text : mark.kind === 'dimension' ? `${mark.length}" ± ${mark.tolerance ?? ''}"` : '';
    one.marks = [...one.marks, { id: `m${(this.#made += 1)}`, by, kind: mark.kind, points: mark.points, text }];
  }

  back(digest: string, mark: string) {
    const one = this.#find(digest);
    if (!one.marks.some((it) => it.id === mark)) throw new HostError('missing', 'No such mark.');
    one.marks = one.marks.filter((it) => it.id !== mark);
  }

  measure(digest: string, { corners, ends, key }: OnSheet): MeasuredOnPhotoView {
    this.#find(digest);
    if (corners.length !== 4 || ends.length !== 2) throw new HostError('input', 'Four corners and two ends are needed.');
    return { ...this.measures, recorded: key === undefined ? null : this.measures.inches };
  }

  #find(digest: string): Held {
    const found = this.held.find((one) => one.digest === digest);
    if (!found) throw new HostError('missing', `No photograph ${digest}.`);
    return found;
  }
}

function about({ key, question, placeLabel, photoNote }: CardView): PhotoAboutView {
  return { key, question, place: placeLabel, note: photoNote };
}

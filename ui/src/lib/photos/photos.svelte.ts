// The photographs of a house or of one of its cards, and taking more: one after the other, each kept before the next.
import type { PhotosView, PhotoTakenView } from '../bindings/views';
import { HostError, type Host } from '../host/host';
import { Reading } from '../reading.svelte';
import type { Words } from '../words/words';

/** A photograph taken in on this visit. */
export interface Taken {
  name: string;
  said: PhotoTakenView | null;
  refused: HostError | null;
}

export class Photos extends Reading<PhotosView> {
  /** Those taken in on this visit, the last one first. */
  taken = $state.raw<Taken[]>([]);
  /** How many of how many are kept, while several come in. */
  coming = $state.raw<{ kept: number; of: number } | null>(null);
  #stop = false;

  constructor(
    readonly host: Host,
    readonly survey: string,
    readonly key?: string,
  ) {
    super(() => host.ask('photos', key === undefined ? { survey } : { survey, key }));
  }

  /** Takes files in and reads the photographs again. */
  async take(files: readonly File[]): Promise<void> {
    if (await this.keep(files)) await this.read();
  }

  /** Takes files in, in order. One that is refused is said, and does not keep the others out. False when there was
   *  nothing to do. */
  async keep(files: readonly File[]): Promise<boolean> {
    if (this.coming || files.length === 0) return false;
    this.#stop = false;
    this.taken = [];
    try {
      for (const [kept, file] of files.entries()) {
        if (this.#stop) break;
        this.coming = { kept, of: files.length };
        this.taken = [await this.#one(file), ...this.taken];
      }
    } finally {
      this.coming = null;
    }
    return true;
  }

  /** No further ones are taken in; those that are kept stay. */
  stop() {
    this.#stop = true;
  }

  /** After an act was taken back: of those taken on this visit only what is still there is told. */
  async takenBack(): Promise<void> {
    await this.read();
    const there = new Set(this.value?.places.flatMap((place) => place.photos.map((one) => one.digest)));
    this.taken = this.taken.filter((one) => one.said === null || there.has(one.said.digest));
  }

  async #one(file: File): Promise<Taken> {
    const about = this.key === undefined ? {} : { key: this.key };
    try {
      const said = await this.host.takePhoto({ survey: this.survey, name: file.name, bytes: file, ...about });
      return { name: file.name, said, refused: null };
    } catch (thrown) {
      return { name: file.name, said: null, refused: HostError.from(thrown) };
    }
  }

  /** How many show what is asked for. */
  get count(): number {
    return (this.value?.places ?? []).reduce((sum, place) => sum + place.photos.length, 0);
  }

  heading(words: Words): string {
    const it = this.value;
    if (!it) return words.say(this.trouble ? 'failed-heading' : 'reading');
    return it.about?.note ?? it.about?.question ?? words.say('photos-heading', { n: it.photos });
  }
}

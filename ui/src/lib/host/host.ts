// The one door from the screens to the program behind them: commands by name, the same table as in crates/commands.
import type {
  DoneView, FitsView, FitView, HandedOverView, HouseCard, HouseView, LeavingView, LeftView, LengthView, LookNextView,
  OddsNowView,
  HouseholdPageView, MeasuredOnPhotoView, OfficeLink, PacketsView, Pairing, PhotoMarkedView, PhotosView, PhotoTakenView, ScreensView, SealingView, Sending, SettingsView, StartFormView,
  WalkView,
} from '../bindings/views';

type Nothing = Record<string, never>;
type OfHouse = { survey: string };

/** An answer to a card: what was said, or why it could not be reached. */
export interface Answer {
  /** Option ids, a length or a number as written, or "cant-tell". */
  answer?: string[];
  couldNotReach?: string;
  tolerance?: string;
  /** A value outside what is plausible is meant. */
  sure?: boolean;
}

/** A house to start. */
export interface NewHouse {
  label: string;
  year: string;
  /** The year is right within so many years; 0 when it is known, null when nobody knows. */
  within: number | null;
  contractCents: number | null;
  planned: string[];
  by: string;
}

export type CheckResult = 'shows-it' | 'shows-not' | 'unclear';

/** A point of the upright picture, pixels to the right and down. */
export type Spot = [number, number];

/** A mark to be made on a photograph; lengths as written. */
export type NewMark =
  | { kind: 'arrow' | 'ring'; points: Spot[] }
  | { kind: 'words'; points: Spot[]; text: string }
  | { kind: 'dimension'; points: Spot[]; length: string; tolerance: string | null };

/** What lies flat in the picture; its own size as written. */
export type Sheet = { kind: 'letter' } | { kind: 'a4' } | { kind: 'own'; width: string; height: string };

/** A length to be measured; it is recorded only with a key. */
export interface OnSheet {
  sheet: Sheet;
  lying: boolean;
  corners: Spot[];
  ends: Spot[];
  key?: string;
}

/** What can be set on a device; an empty value goes back to what it was without. */
export type Setting = 'firm' | 'address' | 'by' | 'device' | 'language' | 'light' | 'unit' | 'tolerance' | `codes-${string}`;

/** A photograph as it comes from the camera. */
export interface NewPhoto {
  survey: string;
  /** What it shows. */
  key?: string;
  name: string;
  bytes: Blob;
}

/** Each command: what it is asked with, and what it gives. `null`: broken off, because something else was asked. */
export interface Commands {
  houses: [Nothing, HouseCard[]];
  house: [OfHouse, HouseView];
  'start-form': [Nothing, StartFormView];
  'start-house': [NewHouse, WalkView];
  walk: [OfHouse & { key?: string }, WalkView];
  answer: [OfHouse & { key: string } & Answer, DoneView];
  remark: [OfHouse & { key: string; text: string }, WalkView];
  undo: [OfHouse, DoneView];
  'add-place': [OfHouse & { station: string; label: string }, WalkView];
  'name-place': [OfHouse & { place: string; label: string }, WalkView];
  'take-out-place': [OfHouse & { place: string }, WalkView];
  'move-stop': [OfHouse & { place: string; toward: 'earlier' | 'later' }, WalkView];
  'read-length': [{ key: string; text: string }, LengthView];
  'look-next': [OfHouse, LookNextView | null];
  'show-check': [OfHouse & { check: string; shown: { condition: string; result: CheckResult }[] }, DoneView];
  leaving: [OfHouse, LeavingView | null];
  assess: [OfHouse, HouseView];
  'declare-demolition': [OfHouse & { reason: string }, WalkView];
  'withdraw-demolition': [OfHouse & { reason: string }, WalkView];
  'money-now': [OfHouse, OddsNowView | null];
  'odds-now': [OfHouse, OddsNowView | null];
  'odds-why': [OfHouse, OddsNowView | null];
  fits: [OfHouse, FitsView];
  fit: [OfHouse & { key: string; typed?: [string, string][] | null }, FitView];
  photos: [OfHouse & { key?: string }, PhotosView];
  photo: [OfHouse & { photo: string }, PhotoMarkedView];
  mark: [OfHouse & { photo: string; mark: NewMark }, PhotoMarkedView];
  'take-mark-back': [OfHouse & { photo: string; mark: string }, PhotoMarkedView];
  'measure-on-photo': [OfHouse & { photo: string } & OnSheet, MeasuredOnPhotoView];
  packets: [OfHouse, PacketsView];
  seal: [OfHouse & { household: 'en' | 'es'; signs: boolean }, SealingView];
  'household-page': [OfHouse, HouseholdPageView];
  'household-signs': [OfHouse & { name: string; strokes: [number, number][][] }, SealingView];
  'seal-on': [OfHouse, SealingView];
  'stop-sealing': [OfHouse, PacketsView];
  'hand-over': [OfHouse & { number: number; pages: boolean }, HandedOverView];
  office: [Nothing, OfficeLink];
  'read-link': [{ link: string }, Pairing];
  pair: [{ link: string; name: string }, OfficeLink];
  unpair: [Nothing, OfficeLink];
  'fetch-catalog': [Nothing, OfficeLink];
  send: [OfHouse & { packet: string }, Sending[]];
  sending: [Nothing, Sending[]];
  screens: [Nothing, ScreensView];
  settings: [Nothing, SettingsView];
  set: [{ setting: Setting; value: string }, SettingsView];
  left: [Nothing, LeftView];
  'leave-house': [Nothing, null];
}

export interface Host {
  ask<Name extends keyof Commands>(name: Name, args: Commands[Name][0]): Promise<Commands[Name][1]>;
  /** Takes a photograph in. Its bytes go as they are. */
  takePhoto(photo: NewPhoto): Promise<PhotoTakenView>;
  /** Reads the code of an office in a picture. Its bytes go as they are. */
  pairPhoto(bytes: Blob): Promise<Pairing>;
  /** The picture of a photograph to be shown alone: upright, 1600 pixels at most. */
  picture(digest: string): Promise<Blob>;
  /** The same to be shown among others, 320 pixels at most. */
  thumbnail(digest: string): Promise<Blob>;
}

/** What went wrong, for which reason, and how to mend it. */
export class HostError extends Error {
  constructor(
    readonly kind: string,
    message: string,
    readonly hint: string | null = null,
  ) {
    super(message);
  }

  /** Whatever was thrown, as one of ours: the program sends {kind, message, hint}. */
  static from(thrown: unknown): HostError {
    if (thrown instanceof HostError) return thrown;
    if (typeof thrown === 'object' && thrown !== null && 'message' in thrown) {
      const { kind, message, hint } = thrown as { kind?: unknown; message: unknown; hint?: unknown };
      return new HostError(String(kind ?? 'internal'), String(message), typeof hint === 'string' ? hint : null);
    }
    return new HostError('internal', String(thrown));
  }
}

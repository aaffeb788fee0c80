// The one door from the office's screens to the program behind them: commands by name, packets and pictures beside them.
import type { ArrivalView, Arriving, ComparedView, FindingRowView, FindingsView, InboxView, Invitation, LearningView, PublishedView, OfficeHouseView, OtherRowView, OutcomeView, QrCode, Tablet, TrackView } from '../../lib/bindings/views';

type Nothing = Record<string, never>;
type OfHouse = { survey: string };

/** What somebody may do; each may what those before may. */
export const ROLES = ['estimator', 'office', 'reviewer', 'owner'] as const;
export type Role = (typeof ROLES)[number];

export interface Session {
  person: {
    id: string;
    name: string;
    role: Role;
    /** The password is the one an owner chose: nothing is done before they choose their own. */
    first_password: boolean;
    /** They have a second factor. */
    second_factor: boolean;
    /** The office asks everybody for one, and they have none: nothing is done before they set it up. */
    second_wanted: boolean;
    second_demanded: boolean;
    /** After how long without a question the session ends, in milliseconds. */
    idle_ms: number;
  } | null;
  /** False until the first owner was set up. */
  set_up: boolean;
  firm: string | null;
}

/** A second factor that is being set up: what goes into the app on the phone. */
export interface ToBring {
  secret: string;
  link: string;
  qr: QrCode | null;
}

/** A browser in which somebody is signed in. */
export interface OwnSession {
  id: string;
  since: string | null;
  seen: string | null;
  from: string | null;
  /** It is this one. */
  here: boolean;
}

export interface Person {
  id: string;
  name: string;
  role: Role;
  locked: boolean;
  second_factor: boolean;
  since: string;
}

/** Somebody did something. */
export interface AuditLine {
  n: number;
  at: string;
  who: string | null;
  what: string;
  about: string | null;
  address: string | null;
}

/** Who sees a house: everybody, or owners and those of the others who are named. */
export interface Seen {
  closed: boolean;
  people: { id: string; name: string; role: Role; sees: boolean }[];
}

/** Who bore a cost, where it stood in no price. */
export type PaidBy = 'absorbed' | 'allowance' | 'change-order';

/** By what a track record is split. */
export type Split = 'all' | 'condition' | 'era' | 'scope' | 'surveyor' | 'month';

/** A finding to be entered. */
export interface NewFinding {
  survey: string;
  condition: string;
  outcome: OutcomeView;
  cost_cents?: number;
  days_tenths?: number;
  in_price?: boolean;
  paid_by?: PaidBy;
  note?: string;
  photo?: string;
}

/** Each command: what it is asked with, and what it gives. */
export interface OfficeCommands {
  session: [Nothing, Session];
  'set-up': [{ token: string; firm: string; name: string; password: string }, Session];
  'sign-in': [{ name: string; password: string; code?: string }, Session];
  'sign-out': [Nothing, unknown];
  'change-password': [{ old: string; new: string; code?: string }, Session];
  'begin-second-factor': [{ password: string; code?: string }, ToBring];
  'confirm-second-factor': [{ code: string }, Session];
  'drop-second-factor': [{ password: string; code: string }, Session];
  'own-sessions': [Nothing, OwnSession[]];
  'end-own-sessions': [{ id?: string; password: string }, OwnSession[]];
  people: [Nothing, Person[]];
  'add-person': [{ name: string; role: Role; password: string }, unknown];
  'set-role': [{ id: string; role: Role }, unknown];
  unlock: [{ id: string }, unknown];
  'end-sessions': [{ id: string }, unknown];
  'lift-second-factor': [{ id: string }, unknown];
  'demand-second-factor': [{ demanded: true } | { demanded: false; password: string; code?: string }, unknown];
  'remove-person': [{ id: string }, unknown];
  audit: [{ before?: number }, AuditLine[]];
  'who-sees': [OfHouse, Seen];
  'close-house': [OfHouse, Seen];
  'let-see': [OfHouse & { id: string; sees: boolean }, Seen];
  'open-house': [OfHouse, Seen];
  inbox: [Nothing, InboxView];
  house: [OfHouse & { packet?: string }, OfficeHouseView];
  findings: [OfHouse, FindingsView];
  'enter-finding': [NewFinding, FindingRowView];
  /** About a condition that the forecast does not hold. */
  'enter-other-finding': [NewFinding, OtherRowView];
  comparison: [OfHouse, ComparedView];
  tablets: [Nothing, Tablet[]];
  'invite-tablet': [{ address?: string }, Invitation];
  'revoke-tablet': [{ id: string; key: boolean }, Tablet[]];
  arriving: [Nothing, Arriving[]];
  track: [{ by: Split; include_seen: boolean }, TrackView];
  learning: [Nothing, LearningView];
  'accept-learning': [{ lines: string[] }, { lines: string[]; houses: number; catalog: string }];
  'refuse-learning': [{ line: string; why: string }, LearningView];
  published: [Nothing, PublishedView];
  'publish-catalog': [{ again?: boolean }, PublishedView];
}

/** How far something is that is being sent. */
export type Progress = (sent: number, of: number) => void;

export interface OfficeHost {
  ask<Name extends keyof OfficeCommands>(name: Name, args: OfficeCommands[Name][0]): Promise<OfficeCommands[Name][1]>;
  /** Hands a packet in. Its bytes go as they are. */
  sendPacket(file: File, progress: Progress): Promise<ArrivalView>;
  /** Hands in the photograph of a finding; its digest. */
  sendFindingPhoto(file: File, progress: Progress): Promise<{ digest: string }>;
  /** Where pictures and pages are. */
  picture(packet: string, photo: string): string;
  thumbnail(packet: string, photo: string): string;
  findingPicture(photo: string): string;
  page(packet: string, name: string): string;
}

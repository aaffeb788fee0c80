// Made from crates/views/src/*shape.rs by the test in shape.rs; run it with UPDATE_BINDINGS=1 to write.
import type { HoldsView } from './office';

export type OfficeLink = { 
/**
 * The office; none until the tablet is paired.
 */
office: LinkedOffice | null, 
/**
 * The catalog an office published and this tablet took; none: it walks by the shipped one, or its own files.
 */
catalog: TakenView | null, 
/**
 * Why the last one that came was not taken.
 */
notTaken: string | null, };

export type TakenView = { 
/**
 * Which.
 */
version: VersionView, 
/**
 * When this tablet took it, by its own clock.
 */
since: string, 
/**
 * Why it is not in use all the same; none where it is.
 */
unused: string | null, };

export type VersionView = { 
/**
 * Its number.
 */
number: number, 
/**
 * When it was published, by the office's clock.
 */
at: string, 
/**
 * By whom.
 */
by: string, 
/**
 * How many houses stand in its numbers.
 */
houses: number, 
/**
 * First digits of the digest of the whole catalog.
 */
catalog: string, };

export type PublishedView = { 
/**
 * The last version; none: nothing was published.
 */
last: VersionView | null, 
/**
 * True where the firm's numbers are others by now.
 */
differs: boolean, };

export type LinkedOffice = { 
/**
 * Name of the firm.
 */
firm: string, 
/**
 * Where the office is: a name or an address, and a port.
 */
address: string, 
/**
 * SHA-256 of the office's certificate, as the office's console prints it.
 */
fingerprint: string, 
/**
 * What this tablet is called there.
 */
device: string, 
/**
 * When it was paired, by this tablet's clock.
 */
since: string, };

export type Pairing = { 
/**
 * The link itself, to be handed to `pair`.
 */
link: string, 
/**
 * Name of the firm, as the link says.
 */
firm: string, 
/**
 * Where the office is: a name or an address, and a port.
 */
address: string, 
/**
 * SHA-256 of the certificate the office will show, as its console prints it.
 */
fingerprint: string, };

export type SendingState = "waiting" | "going" | "acknowledged" | "refused";

export type Sending = { 
/**
 * SHA-256 of the packet.
 */
packet: string, 
/**
 * Survey id.
 */
survey: string, 
/**
 * Its length in bytes.
 */
bytes: number, 
/**
 * Bytes the office has of it.
 */
sent: number, 
/**
 * How far it is.
 */
state: SendingState, 
/**
 * What is to be said of it: why it waits, why it was refused, when the office had it.
 */
said: string | null, 
/**
 * When it came to stand so.
 */
at: string, };

export type Tablet = { 
/**
 * Its number.
 */
id: string, 
/**
 * What it is called.
 */
name: string, 
/**
 * Thumbprint of its key.
 */
key: string, 
/**
 * When it was paired.
 */
pairedAt: string, 
/**
 * Who invited it.
 */
pairedBy: string | null, 
/**
 * When it was last here.
 */
lastSeen: string | null, 
/**
 * Since when it may send nothing more.
 */
revokedAt: string | null, 
/**
 * What it said it holds of the published catalog.
 */
holds: HoldsView, 
/**
 * The version it said it holds.
 */
version: number | null, 
/**
 * A version that was handed to it, until it says that it took it.
 */
handed: number | null, };

export type Invitation = { 
/**
 * The link, to be pasted where no camera is.
 */
link: string, 
/**
 * The same as a picture.
 */
qr: QrCode, 
/**
 * Until when it can be used, and once only.
 */
until: string, };

export type QrCode = { 
/**
 * Modules on each side, the quiet zone of four around it counted in.
 */
size: number, 
/**
 * Its black modules as the `d` of an SVG path, one unit to a module.
 */
path: string, };

export type Arriving = { 
/**
 * SHA-256 of the packet.
 */
packet: string, 
/**
 * Which tablet sends it.
 */
tablet: string, 
/**
 * Its length in bytes.
 */
bytes: number, 
/**
 * Bytes that are here.
 */
have: number, 
/**
 * When it was begun.
 */
since: string, 
/**
 * When the last piece of it came.
 */
last: string, };
